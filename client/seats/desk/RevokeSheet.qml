// Takes a device's rights away: it cannot be taken back, so it asks once.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Sheet {
    id: sheet

    required property DeskSeat seat
    property string deviceId: ""
    property string name: ""

    function ask(id: string, deviceName: string) {
        sheet.deviceId = id;
        sheet.name = deviceName;
        reason.text = "";
        sheet.seat.forgetProblem();
        sheet.open();
    }

    title: qsTr("Withdraw %1?").arg(name)
    note: qsTr("It can send and read nothing more. What it has sent stays. The device can be enrolled anew with a new code.")
    closeWord: qsTr("Keep it")
    widthMm: 120
    onward: revoke

    Field {
        id: reason
        objectName: "revokeReason"
        label: qsTr("Why, if you like")
        maximumLength: 250
        Layout.fillWidth: true
    }
    StateMark {
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
            id: revoke
            objectName: "revokeNow"
            kind: Button.Grave
            text: qsTr("Withdraw it")
            enabled: !sheet.seat.busy
            onClicked: sheet.seat.revokeDevice(sheet.deviceId, reason.text)
        }
    ]
}
