// What the rules say about what stands: the most pressing verdict with rule and remedy, and how
// many more there are. Without one: the last entry. Its height never changes.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: slip

    required property TableSeat seat
    readonly property int count: seat.board.faults.length
    readonly property int worst: seat.board.worst
    readonly property var notice: worst >= 0 ? seat.board.faults[worst] : ({})
    readonly property bool two: seat.board.detail !== ""

    implicitHeight: Theme.mm(15)

    Hairline {
        width: parent.width
    }
    RowLayout {
        anchors.fill: parent
        anchors.topMargin: Theme.mm(0.5)
        spacing: Theme.gap

        StateMark {
            objectName: "noticeMark"
            // The mark belongs to the first line.
            visible: slip.count > 0 && slip.seat.board.problem === ""
            kind: slip.notice.open ? StateMark.Fault : StateMark.Caution
            word: slip.notice.phase ?? ""
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Label {
                objectName: "noticeText"
                text: slip.seat.board.line
                strong: slip.count > 0 || slip.seat.board.problem !== ""
                soft: slip.seat.board.quiet
                capMm: 2.5
                // Three lines fit; a verdict needs two of them for remedy and rule.
                wrapMode: slip.two ? Text.NoWrap : Text.WordWrap
                maximumLineCount: slip.two ? 1 : 3
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.role: slip.seat.board.quiet ? Accessible.StaticText
                                                       : Accessible.AlertMessage
            }
            Label {
                objectName: "noticeRemedy"
                visible: slip.two
                text: slip.seat.board.detail
                soft: slip.seat.board.quiet
                capMm: 2.4
                wrapMode: Text.WordWrap
                maximumLineCount: 2
                elide: Text.ElideRight
                Layout.fillWidth: true
            }
        }
        Button {
            objectName: "lookAtList"
            visible: slip.seat.deskLists.offer !== ""
            text: qsTr("List of the desk")
            onClicked: slip.seat.wantSheet("deskList")
        }
        Button {
            objectName: "goToNext"
            visible: slip.seat.nextMatch !== ""
            text: qsTr("Next match")
            explanation: slip.seat.nextMatch
            onClicked: slip.seat.goToNextMatch()
        }
        Button {
            objectName: "ruling"
            visible: slip.count > 0
            text: slip.count > 1 ? qsTr("Ruling (%1)").arg(slip.count) : qsTr("Ruling")
            onClicked: slip.seat.wantSheet("ruling")
        }
    }
}
