// Everything that is needed seldom, each two touches away.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "more"
    key: "M"
    place: TableSheet.BarRight
    rank: 30

    title: qsTr("More")
    widthMm: 190
    // Made anew each time: while it is closed no rally has to wait for it.
    property var shown: []
    onAboutToShow: shown = entries()

    // What is done at once, each in one row.
    function acts(): var {
        return [
            { rank: 20, name: "positionLeft", word: qsTr("Positional fault of %1").arg(seat.left.letter),
              act: () => seat.acts.positionalFault(true) },
            { rank: 30, name: "positionRight", word: qsTr("Positional fault of %1").arg(seat.right.letter),
              act: () => seat.acts.positionalFault(false) },
            { rank: 60, name: "replay", word: qsTr("Replay the rally"),
              act: () => seat.acts.record("replay", {}) },
            { rank: 110, name: "courts", word: qsTr("Teams change courts"),
              act: () => seat.acts.attempt("court_switch", {}) },
            { rank: 120, name: "lineUpLeft", word: qsTr("Correct line-up of %1").arg(seat.left.letter),
              act: () => seat.openLineUp(true) },
            { rank: 130, name: "lineUpRight", word: qsTr("Correct line-up of %1").arg(seat.right.letter),
              act: () => seat.openLineUp(false) },
            { rank: 140, name: "flip", word: qsTr("Turn the view round"), act: () => seat.flipView() },
            { rank: 150, name: "lamp", word: Theme.dark ? qsTr("Light paper") : qsTr("Dark paper"),
              act: () => Theme.dark = !Theme.dark },
            { rank: 170, name: "goOnHere", word: qsTr("Ask to go on here"),
              offered: seat.saving.fenced && seat.saving.canAsk,
              act: () => seat.saving.askToGoOn() },
            { rank: 180, name: "interrupted", word: qsTr("Match interrupted"),
              offered: !seat.interrupted, act: () => seat.acts.record("interrupted", {}) },
            { rank: 190, name: "otherCourt", word: qsTr("Hold: set anew, other court"), grave: true,
              offered: seat.interrupted, act: () => seat.acts.record("resumed", { how: "other-court" }) },
            { rank: 200, name: "wholeMatch", word: qsTr("Hold: whole match anew"), grave: true,
              offered: seat.interrupted, act: () => seat.acts.record("resumed", { how: "over-four-hours" }) },
            { rank: 210, name: "incompleteLeft", grave: true,
              word: qsTr("Hold: %1 cannot go on").arg(seat.left.letter),
              act: () => seat.acts.record("incomplete", { team: true, scope: "set" }) },
            { rank: 220, name: "incompleteRight", grave: true,
              word: qsTr("Hold: %1 cannot go on").arg(seat.right.letter),
              act: () => seat.acts.record("incomplete", { team: false, scope: "set" }) }
        ];
    }
    // A sheet stands among them by its own word.
    function entries(): var {
        const now = acts().filter(entry => entry.offered ?? true);
        for (const other of shelf.offeredAt(TableSheet.More))
            now.push({ rank: other.rank, name: other.name, word: other.word,
                       act: () => other.ask() });
        return now.sort((a, b) => a.rank - b.rank);
    }

    component Entry: Button {
        required property var modelData
        readonly property bool grave: modelData.grave ?? false
        objectName: "more-" + modelData.name
        text: modelData.word
        capMm: 2.6
        kind: grave ? Button.Grave : Button.Plain
        width: Math.floor((grid.width - (grid.columns - 1) * grid.columnSpacing) / grid.columns) - 1
        // What cannot be meant by a slip is held for a second.
        onClicked: {
            if (grave)
                return;
            sheet.close();
            modelData.act();
        }
        onPressAndHold: {
            if (!grave)
                return;
            sheet.close();
            modelData.act();
        }
    }

    Grid {
        id: grid
        columns: 3
        columnSpacing: Theme.gap
        rowSpacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.shown
            Entry {}
        }
    }
}
