// The division on the page; nothing to choose while there is one.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design
import Courthand.Desk

Row {
    id: picker

    required property EventDesk desk

    visible: desk.divisions.length > 1
    spacing: Theme.mm(1)
    Repeater {
        model: picker.desk.divisions.length
        Chip {
            required property int index
            readonly property string code: picker.desk.divisions[index] ?? ""
            objectName: "division-" + code
            touchable: true
            text: code
            checkable: true
            checked: picker.desk.division === code
            onClicked: picker.desk.division = code
        }
    }
}
