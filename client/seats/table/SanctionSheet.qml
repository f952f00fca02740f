// Misconduct of one person, delay by a team, an improper request.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Sheet {
    id: sheet

    required property TableSeat seat
    // -2 nobody chosen yet, -1 somebody without a number
    property int person: -2

    title: qsTr("Sanctions")
    note: qsTr("Written as the first referee shows it.")
    widthMm: 190
    onAboutToShow: {
        person = -2;
        team.chosen = false;
    }

    TeamChoice {
        id: team
        seat: sheet.seat
        chosen: false
        Layout.fillWidth: true
        // The same number is another person in the other team.
        onPicked: sheet.person = -2
    }
    Label {
        text: qsTr("Misconduct: whom, then what")
        soft: true
        capMm: 2.5
    }
    NumberGrid {
        prefix: "person"
        enabled: team.chosen
        chosen: sheet.person
        players: team.isLeft ? sheet.seat.left.roster : sheet.seat.right.roster
        Layout.fillWidth: true
        onPicked: number => sheet.person = number
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Button {
            text: qsTr("Bench, no number")
            checkable: true
            checked: sheet.person === -1
            enabled: team.chosen
            onClicked: sheet.person = -1
        }
        Repeater {
            model: [qsTr("Warning"), qsTr("Penalty"), qsTr("Expulsion"), qsTr("Disqualification")]
            Button {
                required property int index
                required property string modelData
                objectName: "misconduct" + index
                text: modelData
                kind: Button.Grave
                enabled: team.chosen && sheet.person > -2
                Layout.fillWidth: true
                onClicked: {
                    sheet.seat.acts.misconduct(team.isLeft, sheet.person, index);
                    sheet.close();
                }
            }
        }
    }
    Hairline {
        Layout.fillWidth: true
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: [qsTr("Delay warning"), qsTr("Delay penalty")]
            Button {
                required property int index
                required property string modelData
                objectName: "delay" + index
                text: modelData
                kind: Button.Grave
                enabled: team.chosen
                Layout.fillWidth: true
                onClicked: {
                    sheet.seat.acts.delay(team.isLeft, index);
                    sheet.close();
                }
            }
        }
        Button {
            objectName: "improper"
            text: qsTr("Improper request")
            enabled: team.chosen
            Layout.fillWidth: true
            onClicked: {
                sheet.seat.acts.improperRequest(team.isLeft);
                sheet.close();
            }
        }
    }
}
