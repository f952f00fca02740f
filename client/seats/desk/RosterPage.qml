// Team lists from a file: what was read, and beside each line what is wrong with it.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

ColumnLayout {
    id: page

    required property RosterImport rosters

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
            label: qsTr("CSV file, or drop one here")
            placeholder: qsTr("path of the file")
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
    RowLayout {
        id: paste
        visible: false
        spacing: Theme.gap
        Layout.fillWidth: true
        TextArea {
            id: lines
            objectName: "rosterText"
            label: qsTr("Lines; the first names the columns: team, number, name, captain, libero")
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
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        StateMark {
            objectName: "rosterSummary"
            visible: word !== ""
            kind: page.rosters.summaryMark
            word: page.rosters.summary
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
    Hairline {
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
