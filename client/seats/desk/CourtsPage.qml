// Courts with their matches and devices, and all devices of the venue.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

Flickable {
    id: page

    required property DeskSeat seat

    signal codeWanted(int court)
    signal revokeWanted(string deviceId, string name)

    contentHeight: body.implicitHeight
    clip: true
    boundsBehavior: Flickable.StopAtBounds

    ColumnLayout {
        id: body
        width: page.width
        spacing: Theme.gap

        PageHead {
            title: qsTr("Courts")
            act: qsTr("Enrol a device")
            actName: "enrol"
            Layout.fillWidth: true
            onActed: page.codeWanted(0)
        }
        Hairline {
            Layout.fillWidth: true
        }
        Column {
            id: courts
            spacing: Theme.gap
            Layout.fillWidth: true
            Repeater {
                model: page.seat.courts
                ListRow {
                    id: court
                    required property int index
                    required property string name
                    required property string playing
                    required property string about
                    readonly property int number: page.seat.courts.field(index, "court") ?? 0
                    title: qsTr("%1 · %2").arg(name).arg(playing)
                    detail: about
                    touchable: false
                    width: courts.width
                    Button {
                        objectName: "code-" + court.number
                        kind: Button.Quiet
                        text: qsTr("Code for its table")
                        onClicked: page.codeWanted(court.number)
                    }
                }
            }
        }
        Heading {
            text: qsTr("Devices")
            Layout.topMargin: Theme.gapWide
        }
        Hairline {
            Layout.fillWidth: true
        }
        Column {
            id: devices
            spacing: Theme.gap
            Layout.fillWidth: true
            Repeater {
                model: page.seat.devices
                ListRow {
                    id: device
                    required property string deviceId
                    required property string name
                    required property string place
                    required property int mark
                    required property string state
                    required property bool revoked
                    title: name
                    detail: place
                    touchable: false
                    width: devices.width
                    StateMark {
                        kind: device.mark
                        word: device.state
                        capMm: 2.5
                    }
                    Button {
                        objectName: "revoke-" + device.deviceId
                        kind: Button.Grave
                        visible: !device.revoked
                        text: qsTr("Withdraw")
                        onClicked: page.revokeWanted(device.deviceId, device.name)
                    }
                }
            }
        }
    }
}
