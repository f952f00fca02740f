// One match of the tournament and what the desk can do with its result.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    readonly property ResultPage page: desk.results
    property string how: ""
    property int loser: -1
    // What Enter does stands on it: where a field has an act of its own, that; else what was begun.
    readonly property Button next: {
        if (placing.begun)
            return placing.act;
        if (sheet.how !== "")
            return awardNow;
        return typed.text === "" && sheet.page.mayConfirm ? confirmIt : enterIt;
    }

    signal dutyWanted(string match)

    function hint(button: Button): string {
        return sheet.next === button ? qsTr("Enter") : "";
    }
    function ask(match: string) {
        if (!sheet.page.look(match))
            return;
        typed.text = "";
        placing.fill();
        sheet.how = "";
        sheet.loser = -1;
        sheet.open();
        if (sheet.page.mayEnter)
            typed.input.forceActiveFocus();
        else if (sheet.page.mayReopen)
            reopenIt.forceActiveFocus(Qt.TabFocusReason);
    }

    title: page.title
    note: page.format
    widthMm: 170
    onward: next

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    Label {
        objectName: "matchTeams"
        text: qsTr("%1 – %2").arg(sheet.page.first).arg(sheet.page.second)
        strong: true
        capMm: 3.6
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Column {
        id: about
        visible: sheet.page.about.length > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.page.about.length
            Label {
                required property int index
                text: sheet.page.about[index] ?? ""
                soft: true
                wrapMode: Text.WordWrap
                width: about.width
            }
        }
    }
    WorkLine {
        work: sheet.page.work
        Layout.fillWidth: true
        onWanted: sheet.dutyWanted(sheet.page.match)
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        StateMark {
            kind: sheet.page.mark
            word: sheet.page.state
        }
        Label {
            visible: text !== ""
            objectName: "matchScores"
            text: sheet.page.scores
            strong: true
            Layout.fillWidth: true
        }
    }
    Label {
        objectName: "signatures"
        visible: text !== ""
        text: sheet.page.signatures
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    RowLayout {
        visible: sheet.page.tableScores !== ""
        spacing: Theme.gap
        Layout.fillWidth: true
        Label {
            objectName: "tableScores"
            text: qsTr("The table has recorded %1").arg(sheet.page.tableScores)
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Button {
            id: confirmIt
            objectName: "confirmResult"
            visible: sheet.page.mayConfirm
            kind: Button.Primary
            text: qsTr("Confirm it")
            keyHint: sheet.hint(confirmIt)
            onClicked: sheet.page.confirm()
        }
    }
    MatchPlacing {
        id: placing
        page: sheet.page
        visible: sheet.page.mayPlace
        hint: sheet.hint(placing.act)
        Layout.fillWidth: true
    }
    Hairline {
        visible: sheet.page.mayPlace && sheet.page.mayEnter
        Layout.fillWidth: true
    }
    RowLayout {
        visible: sheet.page.mayEnter
        spacing: Theme.gap
        Layout.fillWidth: true
        Field {
            id: typed
            objectName: "typedSets"
            label: qsTr("From a paper sheet: sets in order, %1 first").arg(sheet.page.first)
            example: qsTr("25-20 25-22")
            problem: sheet.page.problem
            maximumLength: 60
            Layout.fillWidth: true
        }
        Button {
            id: enterIt
            objectName: "enterResult"
            text: qsTr("Enter it")
            keyHint: sheet.hint(enterIt)
            enabled: typed.text !== ""
            Layout.alignment: Qt.AlignTop
            Layout.topMargin: Theme.mm(5.4)
            onClicked: sheet.page.enter(typed.text)
        }
    }
    Hairline {
        visible: sheet.page.mayEnter
        Layout.fillWidth: true
    }
    Label {
        visible: sheet.page.mayEnter
        text: qsTr("Or it is lost without being played to its end")
        strong: true
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Flow {
        visible: sheet.page.mayEnter
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: [["default", qsTr("Default")], ["forfeit", qsTr("Forfeit")],
                    ["team-short", qsTr("Team incomplete")], ["double-default", qsTr("Double default")]]
            Button {
                required property var modelData
                objectName: "award-" + modelData[0]
                text: modelData[1]
                checkable: true
                checked: sheet.how === modelData[0]
                onClicked: sheet.how = sheet.how === modelData[0] ? "" : modelData[0]
            }
        }
    }
    RowLayout {
        visible: sheet.page.mayEnter && sheet.how !== "" && sheet.how !== "double-default"
        spacing: Theme.gap
        Layout.fillWidth: true
        Label {
            text: qsTr("Lost by")
        }
        Repeater {
            model: 2
            Button {
                required property int index
                objectName: "loser" + index
                text: index === 0 ? sheet.page.first : sheet.page.second
                checkable: true
                autoExclusive: true
                checked: sheet.loser === index
                onClicked: sheet.loser = index
            }
        }
        Item {
            Layout.fillWidth: true
        }
    }
    Label {
        visible: sheet.page.mayEnter && sheet.how === "team-short"
        text: qsTr("Write the sets above as they stood, the last one unfinished.")
        soft: true
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    Button {
        id: awardNow
        objectName: "awardNow"
        visible: sheet.page.mayEnter && sheet.how !== ""
        enabled: sheet.how === "double-default" || sheet.loser >= 0
        text: qsTr("See what it changes")
        keyHint: sheet.hint(awardNow)
        onClicked: sheet.page.award(sheet.how, sheet.loser, typed.text)
    }
    RowLayout {
        visible: sheet.page.mayReopen
        spacing: Theme.gap
        Layout.fillWidth: true
        Item {
            Layout.fillWidth: true
        }
        Button {
            id: reopenIt
            objectName: "reopenResult"
            kind: Button.Grave
            text: qsTr("Reopen")
            keyHint: sheet.hint(reopenIt)
            explanation: qsTr("Everything that hangs on it is listed first")
            onClicked: sheet.page.reopen()
        }
    }
}
