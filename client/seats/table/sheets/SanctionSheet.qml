// Misconduct of one person, delay by a team, an improper request.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "sanctions"
    word: qsTr("Sanctions, improper request")
    key: "F"
    place: TableSheet.More
    rank: 40

    readonly property var misconducts: [
        { sanction: "warning", word: qsTr("Warning") },
        { sanction: "penalty", word: qsTr("Penalty") },
        { sanction: "expulsion", word: qsTr("Expulsion") },
        { sanction: "disqualification", word: qsTr("Disqualification") }
    ]
    readonly property var delays: [
        { sanction: "warning", word: qsTr("Delay warning") },
        { sanction: "penalty", word: qsTr("Delay penalty") }
    ]
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
            model: sheet.misconducts
            Button {
                required property int index
                required property var modelData
                objectName: "misconduct" + index
                text: modelData.word
                kind: Button.Grave
                enabled: team.chosen && sheet.person > -2
                Layout.fillWidth: true
                onClicked: {
                    sheet.seat.acts.record("misconduct", {
                        team: team.isLeft,
                        person: sheet.person,
                        sanction: modelData.sanction
                    });
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
            model: sheet.delays
            Button {
                required property int index
                required property var modelData
                objectName: "delay" + index
                text: modelData.word
                kind: Button.Grave
                enabled: team.chosen
                Layout.fillWidth: true
                onClicked: {
                    sheet.seat.acts.record("delay", {
                        team: team.isLeft,
                        sanction: modelData.sanction
                    });
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
                sheet.seat.acts.record("improper_request", { team: team.isLeft });
                sheet.close();
            }
        }
    }
}
