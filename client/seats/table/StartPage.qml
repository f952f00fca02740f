// Between sets: the result to agree on, the interval, and the begin of the next set.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: page

    required property TableSeat seat
    readonly property bool first: seat.left.setScores.length === 0

    ColumnLayout {
        anchors.centerIn: parent
        width: Math.min(parent.width, Theme.mm(170))
        spacing: Theme.mm(6)

        Heading {
            text: page.first ? qsTr("%1 and %2").arg(page.seat.left.name).arg(page.seat.right.name)
                             : qsTr("Set %1 is over").arg(page.seat.left.setScores.length)
            capMm: 6.4
        }
        SetTable {
            visible: !page.first
            seat: page.seat
            Layout.fillWidth: true
        }
        Label {
            visible: !page.first
            text: qsTr("Scorer, assistant scorer and scoreboard agree on the score. Ask for the line-up sheets now.")
            soft: true
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
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
                objectName: "interval"
                visible: !page.first
                text: qsTr("Start the interval clock")
                onClicked: page.seat.startInterval()
            }
            Button {
                objectName: "beginSet"
                kind: Button.Primary
                text: page.seat.next.act !== "" ? page.seat.next.act : qsTr("Begin the set")
                capMm: 3.6
                implicitHeight: Theme.touchTile
                onClicked: page.seat.next.doIt()
            }
        }
    }
}
