// One official: conflicts of interest, declared and taken back, and the name, erased when it is asked.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    readonly property OfficialPage page: desk.officials
    property string team: ""

    signal eraseWanted(var who)

    function ask(person: int) {
        if (!sheet.page.look(person))
            return;
        sheet.team = "";
        pick.typed = "";
        why.text = "";
        sheet.open();
        pick.input.forceActiveFocus();
    }

    title: page.title
    note: page.about
    widthMm: 170
    onward: declareIt

    Connections {
        target: sheet.page
        // Taken off the list meanwhile.
        function onLooked() {
            if (sheet.visible && sheet.page.title === "")
                sheet.close();
        }
    }
    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    Label {
        text: qsTr("Conflicts of interest")
        strong: true
    }
    Label {
        visible: sheet.page.conflicts.length === 0
        objectName: "noConflict"
        text: qsTr("None is known.")
        soft: true
    }
    Column {
        id: conflicts
        visible: sheet.page.conflicts.length > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            // Counted: news changes what the lines say and makes none anew that stays.
            model: sheet.page.conflicts.length
            RowLayout {
                id: line
                required property int index
                readonly property var conflict: sheet.page.conflicts[index] ?? { team: "", words: "", declared: false }
                spacing: Theme.gap
                width: conflicts.width
                StateMark {
                    objectName: "conflict" + line.index
                    kind: StateMark.Notice
                    word: line.conflict.words
                    strong: false
                    Layout.fillWidth: true
                }
                Button {
                    objectName: "takeBack-" + line.conflict.team
                    visible: line.conflict.declared
                    kind: Button.Quiet
                    text: qsTr("Take it back")
                    Accessible.name: qsTr("Take the conflict with %1 back").arg(line.conflict.team)
                    onClicked: sheet.page.withdraw(line.conflict.team)
                }
            }
        }
    }
    Pick {
        id: pick
        name: "conflictTeam"
        label: qsTr("Declare one: part of the team’s name")
        options: sheet.page.teamsLike(typed, sheet.team, false)
        chosen: sheet.team
        onPicked: value => {
            if (value !== chosen)
                sheet.spend();
            sheet.team = value;
        }
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Field {
            id: why
            objectName: "conflictWhy"
            label: qsTr("Why, if you like (no health or personal details)")
            problem: sheet.page.problem
            maximumLength: 250
            Layout.fillWidth: true
        }
        Button {
            id: declareIt
            objectName: "declareConflict"
            text: qsTr("Declare it")
            keyHint: qsTr("Enter")
            enabled: sheet.team !== ""
            Layout.alignment: Qt.AlignTop
            Layout.topMargin: Theme.mm(5.4)
            onClicked: sheet.page.declare(sheet.team, why.text)
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Button {
            objectName: "takeOff"
            kind: Button.Quiet
            text: qsTr("Take off the list")
            onClicked: sheet.page.takeOff()
        }
        Item {
            Layout.fillWidth: true
        }
        Button {
            objectName: "eraseOfficial"
            visible: sheet.page.inWords
            kind: Button.Quiet
            text: qsTr("Erase the name")
            Accessible.name: qsTr("Erase the name of %1").arg(sheet.page.title)
            onClicked: sheet.eraseWanted(sheet.page.inWordsOf(sheet.page.person))
        }
    }
}
