// Team lists from a file: how one looks, what was read, and everything that is wrong with it.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: page

    required property RosterImport rosters
    // Some team has a frozen list, which changes for a reason only.
    property bool frozen: false

    signal back()

    spacing: Theme.gap

    Heading {
        text: qsTr("Import team lists")
        elide: Text.ElideRight
        Layout.fillWidth: true
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Field {
            id: path
            objectName: "rosterPath"
            label: qsTr("Path of a CSV file, or drop one here")
            Layout.fillWidth: true
            onAccepted: page.rosters.readFile(text)
        }
        Button {
            objectName: "readFile"
            text: qsTr("Read the file")
            enabled: !page.rosters.busy
            Layout.alignment: Qt.AlignBottom
            onClicked: page.rosters.readFile(path.text)
        }
        Button {
            objectName: "paste"
            text: paste.visible ? qsTr("Hide the lines") : qsTr("Write or paste lines")
            Layout.alignment: Qt.AlignBottom
            onClicked: paste.visible = !paste.visible
        }
    }
    ColumnLayout {
        objectName: "rosterFormat"
        visible: page.rosters.lines.count === 0 && page.rosters.faults.count === 0
        spacing: Theme.mm(1)
        Layout.fillWidth: true
        Label {
            objectName: "rosterColumns"
            text: qsTr("One line for each player. The first line names the columns: team and number are needed; name, captain, libero, club, colour, division, role and last pool as you like, in any order, separated by commas, semicolons or tabs. Write yes for a captain or a libero, six digits from 0 to 9 and a to f, such as 1f3a5f, for the colour of the shirts, and save the file as UTF-8. With several divisions the column division tells by its code where a team plays; the column last pool tells in which pool it played the last event, so that a draw can say who meets again. A line with the role coach, official or worker is somebody who does not play: it has no number, and an official or a worker has no team. For example:")
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Label {
            objectName: "rosterExample"
            text: page.rosters.example
            soft: true
            Layout.fillWidth: true
        }
    }
    RowLayout {
        id: paste
        visible: false
        spacing: Theme.gap
        Layout.fillWidth: true
        TextArea {
            id: lines
            objectName: "rosterText"
            label: qsTr("Lines of the list; the first one names the columns")
            Layout.fillWidth: true
        }
        Button {
            objectName: "readText"
            text: qsTr("Read the lines")
            enabled: !page.rosters.busy
            Layout.alignment: Qt.AlignBottom
            onClicked: page.rosters.readText(lines.text)
        }
    }
    Field {
        id: why
        objectName: "rosterReason"
        visible: page.frozen && page.rosters.lines.count > 0
        label: qsTr("Why frozen lists change, where one does (no health or personal details)")
        Layout.fillWidth: true
        Connections {
            target: why.input
            function onEditingFinished() {
                page.rosters.sayWhy(why.text);
            }
        }
        Connections {
            target: page.rosters
            function onKept() {
                why.text = "";
            }
        }
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        StateMark {
            objectName: "rosterSummary"
            visible: word !== ""
            kind: page.rosters.summaryMark
            word: page.rosters.summary
            lines: 4
            Layout.fillWidth: true
        }
        Busy {
            visible: page.rosters.busy
            words: qsTr("Checking the team lists")
        }
        Button {
            objectName: "cancelRead"
            visible: page.rosters.busy
            text: qsTr("Cancel")
            onClicked: page.rosters.cancel()
        }
    }
    KeyedList {
        id: faults
        objectName: "rosterFaults"
        visible: count > 0
        model: page.rosters.faults
        Layout.fillWidth: true
        Layout.preferredHeight: Math.min(contentHeight, page.height * 0.36)
        Accessible.name: qsTr("What is wrong with the file")
        onEntered: (currentItem as T.ItemDelegate)?.clicked()
        delegate: T.ItemDelegate {
            id: fault
            required property int index
            required property int row
            required property string words
            objectName: "fault-" + index
            text: words
            width: ListView.view.width
            implicitHeight: implicitContentHeight + Theme.mm(1.6)
            focusPolicy: Qt.NoFocus
            Accessible.role: Accessible.ListItem
            Accessible.name: words
            Accessible.onPressAction: clicked()
            onClicked: if (row >= 0)
                           list.positionViewAtIndex(row, ListView.Center)
            background: Rectangle {
                color: "transparent"
                border.color: Theme.ink
                border.width: fault.ListView.isCurrentItem && faults.activeFocus
                              ? Theme.focusRing : 0
            }
            contentItem: StateMark {
                kind: StateMark.Fault
                word: fault.words
                strong: false
                lines: 5
            }
        }
    }
    Label {
        objectName: "moreFaults"
        visible: text !== ""
        text: page.rosters.moreFaults
        strong: true
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Hairline {
        visible: list.count > 0
        Layout.fillWidth: true
    }
    ListView {
        id: list
        objectName: "rosterLines"
        model: page.rosters.lines
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        activeFocusOnTab: true
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.role: Accessible.Table
        Accessible.name: qsTr("Lines of the file")
        delegate: RosterLine {
            width: ListView.view.width
            columns: page.rosters.columns.length
        }
        DropArea {
            anchors.fill: parent
            onDropped: drop => {
                if (drop.hasUrls)
                    page.rosters.readFile(drop.urls[0].toString());
            }
        }
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Item {
            Layout.fillWidth: true
        }
        Button {
            kind: Button.Quiet
            text: qsTr("Back to the teams")
            onClicked: page.back()
        }
        Button {
            objectName: "keepRosters"
            kind: Button.Primary
            text: qsTr("Keep these teams")
            enabled: page.rosters.mayKeep
            onClicked: page.rosters.keep()
        }
    }
}
