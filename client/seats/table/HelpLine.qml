// What a person must know on a page without a line for verdicts: not saved, news, an offer.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

RowLayout {
    id: line

    required property TableSeat seat

    signal listAsked()

    visible: seat.help !== ""
    spacing: Theme.gap

    StateMark {
        objectName: "help"
        kind: line.seat.problem !== "" ? StateMark.Fault : StateMark.Caution
        word: line.seat.help
        lines: 3
        Layout.fillWidth: true
        Accessible.role: Accessible.AlertMessage
        Accessible.name: line.seat.help
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
        visible: line.seat.listOffer !== ""
        text: qsTr("Look at the list")
        onClicked: line.listAsked()
    }
}
