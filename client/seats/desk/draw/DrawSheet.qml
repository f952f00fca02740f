// The pools of a division, drawn; which they would be is shown before they are.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property EventDesk desk
    readonly property DivisionPage page: desk.divisionPage
    property string method: "serpentine"
    property bool secondLeg: false
    property int sets: 0

    title: qsTr("Draw the pools of %1").arg(desk.divisionName)
    note: qsTr("%1 teams. Pools hold three to eight.").arg(page.teamCount)
    widthMm: 160
    onward: drawThem
    onAboutToShow: {
        page.forgetProblem();
        pools.input.forceActiveFocus();
    }

    OwnAct {
        owner: sheet
        preview: sheet.desk.preview
    }

    Choice {
        name: "method-"
        label: qsTr("How")
        options: [["serpentine", qsTr("by seed, like a snake")],
                  ["rows", qsTr("each row of the snake by lot")],
                  ["by-hand", qsTr("empty pools, filled by hand")]]
        chosen: sheet.method
        onPicked: value => sheet.method = value
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Field {
            id: pools
            objectName: "poolCount"
            label: qsTr("Pools")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 2
            Layout.preferredWidth: Theme.mm(24)
        }
        Field {
            id: cuts
            objectName: "poolCuts"
            label: qsTr("Last place that goes on")
            example: qsTr("2")
            maximumLength: 20
            Layout.preferredWidth: Theme.mm(44)
        }
        Field {
            id: prefix
            objectName: "poolPrefix"
            label: qsTr("Before the names of matches, if anything")
            maximumLength: 12
            Layout.fillWidth: true
        }
    }
    Choice {
        name: "legs-"
        label: qsTr("Everyone meets everyone")
        options: [[false, qsTr("once")], [true, qsTr("twice, the sides turned")]]
        chosen: sheet.secondLeg
        onPicked: value => sheet.secondLeg = value
    }
    Choice {
        name: "poolSets-"
        label: qsTr("Format of the matches in pools")
        options: [[0, qsTr("as the division")], [1, qsTr("one set")], [2, qsTr("two sets, both played")],
                  [3, qsTr("best of three")], [5, qsTr("best of five")]]
        chosen: sheet.sets
        onPicked: value => sheet.sets = value
    }
    RowLayout {
        visible: sheet.sets > 0
        spacing: Theme.gap
        Field {
            id: points
            objectName: "poolPoints"
            label: qsTr("Points of a set")
            example: qsTr("25")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 2
            Layout.preferredWidth: Theme.mm(34)
        }
        Field {
            id: deciding
            objectName: "poolDeciding"
            label: qsTr("Of the deciding set")
            example: qsTr("15")
            inputMethodHints: Qt.ImhDigitsOnly
            maximumLength: 2
            Layout.preferredWidth: Theme.mm(34)
        }
    }
    StateMark {
        objectName: "drawProblem"
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
            id: drawThem
            objectName: "drawNow"
            kind: Button.Primary
            text: qsTr("See the pools")
            keyHint: qsTr("Enter")
            onClicked: sheet.page.drawPools({
                "method": sheet.method, "pools": Number(pools.text), "cuts": cuts.text,
                "prefix": prefix.text, "secondLeg": sheet.secondLeg, "sets": sheet.sets, "points": Number(points.text),
                "decidingPoints": Number(deciding.text)
            })
        }
    ]
}
