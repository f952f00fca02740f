// One out of many: a field to type part of a name, and a button for each that has it. What is chosen
// stands first.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design

RowLayout {
    id: pick

    property alias label: field.label
    property alias typed: field.text
    property alias input: field.input
    property string name: ""
    // Pairs of a value and its word.
    property var options: []
    property string chosen: ""

    signal picked(string value)

    spacing: Theme.gap
    Layout.fillWidth: true

    Field {
        id: field
        objectName: pick.name + "Find"
        maximumLength: 64
        Layout.preferredWidth: Theme.mm(46)
        Layout.alignment: Qt.AlignTop
        // Enter takes the first that is offered by what was typed.
        onAccepted: {
            const fits = pick.options.filter(option => option[1].toLowerCase().includes(text.trim().toLowerCase()));
            if (text.trim() !== "" && fits.length > 0)
                pick.picked(fits[0][0]);
        }
    }
    Flow {
        spacing: Theme.mm(1)
        Layout.fillWidth: true
        Layout.alignment: Qt.AlignTop
        // Beside the line to type in, below its label.
        Layout.topMargin: Theme.mm(5.4)
        Repeater {
            model: pick.options
            Button {
                required property var modelData
                objectName: pick.name + "-" + modelData[0]
                text: modelData[1]
                capMm: 2.5
                checkable: true
                checked: pick.chosen === modelData[0]
                Accessible.role: Accessible.RadioButton
                Accessible.name: qsTr("%1: %2").arg(pick.label).arg(modelData[1])
                onClicked: pick.picked(modelData[0])
            }
        }
    }
}
