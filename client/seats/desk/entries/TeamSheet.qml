// One team of the tournament: its list and people, moved to another pool, or withdrawn.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    readonly property EntryPage page: desk.entries
    property string pool: ""
    property string other: ""

    signal eraseWanted(var who)

    function ask(team: string) {
        if (!sheet.page.look(team))
            return;
        sheet.pool = "";
        sheet.other = "";
        sheet.desk.people.look(team);
        sheet.open();
    }

    title: page.team
    note: page.about
    widthMm: 160
    onward: moveIt

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    TeamPeopleCard {
        id: people
        people: sheet.desk.people
        Layout.fillWidth: true
        onEraseWanted: who => sheet.eraseWanted(who)
    }
    Hairline {
        Layout.fillWidth: true
    }
    Choice {
        visible: sheet.page.otherPools.length > 0
        name: "toPool-"
        label: qsTr("Move it to pool")
        options: sheet.page.otherPools
        chosen: sheet.pool
        onPicked: value => {
            sheet.pool = value;
            sheet.other = "";
        }
    }
    Choice {
        visible: sheet.pool !== ""
        name: "swap-"
        label: qsTr("The other way goes")
        options: sheet.page.teamsIn(sheet.pool)
        chosen: sheet.other
        onPicked: value => sheet.other = value
    }
    Button {
        id: moveIt
        objectName: "moveTeam"
        visible: sheet.pool !== ""
        kind: Button.Primary
        text: qsTr("See what the move breaks")
        keyHint: qsTr("Enter")
        onClicked: sheet.page.move(sheet.pool, sheet.other)
    }
    Hairline {
        Layout.fillWidth: true
    }
    RowLayout {
        visible: sheet.page.mayLeave
        spacing: Theme.gap
        Layout.fillWidth: true
        Item {
            Layout.fillWidth: true
        }
        Button {
            objectName: "withdrawTeam"
            kind: Button.Grave
            text: qsTr("Withdraw")
            onClicked: sheet.page.withdraw()
        }
    }
}
