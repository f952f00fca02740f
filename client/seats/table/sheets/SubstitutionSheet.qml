// A request for substitution: touch who goes out and who comes in, as many pairs as are asked for.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "substitution"
    key: "S"
    place: TableSheet.BarLeft
    rank: 20

    readonly property SubstitutionDraft draft: seat.substitution

    title: qsTr("Substitution")
    widthMm: 190
    takesFigures: true
    onDigitTyped: digit => draft.typeDigit(digit)
    onErased: draft.eraseTyped()
    onEntered: draft.typed !== "" ? draft.acceptTyped() : draft.pairs.length > 0 ? finish() : undefined

    function ask() {
        seat.beginSubstitution(true, -1);
        open();
    }
    function finish() {
        seat.recordSubstitution();
        close();
    }

    TeamChoice {
        seat: sheet.seat
        isLeft: sheet.draft.onLeft
        Layout.fillWidth: true
        onPicked: isLeft => sheet.seat.beginSubstitution(isLeft, -1)
    }
    Label {
        text: qsTr("Out: on court %1").arg(sheet.draft.typed !== "" ? "   " + sheet.draft.typed + "_" : "")
        soft: true
        capMm: 2.5
    }
    NumberGrid {
        prefix: "out"
        players: sheet.draft.onCourt
        showLegality: true
        Layout.fillWidth: true
        onPicked: number => sheet.draft.pick(number)
    }
    Label {
        text: qsTr("In: from the bench")
        soft: true
        capMm: 2.5
    }
    NumberGrid {
        prefix: "in"
        players: sheet.draft.bench
        showLegality: true
        Layout.fillWidth: true
        onPicked: number => sheet.draft.pick(number)
    }
    Flow {
        visible: sheet.draft.pairs.length > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.draft.pairs
            Chip {
                required property int index
                required property string modelData
                text: qsTr("%1   ×").arg(modelData)
                touchable: true
                strong: true
                capMm: 3.4
                Accessible.description: qsTr("Touch to take the pair away")
                onClicked: sheet.draft.dropPair(index)
            }
        }
    }
    Column {
        id: troubles
        spacing: Theme.mm(1)
        visible: sheet.draft.problems.length > 0
        Layout.fillWidth: true
        Repeater {
            model: sheet.draft.problems
            StateMark {
                required property string modelData
                kind: StateMark.Caution
                word: modelData
                capMm: 2.5
                width: troubles.width
            }
        }
    }

    actions: [
        Button {
            objectName: "exceptional"
            text: qsTr("Exceptional (injury)")
            checkable: true
            checked: sheet.draft.exceptional
            onClicked: sheet.draft.exceptional = !sheet.draft.exceptional
        },
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "recordSubstitution"
            kind: sheet.draft.problems.length > 0 ? Button.Grave : Button.Primary
            text: sheet.draft.problems.length > 0 ? qsTr("It happened: record it")
                                                  : qsTr("Record the substitution")
            enabled: sheet.draft.pairs.length > 0
            onClicked: sheet.finish()
        }
    ]
}
