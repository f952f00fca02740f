// What must happen next, large, with the one act for it, and in small type what comes after that.
// While something is chosen it says what to touch; when it would be illegal it says why, and offers
// "It happened". Its height never changes.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: slip

    required property TableSeat seat

    readonly property Picking picking: seat.picking
    readonly property NextSteps next: seat.next
    readonly property bool open: picking.choosing || picking.proposing
    readonly property var others: picking.otherNumbers
    // What fits beside the sentence; the rest is reached by typing the number.
    readonly property int mostOthers: 7

    implicitHeight: Theme.mm(13.4)

    Hairline {
        width: parent.width
        heavy: true
    }
    RowLayout {
        id: now
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.top: parent.top
        anchors.topMargin: Theme.mm(0.7)
        height: Theme.mm(9.4)
        spacing: Theme.gap

        Label {
            visible: !slip.picking.proposing
            text: slip.next.lead
            capMm: 2.5
            strong: true
            soft: true
        }
        StateMark {
            visible: slip.picking.proposing
            kind: StateMark.Caution
            word: slip.picking.proposalMark
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Label {
                id: sentence
                objectName: "next"
                readonly property bool tooLong: whole.advanceWidth > width
                text: slip.next.line
                strong: true
                // A sentence that is too long for one large line is set smaller, and in two lines.
                capMm: slip.picking.proposing || tooLong ? 2.9 : 3.6
                wrapMode: slip.picking.proposing ? Text.NoWrap : Text.WordWrap
                maximumLineCount: slip.picking.proposing ? 1 : 2
                lineHeight: 0.9
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.role: Accessible.AlertMessage
            }
            TextMetrics {
                id: whole
                font.family: Theme.family
                font.pixelSize: Theme.cap(3.6)
                font.weight: Font.DemiBold
                text: sentence.text
            }
            Label {
                objectName: "why"
                visible: slip.picking.proposing
                text: slip.picking.proposalWhy
                capMm: 2.5
                elide: Text.ElideRight
                Layout.fillWidth: true
            }
        }
        Row {
            spacing: Theme.gap
            visible: slip.picking.choosing && !slip.picking.proposing && slip.others.length > 0
            Repeater {
                model: slip.others.slice(0, slip.mostOthers)
                Button {
                    required property var modelData
                    objectName: "other" + modelData.number
                    text: modelData.number
                    explanation: modelData.whyNot
                    kind: modelData.legal ? Button.Plain : Button.Quiet
                    onClicked: slip.picking.touchNumber(slip.picking.choiceOnLeft, modelData.number)
                }
            }
        }
        Button {
            objectName: "happened"
            visible: slip.picking.proposing
            text: qsTr("It happened")
            kind: Button.Grave
            onClicked: slip.picking.itHappened()
        }
        Button {
            objectName: "letGo"
            visible: slip.open
            text: qsTr("Leave it")
            kind: Button.Quiet
            onClicked: slip.picking.letGo()
        }
        Button {
            objectName: "expected"
            visible: !slip.open && slip.next.act !== ""
            text: slip.next.act
            kind: Button.Primary
            implicitWidth: Math.max(Theme.mm(34), implicitContentWidth + leftPadding + rightPadding)
            onClicked: slip.next.doIt()
        }
    }
    FontMetrics {
        id: small
        font.family: Theme.family
        font.pixelSize: Theme.cap(2.5)
    }
    Label {
        objectName: "then"
        // Why something is not legal needs its line.
        visible: text !== "" && !slip.picking.proposing
        // As many sentences as are whole.
        text: {
            const ways = [slip.next.thenWords, slip.next.thenWordsOf(1), slip.next.thenWordsOf(0)];
            return ways.find(way => small.advanceWidth(way) <= width) ?? ways[2];
        }
        soft: true
        capMm: 2.5
        elide: Text.ElideRight
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.top: now.bottom
        anchors.bottom: parent.bottom
    }
}
