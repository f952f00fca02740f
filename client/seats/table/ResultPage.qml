// The end of the match: the result, and what may still be written before the signatures.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: page

    required property TableSeat seat

    ColumnLayout {
        anchors.centerIn: parent
        width: Math.min(parent.width, Theme.mm(180))
        spacing: Theme.mm(6)

        Heading {
            objectName: "result"
            text: page.seat.resultWords
            capMm: 6.4
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        SetTable {
            seat: page.seat
            Layout.fillWidth: true
        }
        Label {
            text: qsTr("A protest is written with the consent of the first referee, before the signatures.")
            soft: true
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
        }
        RowLayout {
            spacing: Theme.gap
            Layout.fillWidth: true
            StateMark {
                objectName: "signed"
                kind: page.seat.signing.closed ? StateMark.Good : StateMark.Caution
                word: page.seat.signing.words
                lines: 3
                Layout.fillWidth: true
            }
            Button {
                objectName: "sign"
                text: qsTr("Signatures")
                kind: page.seat.signing.closed ? Button.Plain : Button.Primary
                onClicked: page.seat.wantSheet("sign")
            }
        }
        Button {
            objectName: "nextMatch"
            visible: page.seat.nextMatch.length > 0
            text: qsTr("Next match: %1").arg(page.seat.nextMatch)
            onClicked: page.seat.goToNextMatch()
        }
        RowLayout {
            spacing: Theme.gap
            Layout.fillWidth: true
            Button {
                objectName: "undo"
                text: qsTr("Undo")
                onClicked: page.seat.undo()
            }
            Item {
                Layout.fillWidth: true
            }
            Button {
                objectName: "remark"
                text: qsTr("Remark")
                onClicked: page.seat.wantSheet("remark")
            }
            Button {
                objectName: "protest"
                text: qsTr("Protest")
                onClicked: page.seat.wantSheet("protest")
            }
        }
    }
}
