// Two teams, a court and the rules: a match.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property DeskSeat seat
    property int court: 0
    property string profile: ""

    title: qsTr("New match")
    widthMm: 200
    onward: plan
    onAboutToShow: {
        // What was chosen for the match before says nothing about this one.
        first.chosen = "";
        second.chosen = "";
        sheet.court = 0;
        sheet.profile = seat.usualProfile;
        other.text = "";
        seat.forgetProblem();
    }

    RowLayout {
        spacing: Theme.gapWide
        Layout.fillWidth: true
        TeamPicker {
            id: first
            objectName: "firstTeam"
            title: qsTr("First team")
            teams: sheet.seat.teams
            prefix: "first-"
            // What was wrong with the choice is not so any more.
            onChosenChanged: sheet.seat.forgetProblem()
            Layout.fillWidth: true
            Layout.preferredWidth: 10
        }
        TeamPicker {
            id: second
            objectName: "secondTeam"
            title: qsTr("Second team")
            teams: sheet.seat.teams
            prefix: "second-"
            barred: first.chosen
            onChosenChanged: sheet.seat.forgetProblem()
            Layout.fillWidth: true
            Layout.preferredWidth: 10
        }
    }
    Label {
        text: qsTr("Court")
        soft: true
        capMm: 2.5
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        Flow {
            spacing: Theme.gap
            Layout.fillWidth: true
            Button {
                text: qsTr("later")
                checkable: true
                autoExclusive: true
                checked: sheet.court === 0
                Accessible.role: Accessible.RadioButton
                onClicked: sheet.court = 0
            }
            Repeater {
                model: sheet.seat.courts
                Button {
                    required property int court
                    objectName: "newCourt" + court
                    text: court
                    checkable: true
                    autoExclusive: true
                    checked: sheet.court === court
                    Accessible.role: Accessible.RadioButton
                    Accessible.name: qsTr("court %1").arg(court)
                    onClicked: sheet.court = court
                }
            }
        }
        OtherCourt {
            id: other
            objectName: "newCourtOther"
            onCourtChanged: if (court > 0)
                                sheet.court = court
        }
    }
    Label {
        text: qsTr("Rules")
        soft: true
        capMm: 2.5
    }
    Flow {
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.seat.profiles
            Button {
                required property string modelData
                text: modelData
                capMm: 2.5
                checkable: true
                autoExclusive: true
                checked: sheet.profile === modelData
                Accessible.role: Accessible.RadioButton
                onClicked: sheet.profile = modelData
            }
        }
    }
    StateMark {
        objectName: "newMatchProblem"
        visible: sheet.seat.problem !== ""
        kind: StateMark.Fault
        word: sheet.seat.problem
        lines: 4
        Layout.fillWidth: true
    }
    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            id: plan
            objectName: "planMatch"
            kind: Button.Primary
            text: qsTr("Plan the match")
            keyHint: qsTr("Enter")
            enabled: !sheet.seat.busy
            onClicked: sheet.seat.createMatch(first.chosen, second.chosen, sheet.court,
                                              sheet.profile)
        }
    ]
}
