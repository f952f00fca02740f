// The window of a seat: paper ground, and sizes that follow the glass it is shown on.
import QtQuick
import QtQuick.Controls.Basic as Basic

Basic.ApplicationWindow {
    id: window

    width: 1280
    height: 800
    minimumWidth: 800
    minimumHeight: 480
    visible: true
    color: Theme.ground

    Item {
        id: glass
        readonly property real density: Screen.pixelDensity
    }
    Binding {
        target: Theme
        property: "windowWidth"
        value: window.width
    }
    Binding {
        target: Theme
        property: "windowHeight"
        value: window.height
    }
    Binding {
        target: Theme
        property: "screenDensity"
        value: glass.density
        when: glass.density > 0
    }
}
