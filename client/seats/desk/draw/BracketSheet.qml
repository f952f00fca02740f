// A bracket of a division; its first matches are shown before it is made.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    readonly property DivisionPage page: desk.divisionPage
    property string kind: "single"
    property bool fromPools: page.poolCount > 0
    property bool thirdPlace: true
    property bool secondFinal: true

    title: qsTr("Make a bracket in %1").arg(desk.divisionName)
    note: qsTr("%1 teams, %2 pools. Byes go to the best.").arg(page.teamCount).arg(page.poolCount)
    widthMm: 160
    onward: makeIt
    onAboutToShow: {
        page.forgetProblem();
        fromPools = page.poolCount > 0;
    }

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    Choice {
        name: "kind-"
        label: qsTr("Kind")
        options: [["single", qsTr("single elimination")], ["double", qsTr("double elimination")],
                  ["consolation", qsTr("consolation")],
                  ["placement", qsTr("every place is played for")]]
        chosen: sheet.kind
        onPicked: value => sheet.kind = value
    }
    Choice {
        visible: sheet.page.poolCount > 0
        name: "entrants-"
        label: qsTr("Entrants")
        options: [[true, qsTr("places of the pools, crossed")], [false, qsTr("the teams by seed")]]
        chosen: sheet.fromPools
        onPicked: value => sheet.fromPools = value
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Field {
            id: prefix
            objectName: "bracketPrefix"
            label: qsTr("Before the numbers of its matches")
            example: sheet.page.freePrefix
            maximumLength: 12
            Layout.fillWidth: true
        }
        Field {
            id: size
            objectName: "bracketSize"
            label: qsTr("Entrants, if not all")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 3
            Layout.preferredWidth: Theme.mm(40)
        }
        Field {
            id: best
            objectName: "bestPlace"
            label: qsTr("Best place")
            example: qsTr("1")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 3
            Layout.preferredWidth: Theme.mm(30)
        }
    }
    RowLayout {
        visible: sheet.fromPools
        spacing: Theme.gap
        Layout.fillWidth: true
        Field {
            id: from
            objectName: "fromPlace"
            label: qsTr("From place of the pools")
            example: qsTr("1")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 2
            Layout.fillWidth: true
        }
        Field {
            id: to
            objectName: "toPlace"
            label: qsTr("To place of the pools")
            example: qsTr("2")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 2
            Layout.fillWidth: true
        }
    }
    Choice {
        visible: sheet.kind === "single"
        name: "third-"
        label: qsTr("The losers of the semifinals")
        options: [[true, qsTr("play for third place")], [false, qsTr("share third place")]]
        chosen: sheet.thirdPlace
        onPicked: value => sheet.thirdPlace = value
    }
    Choice {
        visible: sheet.kind === "double"
        name: "again-"
        label: qsTr("When the unbeaten team loses the final")
        options: [[true, qsTr("one more final")], [false, qsTr("that is all")]]
        chosen: sheet.secondFinal
        onPicked: value => sheet.secondFinal = value
    }
    StateMark {
        objectName: "bracketProblem"
        visible: word !== ""
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
            id: makeIt
            objectName: "bracketNow"
            kind: Button.Primary
            text: qsTr("See the matches")
            keyHint: qsTr("Enter")
            onClicked: sheet.page.makeBracket({
                "kind": sheet.kind, "prefix": prefix.text,
                "from": sheet.fromPools ? Number(from.text) : 0,
                "to": sheet.fromPools ? Number(to.text !== "" ? to.text : "2") : 0,
                "size": Number(size.text), "best": Number(best.text),
                "thirdPlace": sheet.kind === "single" && sheet.thirdPlace,
                "secondFinal": sheet.kind === "double" && sheet.secondFinal
            })
        }
    ]
}
