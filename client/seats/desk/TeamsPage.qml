// The teams of the tournament and their lists.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: page

    required property RowList teams
    // The tournament has its record, and teams in it.
    property bool opened: false
    // It has its record, but nothing in it yet.
    property bool begun: false

    signal importWanted()
    // To the teams as the tournament's record has them.
    signal back()
    signal openWanted()

    spacing: Theme.gap

    PageHead {
        title: qsTr("Team lists")
        act: qsTr("Import team lists")
        actName: "import"
        Layout.fillWidth: true
        onActed: page.importWanted()
        Button {
            objectName: "backToEntries"
            kind: Button.Quiet
            text: page.opened ? qsTr("Teams of the tournament")
                : page.begun ? qsTr("Open a division") : qsTr("Open the tournament")
            onClicked: page.opened ? page.back() : page.openWanted()
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    ListView {
        id: list
        objectName: "teamList"
        model: page.teams
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        activeFocusOnTab: true
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.role: Accessible.List
        Accessible.name: qsTr("Teams")
        delegate: ListRow {
            id: row
            required property string name
            required property string club
            required property color colour
            required property string players
            required property string numbers
            required property string liberos
            width: ListView.view.width
            leftPadding: Theme.mm(6)
            title: name
            detail: liberos !== "" ? qsTr("%1   liberos %2").arg(numbers).arg(liberos) : numbers
            trailing: players
            touchable: false
            TeamStripe {
                parent: row
                team: row.colour
                x: Theme.mm(1)
                y: Theme.mm(1.6)
                height: row.height - 2 * y
                width: Theme.mm(2)
            }
        }
        Label {
            visible: list.count === 0
            text: qsTr("No team yet: import the team lists.")
            soft: true
        }
    }
}
