// Another player than the expected one has served.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "server"
    word: qsTr("Another player served")
    key: "W"
    place: TableSheet.More
    rank: 10

    readonly property bool onLeft: seat.left.serving

    title: qsTr("Who has served?")
    note: qsTr("Before calling a wrong server, think of a line-up copied wrongly, a substitution not written, or a number misread.")

    NumberGrid {
        prefix: "server"
        players: sheet.onLeft ? sheet.seat.left.roster : sheet.seat.right.roster
        Layout.fillWidth: true
        onPicked: number => {
            sheet.seat.acts.servedBy(sheet.onLeft, number);
            sheet.close();
        }
    }
}
