// The teams of a division: pool, seed, team list, and who has left.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: page

    // Keys go to the page that is shown.
    enabled: visible

    required property EventDesk desk
    readonly property EntryPage entries: desk.entries

    signal teamWanted(string team)
    signal newWanted()
    signal divisionWanted()
    signal seedsWanted()
    signal listsWanted()

    function enter() {
        list.forceActiveFocus();
    }

    spacing: Theme.gap

    PageHead {
        title: qsTr("Teams")
        act: qsTr("Enter teams")
        actName: "enterTeams"
        Layout.fillWidth: true
        onActed: page.newWanted()
        Button {
            objectName: "openDivision"
            kind: Button.Quiet
            text: qsTr("Open a division")
            onClicked: page.divisionWanted()
        }
        Button {
            objectName: "giveSeeds"
            kind: Button.Quiet
            text: qsTr("Give seeds")
            onClicked: page.seedsWanted()
        }
        Button {
            objectName: "teamLists"
            kind: Button.Quiet
            text: qsTr("Team lists")
            onClicked: page.listsWanted()
        }
        DivisionPicker {
            desk: page.desk
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    KeyedList {
        id: list
        objectName: "entryList"
        model: page.entries.rows
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.name: qsTr("Teams")
        onEntered: page.teamWanted(page.entries.rows.field(currentIndex, "key") ?? "")
        delegate: ListRow {
            id: row
            required property string key
            required property string about
            required property string pool
            required property int mark
            required property string state
            objectName: "entry-" + key
            width: ListView.view.width
            focusPolicy: Qt.NoFocus
            title: key
            detail: about
            trailing: pool
            selected: ListView.isCurrentItem && ListView.view.activeFocus
            onClicked: page.teamWanted(key)
            StateMark {
                kind: row.mark
                word: row.state
                capMm: 2.5
                Layout.preferredWidth: Theme.mm(34)
            }
        }
        Label {
            visible: list.count === 0
            width: parent.width
            text: page.desk.opened ? qsTr("No team is entered in this division.")
                                   : qsTr("Open a division first, then enter its teams.")
            soft: true
            wrapMode: Text.WordWrap
        }
    }
}
