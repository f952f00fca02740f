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
        model: picker.desk.divisions
        Chip {
            required property string modelData
            objectName: "division-" + modelData
            touchable: true
            text: modelData
            checkable: true
            checked: picker.desk.division === modelData
            onClicked: picker.desk.division = modelData
        }
    }
}
