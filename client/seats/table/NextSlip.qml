// One line in words: what must happen next, with the one act for it. While something is chosen it
// says what to touch; when it would be illegal it says why, and offers "It happened".
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: slip

    required property TableSeat seat

    readonly property var others: seat.otherNumbers
    // What fits beside the sentence; the rest is reached by typing the number.
    readonly property int mostOthers: 7

    signal expected()

    implicitHeight: Theme.mm(13)

    Hairline {
        width: parent.width
        heavy: true
    }
    RowLayout {
        anchors.fill: parent
        anchors.topMargin: Theme.mm(1)
        spacing: Theme.gap

        Label {
            visible: !slip.seat.proposing
            text: slip.seat.nextLead
            capMm: 2.5
            strong: true
            soft: true
        }
        StateMark {
            visible: slip.seat.proposing
            kind: StateMark.Caution
            word: slip.seat.proposalMark
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Label {
                objectName: "next"
                text: slip.seat.nextLine
                strong: true
                capMm: slip.seat.proposing ? 2.9 : 3.6
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.role: Accessible.AlertMessage
            }
            Label {
                objectName: "why"
                visible: slip.seat.proposing
                text: slip.seat.proposalWhy
                capMm: 2.5
                elide: Text.ElideRight
                Layout.fillWidth: true
            }
        }
        Row {
            spacing: Theme.gap
            visible: slip.seat.choosing && !slip.seat.proposing && slip.others.length > 0
            Repeater {
                model: slip.others.slice(0, slip.mostOthers)
                Button {
                    required property var modelData
                    objectName: "other" + modelData.number
                    text: modelData.number
                    explanation: modelData.whyNot
                    kind: modelData.legal ? Button.Plain : Button.Quiet
                    onClicked: slip.seat.touchNumber(slip.seat.choiceOnLeft, modelData.number)
                }
            }
        }
        Button {
            objectName: "happened"
            visible: slip.seat.proposing
            text: qsTr("It happened")
            kind: Button.Grave
            onClicked: slip.seat.itHappened()
        }
        Button {
            objectName: "letGo"
            visible: slip.seat.choosing || slip.seat.proposing
            text: qsTr("Leave it")
            kind: Button.Quiet
            onClicked: slip.seat.letGo()
        }
        Button {
            objectName: "expected"
            visible: !slip.seat.choosing && !slip.seat.proposing && slip.seat.expectedAct !== ""
            text: slip.seat.expectedAct
            kind: Button.Primary
            implicitWidth: Math.max(Theme.mm(34), implicitContentWidth + leftPadding + rightPadding)
            onClicked: slip.expected()
        }
    }
}
