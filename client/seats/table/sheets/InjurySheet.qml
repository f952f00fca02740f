// An injured player. The tool writes down that play stopped; it never says who may go on.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "injury"
    word: qsTr("Injury, recovery time")
    key: "I"
    place: TableSheet.More
    rank: 50

    property int person: -1

    title: qsTr("Injury")
    note: qsTr("Stop play and call the medical staff. Medical staff, the local rules and the licensed officials decide whether a player may go on, above all after a blow to the head. Write no diagnosis here.")
    widthMm: 190
    onAboutToShow: {
        person = -1;
        team.chosen = false;
    }

    TeamChoice {
        id: team
        seat: sheet.seat
        chosen: false
        Layout.fillWidth: true
        // The same number is another person in the other team.
        onPicked: sheet.person = -1
    }
    NumberGrid {
        prefix: "injured"
        enabled: team.chosen
        chosen: sheet.person
        players: team.isLeft ? sheet.seat.left.roster : sheet.seat.right.roster
        Layout.fillWidth: true
        onPicked: number => sheet.person = number
    }

    actions: [
        Button {
            objectName: "recordInjury"
            text: qsTr("Record the stop")
            kind: Button.Primary
            enabled: team.chosen && sheet.person >= 0
            onClicked: {
                sheet.seat.acts.record("injury", { team: team.isLeft, player: sheet.person });
                sheet.close();
            }
        },
        Button {
            text: qsTr("Substitute the player")
            enabled: team.chosen && sheet.person >= 0
            onClicked: {
                sheet.close();
                sheet.seat.beginSubstitution(team.isLeft, sheet.person);
                sheet.seat.wantSheet("substitution");
            }
        },
        Button {
            objectName: "recovery"
            text: qsTr("Recovery time")
            enabled: team.chosen && sheet.person >= 0
            onClicked: {
                sheet.seat.acts.record("recovery", { team: team.isLeft, player: sheet.person });
                sheet.close();
            }
        }
    ]
}
