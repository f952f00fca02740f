// On the sheet of a match: who works it, and the way to change that.
import QtQuick
import QtQuick.Layouts
import Courthand.Design

RowLayout {
    id: line

    property string work: ""

    signal wanted()

    spacing: Theme.gap

    Label {
        objectName: "matchWork"
        text: line.work
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Button {
        objectName: "whoWorks"
        kind: Button.Quiet
        text: qsTr("Who works it")
        onClicked: line.wanted()
    }
}
