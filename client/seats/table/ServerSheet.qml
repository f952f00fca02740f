// Another player than the expected one has served.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Sheet {
    id: sheet

    required property TableSeat seat
    readonly property bool onLeft: seat.left.serving

    title: qsTr("Who has served?")
    note: qsTr("Before calling a wrong server, think of a line-up copied wrongly, a substitution not written, or a number misread.")

    NumberGrid {
        prefix: "server"
        players: sheet.onLeft ? sheet.seat.left.roster : sheet.seat.right.roster
        Layout.fillWidth: true
        onPicked: number => {
            sheet.seat.servedBy(sheet.onLeft, number);
            sheet.close();
        }
    }
}
