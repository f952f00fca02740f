// On the sheet of a team: its list, frozen or to be frozen, and the names that are known.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: card

    required property TeamPeople people

    signal eraseWanted(var who)

    spacing: Theme.gap

    Label {
        text: qsTr("Team list")
        strong: true
    }
    Label {
        objectName: "teamNumbers"
        text: card.people.list
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "teamFrozen"
        kind: card.people.frozen ? StateMark.Good : StateMark.Quiet
        word: card.people.frozenWords
        strong: false
        lines: 8
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "teamDifference"
        visible: word !== ""
        kind: StateMark.Caution
        word: card.people.difference
        lines: 4
        Layout.fillWidth: true
    }
    RowLayout {
        visible: card.people.mayFreeze
        spacing: Theme.gap
        Layout.fillWidth: true
        Item {
            Layout.fillWidth: true
        }
        Button {
            objectName: "freezeList"
            text: card.people.frozen ? qsTr("Change the frozen list") : qsTr("Freeze the list")
            onClicked: card.people.freeze()
        }
    }
    StateMark {
        objectName: "freezeProblem"
        visible: word !== ""
        kind: StateMark.Fault
        word: card.people.problem
        lines: 4
        Layout.fillWidth: true
    }
    Label {
        visible: card.people.named.length > 0
        text: qsTr("Names that are known here")
        strong: true
    }
    Column {
        id: named
        visible: card.people.named.length > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            // Counted, as every list of a sheet: an erased name changes what a line tells, and remakes none.
            model: card.people.named.length
            RowLayout {
                id: line
                required property int index
                readonly property var who: card.people.named[index] ?? { "person": 0, "name": "", "about": "" }
                spacing: Theme.gap
                width: named.width
                Label {
                    text: qsTr("%1 · %2").arg(line.who.name).arg(line.who.about)
                    elide: Text.ElideRight
                    Layout.fillWidth: true
                }
                Button {
                    objectName: "erase-" + line.who.person
                    kind: Button.Quiet
                    text: qsTr("Erase the name")
                    Accessible.name: qsTr("Erase the name of %1").arg(line.who.name)
                    onClicked: card.eraseWanted(line.who)
                }
            }
        }
    }
}
