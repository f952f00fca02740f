// Everything that is needed seldom, each two touches away.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Sheet {
    id: sheet

    required property TableSeat seat

    enum Item { Sanctions, Injury, Server, Replay, Ruling, Remark, Protest, Score, Courts,
                LineUpLeft, LineUpRight, Flip, Lamp, Keys, IncompleteLeft, IncompleteRight,
                Interrupted, OtherCourt, WholeMatch, PositionLeft, PositionRight, GoOnHere }

    signal asked(int item)

    title: qsTr("More")
    widthMm: 190

    readonly property var entries: [
        { item: MoreSheet.Server, words: qsTr("Another player served") },
        { item: MoreSheet.PositionLeft, words: qsTr("Positional fault of %1").arg(seat.left.letter) },
        { item: MoreSheet.PositionRight, words: qsTr("Positional fault of %1").arg(seat.right.letter) },
        { item: MoreSheet.Sanctions, words: qsTr("Sanctions, improper request") },
        { item: MoreSheet.Injury, words: qsTr("Injury, recovery time") },
        { item: MoreSheet.Replay, words: qsTr("Replay the rally") },
        { item: MoreSheet.Ruling, words: qsTr("Ruling on a verdict") },
        { item: MoreSheet.Score, words: qsTr("Score correction") },
        { item: MoreSheet.Remark, words: qsTr("Remark") },
        { item: MoreSheet.Protest, words: qsTr("Protest") },
        { item: MoreSheet.Courts, words: qsTr("Teams change courts") },
        { item: MoreSheet.LineUpLeft, words: qsTr("Correct line-up of %1").arg(seat.left.letter) },
        { item: MoreSheet.LineUpRight, words: qsTr("Correct line-up of %1").arg(seat.right.letter) },
        { item: MoreSheet.Flip, words: qsTr("Turn the view round") },
        { item: MoreSheet.Lamp, words: Theme.dark ? qsTr("Light paper") : qsTr("Dark paper") },
        { item: MoreSheet.Keys, words: qsTr("Keys") }
    ]
    readonly property var whenFenced: [
        { item: MoreSheet.GoOnHere, words: qsTr("Ask to go on here") }
    ]
    readonly property var inPlay: [
        { item: MoreSheet.Interrupted, words: qsTr("Match interrupted") }
    ]
    readonly property var cannotGoOn: [
        { item: MoreSheet.IncompleteLeft, grave: true,
          words: qsTr("Hold: %1 cannot go on").arg(seat.left.letter) },
        { item: MoreSheet.IncompleteRight, grave: true,
          words: qsTr("Hold: %1 cannot go on").arg(seat.right.letter) }
    ]
    readonly property var afterInterruption: [
        { item: MoreSheet.OtherCourt, grave: true,
          words: qsTr("Hold: set anew, other court") },
        { item: MoreSheet.WholeMatch, grave: true, words: qsTr("Hold: whole match anew") }
    ]

    component Entry: Button {
        required property var modelData
        readonly property bool grave: modelData.grave ?? false
        objectName: "more" + modelData.item
        text: modelData.words
        capMm: 2.6
        kind: grave ? Button.Grave : Button.Plain
        width: Math.floor((grid.width - (grid.columns - 1) * grid.columnSpacing) / grid.columns) - 1
        // What cannot be meant by a slip is held for a second.
        onClicked: {
            if (grave)
                return;
            sheet.close();
            sheet.asked(modelData.item);
        }
        onPressAndHold: {
            if (!grave)
                return;
            sheet.close();
            sheet.asked(modelData.item);
        }
    }

    Grid {
        id: grid
        columns: 3
        columnSpacing: Theme.gap
        rowSpacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.entries
            Entry {}
        }
        Repeater {
            model: sheet.seat.fenced && sheet.seat.canAsk ? sheet.whenFenced : []
            Entry {}
        }
        Repeater {
            model: sheet.seat.interrupted ? sheet.afterInterruption : sheet.inPlay
            Entry {}
        }
        Repeater {
            model: sheet.cannotGoOn
            Entry {}
        }
    }
}
