// A crew: people who work matches together.
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
    OfferFlow {
        name: "member-"
        options: sheet.page.members
        chosen: sheet.page.chosen
        several: true
        Layout.fillWidth: true
        onPicked: person => sheet.page.toggle(person)
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
