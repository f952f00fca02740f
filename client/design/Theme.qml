// Every colour, size and duration of the program. Sizes are physical: `mm()` gives logical pixels
// for millimetres on the glass. A window larger than the page grows everything in proportion; one
// that is smaller than the least page shrinks it (and then no longer meets the touch sizes).
pragma Singleton
import QtQuick

QtObject {
    id: theme

    property bool dark: false

    // ---- size -------------------------------------------------------------------------------
    // Set by SeatWindow from its screen and its size; `pixelsPerMmOverride` > 0 wins (tests).
    property real screenDensity: 96 / 25.4
    property real windowWidth: 0
    property real windowHeight: 0
    property real pixelsPerMmOverride: 0

    // The page every screen is drawn for: a 10-inch tablet. And the least one that still works.
    readonly property real pageWidthMm: 216
    readonly property real pageHeightMm: 135
    readonly property real leastWidthMm: 176
    readonly property real leastHeightMm: 104

    readonly property real fillPage: Math.min(windowWidth / pageWidthMm,
                                              windowHeight / pageHeightMm)
    readonly property real fillLeast: Math.min(windowWidth / leastWidthMm,
                                               windowHeight / leastHeightMm)
    readonly property real pixelsPerMm: {
        if (pixelsPerMmOverride > 0)
            return pixelsPerMmOverride;
        if (fillPage <= 0)
            return screenDensity;
        return Math.min(Math.max(screenDensity, fillPage), fillLeast);
    }

    // The page had to shrink so far that fingers miss what is on it: below eight tenths of its sizes.
    readonly property bool tooSmall: pixelsPerMm < 0.8 * screenDensity

    function mm(x: real): real {
        return Math.round(x * theme.pixelsPerMm);
    }

    // Never less than this many pixels, whatever the glass says of itself: a phone or a tablet may
    // tell its density wrongly, or not at all.
    property real leastTouch: 0
    readonly property real touch: Math.max(Math.ceil(10 * pixelsPerMm), leastTouch)
    readonly property real touchTile: Math.ceil(12 * pixelsPerMm)
    readonly property real touchRally: Math.ceil(18 * pixelsPerMm)
    readonly property real gap: Math.ceil(2 * pixelsPerMm)
    readonly property real gapWide: Math.ceil(4 * pixelsPerMm)
    readonly property real margin: Math.ceil(3 * pixelsPerMm)
    readonly property real corner: mm(0.8)
    readonly property real hair: Math.max(1, Math.round(0.18 * pixelsPerMm))
    readonly property real rule: Math.max(2, Math.round(0.5 * pixelsPerMm))
    readonly property real focusRing: Math.max(2, Math.round(0.6 * pixelsPerMm))

    // ---- type: sizes by height of a capital or a figure, which is what the eye needs -----------
    readonly property string family: "Noto Sans"
    readonly property real capPerEm: 0.714
    function cap(x: real): int {
        return Math.max(9, Math.round(x * theme.pixelsPerMm / theme.capPerEm));
    }
    readonly property int captionSize: cap(2.5)
    readonly property int bodySize: cap(2.9)
    readonly property int headingSize: cap(4.2)
    readonly property int numberSize: cap(6.4)
    readonly property int scoreSize: cap(12)

    // ---- paper and ink --------------------------------------------------------------------------
    readonly property color ground: dark ? "#101318" : "#F8F5EE"
    readonly property color raised: dark ? "#191D24" : "#FFFDF8"
    readonly property color floor: dark ? "#2B231B" : "#F2E2CB"
    readonly property color ink: dark ? "#ECE8DE" : "#14213D"
    readonly property color inkSoft: dark ? "#C8C6BF" : "#37415A"
    readonly property color hairline: dark ? "#4A4B4C" : "#C8C0B0"
    // A line that must be seen on its own: edge of a field, of a tile, the net (3:1 and more).
    readonly property color line: dark ? "#8F9094" : "#6E6A62"
    readonly property color veil: dark ? "#B3000000" : "#8014213D"

    // The one accent: what may be touched now. (A property may not begin with "on" and a capital: QML
    // reads such a name as a signal handler.)
    readonly property color accent: dark ? "#9CC7FF" : "#083F7D"
    readonly property color penOnAccent: dark ? "#101318" : "#FFFFFF"
    readonly property color accentTint: dark ? "#1B2F49" : "#DFEAF6"

    // ---- states: Okabe-Ito fills. Always with a shape and a word, the word in ink ---------------
    readonly property color fault: "#D55E00"
    readonly property color caution: "#E69F00"
    readonly property color notice: "#56B4E9"
    readonly property color good: "#009E73"
    readonly property color penOnState: "#000000"
    // A camera wants dark cells on light paper, in the dark theme too.
    readonly property color qrPaper: "#FFFFFF"

    // ---- movement: only to show where something went --------------------------------------------
    readonly property int movement: 120
    readonly property int toastMs: 4000
    readonly property int toastMsPerLetter: 40
    // More than the longest sentence there is takes in the narrowest window.
    readonly property int toastLines: 8
}
