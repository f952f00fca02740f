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
    KeyedList {
        id: list
        objectName: "matchList"
        model: table.matches
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.name: qsTr("Matches")
        onEntered: (currentItem as MatchLine)?.askCourt()

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
