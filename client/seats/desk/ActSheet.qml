// What an act would do, before it is done. Asked once; Enter does it, Escape leaves all as it is.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property ActPreview preview

    component Lines: Column {
        id: group
        property var model: []
        property string heading: ""
        property string name: ""
        property int kind: StateMark.Quiet
        visible: model.length > 0
        spacing: Theme.mm(1)
        Layout.fillWidth: true
        Label {
            visible: text !== ""
            text: group.heading
            strong: true
            wrapMode: Text.WordWrap
            width: group.width
        }
        Repeater {
            // Counted: an answer changes what the lines say while they are being laid out, and makes
            // anew none that stays.
            model: group.model.length
            StateMark {
                required property int index
                objectName: group.name + index
                kind: group.kind
                word: group.model[index] ?? ""
                strong: false
                lines: 8
                width: group.width
            }
        }
    }

    title: preview.title
    closeWord: qsTr("Leave it")
    widthMm: 160
    onward: now
    mayClose: !preview.acting
    onClosed: preview.close()

    onAboutToShow: {
        if (preview.whyLabel !== "")
            why.input.forceActiveFocus();
    }

    Connections {
        target: sheet.preview
        function onAsked(wish: int) {
            why.text = sheet.preview.why;
        }
        function onChanged() {
            if (sheet.preview.open && !sheet.visible)
                sheet.open();
            else if (!sheet.preview.open && sheet.visible)
                sheet.close();
        }
    }

    Lines {
        name: "actSays"
        model: sheet.preview.says
    }
    Lines {
        name: "actNote"
        model: sheet.preview.notes
        kind: StateMark.Notice
    }
    Lines {
        name: "actBetween"
        heading: qsTr("Meanwhile others have recorded:")
        model: sheet.preview.between
        kind: StateMark.Caution
    }
    Lines {
        name: "actFinding"
        heading: qsTr("This cannot take effect:")
        model: sheet.preview.findings
        kind: StateMark.Fault
    }
    Lines {
        name: "actEffect"
        model: sheet.preview.effects
        kind: StateMark.Notice
    }
    Label {
        objectName: "actNothingElse"
        visible: sheet.preview.says.length > 0 && !sheet.preview.busy
                 && sheet.preview.findings.length === 0 && sheet.preview.effects.length === 0
        text: qsTr("Nothing else hangs on it.")
        soft: true
    }
    Field {
        id: why
        objectName: "actWhy"
        visible: sheet.preview.whyLabel !== ""
        label: sheet.preview.whyLabel
        problem: sheet.preview.whyMissing
        maximumLength: 250
        readOnly: sheet.preview.acting
        Layout.fillWidth: true
        onEdited: sheet.preview.why = text
    }
    Busy {
        visible: sheet.preview.busy
        words: qsTr("Asking the record")
    }
    StateMark {
        objectName: "actProblem"
        visible: sheet.preview.problem !== ""
        kind: StateMark.Fault
        word: sheet.preview.problem
        lines: 5
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "actAgain"
            visible: sheet.preview.problem !== "" && !sheet.preview.mayAct
            text: qsTr("Ask again")
            onClicked: sheet.preview.askAgain()
        },
        Button {
            id: now
            objectName: "actNow"
            kind: Button.Primary
            text: qsTr("Record it")
            keyHint: qsTr("Enter")
            enabled: sheet.preview.mayAct
            onClicked: sheet.preview.act()
        }
    ]
}
