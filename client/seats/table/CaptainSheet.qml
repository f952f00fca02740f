// Who is game captain while the team captain is off the court.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Sheet {
    id: sheet

    required property TableSeat seat

    title: qsTr("Game captain")
    note: qsTr("The captain on court carries the C. It goes back to the team captain with the team captain.")
    onAboutToShow: team.isLeft = seat.captainMissingOnLeft()

    TeamChoice {
        id: team
        seat: sheet.seat
        Layout.fillWidth: true
    }
    NumberGrid {
        prefix: "captain"
        players: sheet.visible ? sheet.seat.captainOptions(team.isLeft) : []
        showLegality: true
        Layout.fillWidth: true
        onPicked: number => {
            sheet.seat.acts.nameCaptain(team.isLeft, number);
            sheet.close();
        }
    }
}
