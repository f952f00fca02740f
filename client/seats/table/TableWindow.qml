// The window of a table seat. The program sets `seat` as an initial property.
import QtQuick
import Courthand.Design
import Courthand.Table

SeatWindow {
    id: window

    required property TableSeat seat

    title: qsTr("Courthand, table of court %1").arg(seat.court)

    TablePage {
        anchors.fill: parent
        seat: window.seat
        visible: !small.visible
    }
    SmallGlass {
        id: small
        anchors.fill: parent
    }
}
