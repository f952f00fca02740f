// A match that another device writes: how it stands, and the one thing to do here: ask to go on.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: page

    required property TableSeat seat

    ColumnLayout {
        anchors.centerIn: parent
        width: Math.min(parent.width, Theme.mm(170))
        spacing: Theme.mm(5)

        Heading {
            text: qsTr("%1 and %2").arg(page.seat.left.name).arg(page.seat.right.name)
            capMm: 6.4
            elide: Text.ElideRight
            Layout.fillWidth: true
        }
        Label {
            objectName: "elsewhereScore"
            text: page.seat.scoreWords
            capMm: 5
            strong: true
        }
        StateMark {
            kind: StateMark.Notice
            word: qsTr("Another device writes this match")
            Layout.fillWidth: true
        }
        Label {
            text: qsTr("Nothing is recorded here. If that device is lost or broken, ask to go on here: the desk or the head official decides. Then this table goes on at the last entry the server has, and what the other device still sends is kept beside the record.")
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        StateMark {
            objectName: "wish"
            visible: page.seat.saving.wishWords !== ""
            kind: page.seat.saving.wishOpen ? StateMark.Notice : StateMark.Caution
            word: page.seat.saving.wishWords
            Layout.fillWidth: true
        }
        Button {
            objectName: "askToGoOn"
            enabled: page.seat.saving.canAsk
            kind: Button.Primary
            text: qsTr("Ask to go on here")
            keyHint: page.seat.keys.list.length > 0 ? page.seat.keys.keys(KeyMap.GoOnHere) : ""
            explanation: qsTr("The desk or the head official decides whether this table goes on with the match.")
            onClicked: page.seat.saving.askToGoOn()
        }
    }
}
