// One team out of the list.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: picker

    required property RowList teams
    property string title: ""
    property string prefix: ""
    property string chosen: ""
    // A team that cannot be chosen here, because it is chosen beside.
    property string barred: ""

    spacing: Theme.mm(1)

    Label {
        text: picker.title
        soft: true
        capMm: 2.5
    }
    Hairline {
        Layout.fillWidth: true
    }
    KeyedList {
        id: list
        model: picker.teams
        Layout.fillWidth: true
        Layout.preferredHeight: Theme.mm(56)
        enters: false
        Accessible.name: picker.title
        Keys.onSpacePressed: (currentItem as ListRow)?.clicked()
        delegate: ListRow {
            required property string teamId
            required property string name
            required property string players
            objectName: picker.prefix + teamId
            width: ListView.view.width
            title: name
            trailing: players !== "" ? "" : qsTr("no list")
            selected: picker.chosen === teamId
            markWord: " "
            markKind: selected ? StateMark.Good : StateMark.Quiet
            enabled: picker.barred !== teamId
            opacity: enabled ? 1 : 0.5
            Accessible.role: Accessible.RadioButton
            Accessible.checked: selected
            onClicked: picker.chosen = teamId
        }
    }
}
