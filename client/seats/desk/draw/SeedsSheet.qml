// The teams of a division by seed, best first.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk

    title: qsTr("Seeds of %1").arg(desk.divisionName)
    note: qsTr("Bring the lines into order, best team first.")
    widthMm: 130
    onward: giveThem
    onAboutToShow: {
        desk.divisionPage.forgetProblem();
        lines.text = desk.divisionPage.seeds;
    }

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    TextArea {
        id: lines
        objectName: "seedLines"
        label: qsTr("One team a line")
        Layout.fillWidth: true
        Layout.preferredHeight: Theme.mm(90)
    }
    StateMark {
        visible: word !== ""
        kind: StateMark.Fault
        word: sheet.desk.divisionPage.problem
        lines: 4
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: giveThem
            objectName: "seedsNow"
            kind: Button.Primary
            text: qsTr("See what it changes")
            keyHint: qsTr("Ctrl+Enter")
            onClicked: sheet.desk.divisionPage.giveSeeds(lines.text)
        }
    ]
}
