// The toss: who starts on the left as seen from the table, and who serves first. Before a deciding
// set it stands in the interval, whose clock is started here.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Item {
    id: page

    required property TableSeat seat
    readonly property string nameA: seat.left.letter === "A" ? seat.left.name : seat.right.name
    readonly property string nameB: seat.left.letter === "A" ? seat.right.name : seat.left.name
    // 0 not yet said, 1 team A, 2 team B
    property int onLeft: 0
    property int serves: 0

    component Question: ColumnLayout {
        id: question
        property string text: ""
        property string prefix: ""
        property int answer: 0
        signal answered(int answer)

        spacing: Theme.gap
        Layout.fillWidth: true
        Heading {
            text: question.text
        }
        RowLayout {
            spacing: Theme.gapWide
            Layout.fillWidth: true
            Repeater {
                model: 2
                Button {
                    required property int index
                    objectName: question.prefix + (index === 0 ? "A" : "B")
                    text: index === 0 ? page.nameA : page.nameB
                    capMm: 4.2
                    checkable: true
                    autoExclusive: true
                    checked: question.answer === index + 1
                    implicitHeight: Theme.touchRally
                    Layout.fillWidth: true
                    Layout.preferredWidth: 1
                    onClicked: question.answered(index + 1)
                }
            }
        }
    }

    ColumnLayout {
        anchors.centerIn: parent
        width: Math.min(parent.width, Theme.mm(150))
        spacing: Theme.mm(6)

        RowLayout {
            visible: page.seat.left.setScores.length > 0
            spacing: Theme.gap
            Layout.fillWidth: true
            Heading {
                text: qsTr("Set %1 is over, sets %2 : %3").arg(page.seat.left.setScores.length)
                      .arg(page.seat.left.sets).arg(page.seat.right.sets)
                elide: Text.ElideRight
                Layout.fillWidth: true
            }
            Button {
                objectName: "interval"
                text: qsTr("Start the interval clock")
                onClicked: page.seat.startInterval()
            }
        }
        Question {
            text: qsTr("Who starts on the left of the table?")
            prefix: "side"
            answer: page.onLeft
            onAnswered: answer => page.onLeft = answer
        }
        Question {
            text: qsTr("Who serves first?")
            prefix: "serve"
            answer: page.serves
            onAnswered: answer => page.serves = answer
        }
        Button {
            objectName: "signLists"
            visible: page.seat.signing.offered
            text: page.seat.signing.closed ? qsTr("✓ Both team lists are signed")
                                           : qsTr("Sign the team lists")
            Layout.fillWidth: true
            onClicked: page.seat.wantSheet("sign")
        }
        Button {
            objectName: "recordToss"
            text: qsTr("Record the toss")
            kind: Button.Primary
            enabled: page.onLeft > 0 && page.serves > 0
            Layout.fillWidth: true
            onClicked: {
                page.seat.recordToss(page.onLeft === 1, page.serves === 1);
                page.onLeft = 0;
                page.serves = 0;
            }
        }
    }
}
