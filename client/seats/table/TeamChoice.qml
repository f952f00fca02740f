// Which team: two buttons, left and right as they stand on the floor.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

RowLayout {
    id: choice

    required property TableSeat seat
    property bool isLeft: true
    // False until somebody has chosen, where there is no usual answer.
    property bool chosen: true

    signal picked(bool isLeft)

    spacing: Theme.gap

    Button {
        objectName: "teamLeft"
        text: choice.seat.left.name
        checkable: true
        autoExclusive: true
        checked: choice.chosen && choice.isLeft
        Layout.fillWidth: true
        Layout.preferredWidth: 1
        onClicked: {
            choice.isLeft = true;
            choice.chosen = true;
            choice.picked(true);
        }
    }
    Button {
        objectName: "teamRight"
        text: choice.seat.right.name
        checkable: true
        autoExclusive: true
        checked: choice.chosen && !choice.isLeft
        Layout.fillWidth: true
        Layout.preferredWidth: 1
        onClicked: {
            choice.isLeft = false;
            choice.chosen = true;
            choice.picked(false);
        }
    }
}
