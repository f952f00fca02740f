// The name of a person, taken away for good: asked once.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property TeamPeople people
    property int person: 0
    property string name: ""

    function ask(who: var) {
        sheet.person = who.person;
        sheet.name = who.name;
        sheet.people.forgetProblem();
        sheet.open();
    }

    title: qsTr("Erase this name?")
    note: qsTr("The name, and what was noted in words about this person, goes from the record and from every export made from now on. Number and role stay, and the record stays unbroken. Exports with names that were made before, and papers that were printed, keep it. It cannot be undone.")
    closeWord: qsTr("Keep it")
    widthMm: 120
    onward: erase

    Connections {
        target: sheet.people
        function onTold() {
            sheet.close();
        }
    }

    Label {
        objectName: "eraseName"
        text: sheet.name
        strong: true
        wrapMode: Text.Wrap
        Layout.fillWidth: true
    }
    Busy {
        visible: sheet.people.busy
        words: qsTr("Erasing the name")
    }
    StateMark {
        objectName: "eraseProblem"
        visible: word !== ""
        kind: StateMark.Fault
        word: sheet.people.problem
        lines: 5
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: erase
            objectName: "eraseNow"
            kind: Button.Grave
            text: qsTr("Erase for good")
            enabled: !sheet.people.busy
            onClicked: sheet.people.eraseName(sheet.person)
        }
    ]
}
