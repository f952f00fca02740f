// What was decided, chosen from a list, with a note.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

Sheet {
    id: sheet

    required property AlertPage page
    property int choice: -1

    title: qsTr("Ruling")
    note: page.title
    widthMm: 120
    onAboutToShow: {
        choice = -1;
        words.text = "";
    }

    Repeater {
        model: [
            [qsTr("The fault stands"),
             sheet.page.remedy !== "" ? sheet.page.remedy : qsTr("The remedy is applied")],
            [qsTr("No fault"), qsTr("Play goes on as recorded")],
            [qsTr("Handled otherwise"), qsTr("Settled on court; say how in the note")]
        ]
        ListRow {
            required property int index
            required property var modelData
            objectName: "choice" + index
            title: modelData[0]
            detail: modelData[1]
            markKind: sheet.choice === index ? StateMark.Good : StateMark.Quiet
            markWord: " "
            selected: sheet.choice === index
            Accessible.role: Accessible.RadioButton
            Accessible.checkable: true
            Accessible.checked: sheet.choice === index
            Layout.fillWidth: true
            onClicked: sheet.choice = index
        }
    }
    Field {
        id: words
        objectName: "rulingNote"
        label: qsTr("Note, if any (no health or personal details)")
        maximumLength: 250
        Layout.fillWidth: true
    }
    StateMark {
        visible: sheet.page.problem !== ""
        kind: StateMark.Fault
        word: sheet.page.problem
        lines: 4
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "recordRuling"
            kind: Button.Primary
            text: qsTr("Record the ruling")
            enabled: sheet.choice >= 0 && !sheet.page.busy
            onClicked: sheet.page.decide(sheet.choice, words.text)
        }
    ]
}
