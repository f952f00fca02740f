// One out of a few: a label, and a button for each.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design

ColumnLayout {
    id: choice

    property string label: ""
    property string name: ""
    // Pairs of a value and its word.
    property var options: []
    property var chosen: ""

    signal picked(var value)

    spacing: Theme.mm(0.6)
    Layout.fillWidth: true

    Label {
        text: choice.label
        capMm: 2.5
        soft: true
    }
    Flow {
        spacing: Theme.mm(1)
        Layout.fillWidth: true
        Repeater {
            model: choice.options
            Button {
                required property var modelData
                objectName: choice.name + modelData[0]
                text: modelData[1]
                capMm: 2.5
                checkable: true
                checked: choice.chosen === modelData[0]
                Accessible.role: Accessible.RadioButton
                onClicked: choice.picked(modelData[0])
            }
        }
    }
}
