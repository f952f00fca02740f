// The matches of the day in the order of the plan.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: table

    required property RowList matches
    property bool narrow: false

    signal newWanted()
    signal courtWanted(string matchId)

    spacing: Theme.gap

    PageHead {
        title: qsTr("Matches")
        act: qsTr("New match")
        actName: "newMatch"
        Layout.fillWidth: true
        onActed: table.newWanted()
    }
    Hairline {
        Layout.fillWidth: true
    }
    ListView {
        id: list
        objectName: "matchList"
        model: table.matches
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        activeFocusOnTab: true
        keyNavigationEnabled: true
        Keys.forwardTo: [listEnds]
        ListEnds {
            id: listEnds
            view: list
        }
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.role: Accessible.List
        Accessible.name: qsTr("Matches")
        // A key that is still held from the sheet before opens nothing.
        Keys.onReturnPressed: event => {
            if (!event.isAutoRepeat)
                (currentItem as MatchLine)?.askCourt();
        }
        Keys.onEnterPressed: event => {
            if (!event.isAutoRepeat)
                (currentItem as MatchLine)?.askCourt();
        }

        delegate: MatchLine {
            width: ListView.view.width
            narrow: table.narrow
            current: ListView.isCurrentItem && list.activeFocus
            onCourtWanted: table.courtWanted(matchId)
        }
        Label {
            visible: list.count === 0
            width: parent.width
            text: qsTr("No match is planned. Import the team lists, then plan the first match.")
            soft: true
            wrapMode: Text.WordWrap
        }
    }
}
