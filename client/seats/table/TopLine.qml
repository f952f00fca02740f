// The top line: court, set, match; a running clock; and whether all is saved and sent.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

RowLayout {
    id: line

    required property TableSeat seat
    property alias clock: clock

    signal keysAsked()

    spacing: Theme.gapWide

    Label {
        text: qsTr("Court %1").arg(line.seat.court)
        strong: true
        capMm: 4.2
    }
    Label {
        visible: line.seat.setNumber > 0
        text: line.seat.deciding ? qsTr("Set %1, deciding").arg(line.seat.setNumber)
                                 : qsTr("Set %1").arg(line.seat.setNumber)
        strong: true
        capMm: 3.4
    }
    Label {
        text: qsTr("match %1, %2").arg(line.seat.matchNumber).arg(line.seat.profile)
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
        objectName: "saved"
        kind: line.seat.problem !== "" ? StateMark.Fault
            : line.seat.syncMark === TableSeat.NeedsPerson ? StateMark.Caution
            : line.seat.syncMark === TableSeat.OnItsWay ? StateMark.Notice : StateMark.Good
        word: line.seat.problem !== "" ? qsTr("NOT saved") : line.seat.syncWords
    }
}
