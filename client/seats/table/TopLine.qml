// The top line: court, set, match; a running clock; and whether all is saved and sent.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

RowLayout {
    id: line

    required property TableSeat seat
    property alias clock: clock
    // Something is said for a moment, in the place of number and profile of the match.
    property bool told: false
    // Where the state of saving, and a clock beside it, begin: nothing is laid over them.
    readonly property real statesAt: clock.visible ? clock.x : saved.x
    // Where court and set end: what is said for a moment begins there.
    readonly property real wordsAt: about.x

    spacing: Theme.gapWide

    Label {
        text: qsTr("Court %1").arg(line.seat.court)
        strong: true
        capMm: 4.2
    }
    Label {
        objectName: "setNow"
        visible: line.seat.setNumber > 0
        text: line.seat.deciding ? qsTr("Set %1, deciding").arg(line.seat.setNumber)
                                 : qsTr("Set %1").arg(line.seat.setNumber)
        strong: true
        capMm: 3.4
    }
    Label {
        id: about
        objectName: "matchName"
        opacity: line.told ? 0 : 1
        text: qsTr("%1, %2").arg(line.seat.matchName).arg(line.seat.profile)
        soft: true
        capMm: 2.5
        elide: Text.ElideRight
        Layout.fillWidth: true
    }
    RunningClock {
        id: clock
        objectName: "clock"
    }
    StateMark {
        id: saved
        objectName: "saved"
        kind: line.seat.board.problem !== "" ? StateMark.Fault
            : line.seat.saving.mark === SavingLine.NeedsPerson ? StateMark.Caution
            : line.seat.saving.mark === SavingLine.OnItsWay ? StateMark.Notice : StateMark.Good
        word: line.seat.board.problem !== "" ? qsTr("NOT saved") : line.seat.saving.words
    }
}
