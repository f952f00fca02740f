// What a person must know on a page without a line for verdicts: not saved, news, an offer.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

RowLayout {
    id: line

    required property TableSeat seat

    visible: seat.board.help !== ""
    spacing: Theme.gap

    StateMark {
        objectName: "help"
        kind: line.seat.board.problem !== "" ? StateMark.Fault : StateMark.Caution
        word: line.seat.board.help
        lines: 4
        Layout.fillWidth: true
        Accessible.role: Accessible.AlertMessage
        Accessible.name: line.seat.board.help
    }
    Button {
        objectName: "goToNext"
        // The page of the result has it in its middle.
        visible: line.seat.nextMatch !== "" && line.seat.page !== TableSeat.ResultPage
        text: qsTr("Next match")
        explanation: line.seat.nextMatch
        onClicked: line.seat.goToNextMatch()
    }
    Button {
        objectName: "lookAtList"
        visible: line.seat.deskLists.offer !== ""
        text: qsTr("Look at the list")
        onClicked: line.seat.wantSheet("deskList")
    }
}
