// The whole event as files: asked where to and whether with names, then told how far it is. The
// sheet may be left meanwhile.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property ExportPage page

    function ask() {
        sheet.page.forget();
        if (!sheet.page.busy) {
            folder.text = sheet.page.usualFolder();
            names.checked = false;
        }
        sheet.open();
    }
    function write() {
        sheet.page.save(folder.text, names.checked);
    }

    title: qsTr("Export the event")
    note: qsTr("Tables, the record and the papers of the event, and a file by which anybody can check it. Nothing is left in the folder unless all of it is there.")
    widthMm: 150
    onward: writeNow

    Field {
        id: folder
        objectName: "exportFolder"
        label: qsTr("Folder on this computer, not there yet or empty")
        maximumLength: 1000
        readOnly: sheet.page.busy
        Layout.fillWidth: true
    }
    Button {
        id: names
        objectName: "exportNames"
        checkable: true
        enabled: !sheet.page.busy
        text: qsTr("With the names of persons")
        explanation: note.text
    }
    Label {
        id: note
        objectName: "exportNamesNote"
        text: !names.checked ? qsTr("Names of persons, reasons and notes are left out.")
                             : qsTr("A name that is erased here later stays in these files: keep them as you keep the list itself, and give them to nobody who need not know.")
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    RowLayout {
        visible: sheet.page.busy
        spacing: Theme.gap
        Busy {
            words: qsTr("Exporting the event")
        }
        Label {
            objectName: "exportProgress"
            text: sheet.page.progress
        }
    }
    StateMark {
        objectName: "exportWritten"
        visible: word !== ""
        kind: StateMark.Good
        word: sheet.page.written
        lines: 5
        Layout.fillWidth: true
    }
    StateMark {
        objectName: "exportProblem"
        visible: word !== ""
        kind: StateMark.Fault
        word: sheet.page.problem
        lines: 6
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: writeNow
            objectName: "exportNow"
            kind: Button.Primary
            text: qsTr("Write the files")
            keyHint: qsTr("Enter")
            enabled: !sheet.page.busy
            onClicked: sheet.write()
        }
    ]
}
