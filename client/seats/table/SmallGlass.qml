// Before the page on a screen that is far too small for it, such as a phone: what is wrong, what would
// help, and the way on for a table that has nothing else. Its own sizes are those of the glass.
import QtQuick
import QtQuick.Layouts
import Courthand.Design

Rectangle {
    id: cover

    // Somebody has read it and goes on.
    property bool accepted: false
    // Pixels a millimetre; what is touched has 48 pixels at least.
    readonly property real unit: Math.max(Theme.screenDensity, 4.8)
    readonly property real larger: unit / Theme.pixelsPerMm

    visible: Theme.tooSmall && !accepted
    color: Theme.ground

    // Nothing under it is touched.
    MouseArea {
        anchors.fill: parent
    }
    ColumnLayout {
        anchors.centerIn: parent
        width: Math.min(parent.width - 8 * cover.unit, 110 * cover.unit)
        spacing: Math.round(4 * cover.unit)

        Label {
            objectName: "smallGlass"
            text: qsTr("This screen is too small for a table")
            capMm: 3.6 * cover.larger
            strong: true
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Label {
            text: qsTr("What is touched in play would be %1 mm wide here; 10 mm are needed to touch it safely. Use a tablet of 10 inches or a laptop.")
                  .arg(Math.round(Theme.touch / Theme.screenDensity))
            capMm: 2.5 * cover.larger
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Label {
            visible: cover.height > cover.width
            text: qsTr("Turned on its side this screen shows everything larger.")
            capMm: 2.5 * cover.larger
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Button {
            objectName: "goOnSmall"
            text: qsTr("Go on all the same")
            capMm: 2.6 * cover.larger
            implicitHeight: Math.round(10 * cover.unit)
            Layout.fillWidth: true
            onClicked: cover.accepted = true
        }
    }
}
