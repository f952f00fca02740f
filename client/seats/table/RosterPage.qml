// The team lists are not in the record yet: take over those the desk has sent.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: page

    required property TableSeat seat

    ColumnLayout {
        anchors.centerIn: parent
        width: Math.min(parent.width, Theme.mm(150))
        spacing: Theme.mm(6)

        Heading {
            text: qsTr("%1 and %2").arg(page.seat.left.name).arg(page.seat.right.name)
            capMm: 6.4
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Label {
            text: page.seat.nextWords
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        Button {
            objectName: "takeLists"
            kind: Button.Primary
            text: qsTr("Take over the team lists of the desk")
            Layout.fillWidth: true
            onClicked: page.seat.takeTeamLists()
        }
    }
}
