// One place on the floor, or one libero beside it: the number is the hero, the Roman numeral its
// companion. A libero is printed white on ink, with L and the number he replaces.
import QtQuick
import QtQuick.Templates as T

T.AbstractButton {
    id: tile

    enum Offer { Idle, Chosen, Legal, Barred }

    property string number: ""
    property string numeral: ""
    property bool captain: false
    property bool libero: false
    // Under the number: for a libero on court whom he replaces, else a short word.
    property string footnote: ""
    // Why this place is not legal for what is chosen; short.
    property string whyNot: ""
    // Round the numeral: a libero may serve here, as the paper sheet marks it.
    property bool triangle: false
    property bool serving: false
    property bool away: false
    property int offer: CourtTile.Idle
    property color team: "transparent"
    property string spoken: ""

    // Left margin of the tile: team stripe, numeral above, captain's C below.
    readonly property bool signs: numeral !== "" || captain
    readonly property bool striped: number !== "" && team.a > 0
    // With nothing but the C it is narrower: the word under the number needs the room.
    readonly property bool onlyCaptain: captain && numeral === "" && !striped
    readonly property real marginal: onlyCaptain ? Theme.mm(6)
                                   : signs ? Theme.mm(8.6) : striped ? Theme.mm(3) : Theme.mm(0.8)
    readonly property real marginalCentre: onlyCaptain ? Theme.mm(3.4) : Theme.mm(5.8)
    // The word under the number goes on below the signs when the captain's C finds room above it.
    readonly property real signBottom: Theme.mm(triangle ? 6.9 : numeral !== "" ? 5.2 : 1.2)
    readonly property real ringSize: Theme.mm(4.8)
    readonly property bool ringAbove: below.visible
                                      && signBottom + ringSize < below.y + below.air
    readonly property bool barred: offer === CourtTile.Barred && !inverse
    readonly property bool inverse: libero && !away && offer !== CourtTile.Legal
    readonly property color pen: inverse ? Theme.raised : Theme.ink
    readonly property color softPen: inverse ? Theme.raised : Theme.inkSoft

    implicitWidth: Theme.mm(22)
    implicitHeight: Theme.mm(17)
    focusPolicy: Qt.TabFocus
    Accessible.role: Accessible.Button
    Accessible.name: spoken
    Accessible.description: whyNot
    Accessible.onPressAction: clicked()

    // A key that is held is one press.
    Keys.onPressed: event => event.accepted = event.isAutoRepeat && event.key === Qt.Key_Space
    Keys.onReleased: event => event.accepted = event.isAutoRepeat && event.key === Qt.Key_Space

    background: Rectangle {
        radius: Theme.corner
        color: tile.offer === CourtTile.Legal ? Theme.accentTint
             : tile.inverse ? Theme.ink
             : tile.offer === CourtTile.Barred ? "transparent" : Theme.raised
        border.color: tile.offer === CourtTile.Legal || tile.offer === CourtTile.Chosen
                      ? Theme.accent : Theme.line
        border.width: tile.offer === CourtTile.Legal || tile.offer === CourtTile.Chosen
                      ? Theme.mm(1) : Theme.hair
        // Team colour: a stripe with an edge, never the whole tile.
        TeamStripe {
            team: tile.team
            visible: tile.striped
            opacity: tile.offer === CourtTile.Barred ? 0.5 : 1
            x: Theme.mm(1.2)
            y: Theme.mm(1.4)
            width: Theme.mm(1.4)
            height: parent.height - 2 * y
        }
        Rectangle {
            visible: tile.visualFocus
            anchors.fill: parent
            anchors.margins: -Theme.focusRing
            color: "transparent"
            radius: Theme.corner + Theme.focusRing
            border.color: Theme.ink
            border.width: Theme.focusRing
        }
    }

    Item {
        anchors.fill: parent
        Label {
            id: roman
            visible: tile.numeral !== ""
            text: tile.numeral
            capMm: tile.triangle ? 2.3 : 3
            strong: true
            color: tile.softPen
            x: tile.marginalCentre - width / 2
            y: tile.triangle ? Theme.mm(1.5) : Theme.mm(0.9)
            Accessible.ignored: true
        }
        Canvas {
            visible: tile.triangle
            readonly property color edge: tile.pen
            onEdgeChanged: requestPaint()
            width: Theme.mm(8)
            height: Theme.mm(6.4)
            x: tile.marginalCentre - width / 2
            y: Theme.mm(0.4)
            onPaint: {
                const c = getContext("2d");
                c.reset();
                c.strokeStyle = edge;
                c.lineWidth = Theme.rule;
                c.lineJoin = "round";
                c.beginPath();
                c.moveTo(width / 2, Theme.rule);
                c.lineTo(width - Theme.rule, height - Theme.rule);
                c.lineTo(Theme.rule, height - Theme.rule);
                c.closePath();
                c.stroke();
            }
        }
        Rectangle {
            visible: tile.captain && !tile.barred
            x: tile.marginalCentre - width / 2
            y: tile.ringAbove ? tile.signBottom : parent.height - height - Theme.mm(1.5)
            width: tile.ringSize
            height: width
            radius: width / 2
            color: "transparent"
            border.color: tile.pen
            border.width: Theme.rule
            Label {
                anchors.centerIn: parent
                //: One letter on the sheet: the captain
                text: qsTr("C")
                capMm: 2.1
                strong: true
                color: tile.pen
                Accessible.ignored: true
            }
        }
        Label {
            id: big
            // Glyphs stand lower in their line than its middle.
            readonly property real sink: font.pixelSize * 0.03
            text: tile.number
            // The number has the field right of the marginal signs to itself, and of its height what
            // the word below leaves.
            x: (tile.marginal + parent.width - Theme.mm(0.8) - width) / 2
            y: ((below.visible ? below.y + below.air : parent.height) - height) / 2 - sink
            // Two figures are so much wider than their capitals are high.
            readonly property real broad: 1.7
            readonly property real roomMm: (parent.width - tile.marginal) / Theme.pixelsPerMm - 0.8
            capMm: tile.barred ? 4.6
                               : Math.max(6.2, Math.min(8.2, tile.height / Theme.pixelsPerMm * 0.43,
                                                        roomMm / broad))
            font.weight: Font.Bold
            color: tile.barred ? Theme.inkSoft : tile.pen
            Accessible.ignored: true
        }
        // One line; why a place is not legal, two. It becomes smaller rather than end in dots.
        Label {
            id: below
            readonly property string words: tile.offer === CourtTile.Barred ? tile.whyNot
                                                                            : tile.footnote
            // Above the capitals, in their line.
            readonly property real air: Theme.cap(capMm) * 0.3
            readonly property bool beside: tile.captain && !tile.barred && !tile.ringAbove
            visible: words !== ""
            text: words
            capMm: tile.barred ? 2.1 : 2.3
            leastCapMm: 1.5
            strong: tile.libero
            color: tile.pen
            anchors.bottom: parent.bottom
            anchors.bottomMargin: Theme.mm(1.1)
            anchors.left: parent.left
            anchors.leftMargin: beside ? tile.marginal : Theme.mm(tile.striped ? 3.2 : 0.8)
            anchors.right: parent.right
            anchors.rightMargin: Theme.mm(0.8)
            height: tile.barred ? Math.min(Theme.mm(7.4), parent.height - Theme.mm(6.6))
                                : Math.ceil(Theme.cap(capMm) * 1.37)
            horizontalAlignment: Text.AlignHCenter
            verticalAlignment: tile.barred ? Text.AlignVCenter : Text.AlignBottom
            elide: tile.barred ? Text.ElideNone : Text.ElideRight
            wrapMode: tile.barred ? Text.WordWrap : Text.NoWrap
            lineHeight: 0.85
            Accessible.ignored: true
        }
    }
}
