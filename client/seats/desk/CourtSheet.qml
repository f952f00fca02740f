// The court of a match.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property DeskSeat seat
    property string matchId: ""

    function ask(id: string) {
        sheet.matchId = id;
        sheet.seat.forgetProblem();
        other.text = "";
        sheet.open();
    }

    title: qsTr("Which court?")
    widthMm: 130
    onward: there

    Column {
        id: courts
        visible: sheet.seat.courts.count > 0
        spacing: Theme.gap
        Layout.fillWidth: true
        Repeater {
            model: sheet.seat.courts
            ListRow {
                required property int court
                required property string name
                required property string load
                objectName: "assign" + court
                title: name
                detail: load
                enabled: !sheet.seat.busy
                width: courts.width
                onClicked: sheet.seat.assignCourt(sheet.matchId, court)
            }
        }
    }
    RowLayout {
        spacing: Theme.gap
        Layout.fillWidth: true
        OtherCourt {
            id: other
            objectName: "assignOther"
            Layout.fillWidth: true
        }
        Button {
            id: there
            objectName: "assignThere"
            text: qsTr("Give it that court")
            keyHint: qsTr("Enter")
            enabled: other.court > 0 && !sheet.seat.busy
            Layout.alignment: Qt.AlignBottom
            onClicked: sheet.seat.assignCourt(sheet.matchId, other.court)
        }
    }
    ListRow {
        objectName: "assign0"
        title: qsTr("No court for now")
        enabled: !sheet.seat.busy
        Layout.fillWidth: true
        onClicked: sheet.seat.assignCourt(sheet.matchId, 0)
    }
    StateMark {
        objectName: "courtProblem"
        visible: sheet.seat.problem !== ""
        kind: StateMark.Fault
        word: sheet.seat.problem
        lines: 4
        Layout.fillWidth: true
    }
}
