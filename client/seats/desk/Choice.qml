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
            // Counted: whoever is chosen may change what else can be, while its button handles the touch.
            model: choice.options.length
            Button {
                required property int index
                readonly property var option: choice.options[index] ?? ["", ""]
                objectName: choice.name + option[0]
                text: option[1]
                capMm: 2.5
                checkable: true
                autoExclusive: true
                checked: choice.chosen === option[0]
                Accessible.role: Accessible.RadioButton
                onClicked: choice.picked(option[0])
            }
        }
    }
}
