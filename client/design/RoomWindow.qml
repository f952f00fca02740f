// The window of a seat that is read at a desk, from across a room, or in the hand. The page grows
// with the window, so that a wall panel three metres away shows the same page as a laptop.
import QtQuick
import QtQuick.Controls.Basic as Basic
import QtQuick.Templates as T

Basic.ApplicationWindow {
    id: window

    property bool dark: false
    // One column instead of two: a phone held upright.
    readonly property bool narrow: width < height * 0.8

    readonly property real pageWidthMm: narrow ? 82 : 300
    readonly property real pageHeightMm: narrow ? 120 : 187
    readonly property real leastWidthMm: narrow ? 70 : 216
    readonly property real leastHeightMm: narrow ? 104 : 126

    // A 55-inch panel is 1218 mm by 685 mm; a state read on it from three metres stands 20 mm tall.
    readonly property real panelPixelsPerMm: Math.min(width / 1218, height / 685)
    readonly property real stateCapMm: Math.max(narrow ? 3.6 : 4.2,
                                                panelPixelsPerMm * 20 / Theme.pixelsPerMm)

    // Least side of what is touched, in pixels.
    property real leastTouch: narrow ? 48 : 0

    // Enter presses the button that has the focus, as Space does; a choice that is made stays made.
    // For the keys of a page: a sheet has its own.
    function pressFocused(event: KeyEvent) {
        const at = window.activeFocusItem as T.AbstractButton;
        const enter = event.key === Qt.Key_Return || event.key === Qt.Key_Enter;
        if (!enter || event.isAutoRepeat || at === null)
            return;
        event.accepted = true;
        if (at.checked)
            return;
        if (at.checkable)
            at.toggle();
        at.clicked();
    }
    // What has the focus is hidden or disabled (it may keep it), or gone.
    function focusIsLost(): bool {
        const at = window.activeFocusItem;
        return at === null || at === window.contentItem || at === window.contentItem.parent
               || !at.visible || !at.enabled;
    }

    width: 1280
    height: 800
    minimumWidth: 320
    minimumHeight: 480
    visible: true
    color: Theme.ground

    // The scale follows one turn after the size, in two steps: a layout that is just being arranged
    // does not notice that its texts have grown, and the second step tells it again.
    function scale(part: real) {
        const page = Math.min(window.width / window.pageWidthMm,
                              window.height / window.pageHeightMm);
        const least = Math.min(window.width / window.leastWidthMm,
                               window.height / window.leastHeightMm);
        Theme.pixelsPerMmOverride = part * Math.min(Math.max(glass.density, page), least);
    }
    onWidthChanged: nudge.restart()
    onHeightChanged: nudge.restart()
    Component.onCompleted: nudge.restart()

    Timer {
        id: nudge
        interval: 0
        onTriggered: {
            window.scale(0.98);
            settle.restart();
        }
    }
    Timer {
        id: settle
        interval: 0
        onTriggered: window.scale(1)
    }

    Item {
        id: glass
        readonly property real density: Screen.pixelDensity
        onDensityChanged: nudge.restart()
    }
    Binding {
        target: Theme
        property: "leastTouch"
        value: window.leastTouch
    }
    Binding {
        target: Theme
        property: "dark"
        value: window.dark
    }
}
