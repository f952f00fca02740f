// One out of many: a field to type part of a name, and a button for each that has it. What is chosen
// stands first.
import QtQuick
import QtQuick.Layouts
import Courthand.Design

RowLayout {
    id: pick

    property alias label: field.label
    property alias typed: field.text
    property alias input: field.input
    property string name: ""
    // Triples of a value, its word and whether Enter takes it.
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
        onAccepted: {
            const meant = pick.options.find(option => option[2]);
            const done = meant !== undefined && meant[0] === pick.chosen;
            // Enter that chooses does no more; what is chosen already leaves it to the sheet.
            field.ownEnter = text.trim() !== "" && !done;
            if (meant !== undefined && !done)
                pick.picked(meant[0]);
        }
    }
    OfferFlow {
        name: pick.name + "-"
        label: pick.label
        options: pick.options
        chosen: [pick.chosen]
        Layout.fillWidth: true
        Layout.alignment: Qt.AlignTop
        // Beside the line to type in, below its label.
        Layout.topMargin: Theme.mm(5.4)
        onPicked: value => pick.picked(value)
    }
}
