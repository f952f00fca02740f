// A person who is to work at the event: role, team, and the name if the venue keeps names.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    readonly property OfficialPage page: desk.officials
    property string role: "official"
    property string team: ""

    title: qsTr("List an official")
    note: qsTr("A number is given. The name may stay away; it stands beside the record and can be erased.")
    widthMm: 160
    onward: listNow
    onAboutToShow: {
        sheet.role = "official";
        sheet.team = "";
        pick.typed = "";
        name.text = "";
        sheet.page.look(0);
        name.input.forceActiveFocus();
    }

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    Choice {
        name: "role-"
        label: qsTr("Role")
        options: [["official", qsTr("Official")], ["worker", qsTr("Worker")]]
        chosen: sheet.role
        onPicked: value => sheet.role = value
    }
    Field {
        id: name
        objectName: "officialName"
        label: qsTr("Name, if you keep names")
        problem: sheet.page.problem
        maximumLength: 64
        Layout.fillWidth: true
    }
    Pick {
        id: pick
        name: "ownTeam"
        label: qsTr("Own team, if any: part of its name")
        options: sheet.page.teamsLike(typed, sheet.team, true)
        chosen: sheet.team
        onPicked: value => {
            sheet.spend();
            sheet.team = value;
        }
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: listNow
            objectName: "listNow"
            kind: Button.Primary
            text: qsTr("See what it changes")
            keyHint: qsTr("Enter")
            onClicked: sheet.page.list(sheet.role, sheet.team, name.text)
        }
    ]
}
