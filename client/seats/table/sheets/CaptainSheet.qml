// Who is game captain while the team captain is off the court.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "captain"
    word: qsTr("Captain")
    key: "C"
    place: TableSheet.BarRight
    rank: 10

    title: qsTr("Game captain")
    note: qsTr("The captain on court carries the C. It goes back to the team captain with the team captain.")
    onAboutToShow: team.isLeft = seat.next.captainOnLeft

    TeamChoice {
        id: team
        seat: sheet.seat
        Layout.fillWidth: true
    }
    NumberGrid {
        prefix: "captain"
        players: sheet.visible ? sheet.seat.acts.captainOptions(team.isLeft) : []
        showLegality: true
        Layout.fillWidth: true
        onPicked: number => {
            sheet.seat.acts.attempt("game_captain", { team: team.isLeft, player: number });
            sheet.close();
        }
    }
}
