// Teams to enter, one a line.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk

    title: qsTr("Enter teams in %1").arg(desk.divisionName)
    widthMm: 150
    onward: enterNow
    onAboutToShow: {
        desk.entries.forgetProblem();
        lines.text = "";
    }

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    TextArea {
        id: lines
        objectName: "teamLines"
        label: qsTr("One team a line; after commas its club and its pool of the last event, if any")
        placeholder: qsTr("Mill Lane 1, Mill Lane, C")
        Layout.fillWidth: true
        Layout.preferredHeight: Theme.mm(60)
    }
    StateMark {
        objectName: "enterProblem"
        visible: word !== ""
        kind: StateMark.Fault
        word: sheet.desk.entries.problem
        lines: 4
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: enterNow
            objectName: "enterNow"
            kind: Button.Primary
            text: qsTr("See what it changes")
            keyHint: qsTr("Ctrl+Enter")
            onClicked: sheet.desk.entries.enter(lines.text)
        }
    ]
}
