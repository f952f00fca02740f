// A crew: people who work matches together.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    readonly property OfficialPage page: desk.officials

    function ask(crew: string) {
        sheet.page.lookAtCrew(crew);
        name.text = "";
        sheet.open();
        if (sheet.page.crew === "")
            name.input.forceActiveFocus();
    }

    title: page.crew !== "" ? qsTr("Crew %1").arg(page.crew) : qsTr("Form a crew")
    note: qsTr("Touch those who belong to it.")
    widthMm: 160
    onward: formNow

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    Field {
        id: name
        objectName: "crewName"
        visible: sheet.page.crew === ""
        label: qsTr("Name of the crew")
        maximumLength: 64
        Layout.fillWidth: true
    }
    Flow {
        spacing: Theme.mm(1)
        Layout.fillWidth: true
        Repeater {
            model: sheet.page.members
            Button {
                required property var modelData
                objectName: "member-" + modelData.person
                text: modelData.words
                capMm: 2.5
                checkable: true
                checked: modelData.chosen
                Accessible.role: Accessible.CheckBox
                onClicked: sheet.page.toggle(modelData.person)
            }
        }
    }
    Label {
        visible: sheet.page.members.length === 0
        text: qsTr("No official is listed yet.")
        soft: true
    }
    StateMark {
        objectName: "crewProblem"
        visible: word !== ""
        kind: StateMark.Fault
        word: sheet.page.problem
        lines: 3
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: formNow
            objectName: "formCrew"
            kind: Button.Primary
            text: qsTr("See what it changes")
            keyHint: qsTr("Enter")
            onClicked: sheet.page.form(name.text)
        }
    ]
}
