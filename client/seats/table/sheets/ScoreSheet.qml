// The referees set the score of the present set.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "score"
    key: "V"
    place: TableSheet.More
    rank: 80

    property int leftPoints: 0
    property int rightPoints: 0

    title: qsTr("Score correction")
    note: qsTr("Only when the first referee orders it. To take back the last entry use undo.")
    onAboutToShow: {
        leftPoints = seat.left.points;
        rightPoints = seat.right.points;
    }

    component Counter: RowLayout {
        id: counter
        property string name: ""
        property string side: ""
        property int value: 0
        signal stepped(int value)
        spacing: Theme.gap
        Label {
            text: counter.name
            Layout.fillWidth: true
            elide: Text.ElideRight
        }
        Button {
            objectName: "minus" + counter.side
            text: "−"
            Accessible.name: qsTr("One point less for %1").arg(counter.name)
            enabled: counter.value > 0
            onClicked: counter.stepped(counter.value - 1)
        }
        Label {
            text: counter.value
            capMm: 6.4
            strong: true
            horizontalAlignment: Text.AlignHCenter
            Layout.preferredWidth: Theme.mm(18)
        }
        Button {
            objectName: "plus" + counter.side
            text: "+"
            Accessible.name: qsTr("One point more for %1").arg(counter.name)
            onClicked: counter.stepped(counter.value + 1)
        }
    }

    Counter {
        name: sheet.seat.left.name
        side: "Left"
        value: sheet.leftPoints
        Layout.fillWidth: true
        onStepped: value => sheet.leftPoints = value
    }
    Counter {
        name: sheet.seat.right.name
        side: "Right"
        value: sheet.rightPoints
        Layout.fillWidth: true
        onStepped: value => sheet.rightPoints = value
    }

    actions: [
        Item {
            Layout.fillWidth: true
        },
        Button {
            objectName: "setScore"
            text: qsTr("Set the score to %1 : %2").arg(sheet.leftPoints).arg(sheet.rightPoints)
            kind: Button.Grave
            onClicked: {
                sheet.seat.acts.correctScore(sheet.leftPoints, sheet.rightPoints);
                sheet.close();
            }
        }
    ]
}
