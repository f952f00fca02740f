// The requests of the teams, undo in the middle (far from the rally areas), and the rest.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design
import Courthand.Table

Item {
    id: bar

    required property TableSeat seat

    signal timeOutAsked()
    signal substitutionAsked()
    signal captainAsked()
    signal redesignationAsked()
    signal moreAsked()

    implicitHeight: Theme.touch

    component Act: Button {
        height: bar.height
        anchors.verticalCenter: parent?.verticalCenter
    }

    Row {
        anchors.left: parent.left
        height: parent.height
        spacing: Theme.gap
        Act {
            objectName: "timeOut"
            text: qsTr("Time-out")
            onClicked: bar.timeOutAsked()
        }
        Act {
            objectName: "substitution"
            text: qsTr("Substitution")
            onClicked: bar.substitutionAsked()
        }
    }
    Act {
        objectName: "undo"
        text: qsTr("Undo")
        width: Theme.mm(32)
        anchors.horizontalCenter: parent.horizontalCenter
        explanation: qsTr("Takes back: %1").arg(bar.seat.undoWords)
        onClicked: bar.seat.undo()
    }
    Row {
        anchors.right: parent.right
        height: parent.height
        spacing: Theme.gap
        Act {
            objectName: "captain"
            text: qsTr("Captain")
            onClicked: bar.captainAsked()
        }
        Act {
            objectName: "redesignation"
            text: qsTr("Re-designation")
            onClicked: bar.redesignationAsked()
        }
        Act {
            objectName: "more"
            text: qsTr("More")
            onClicked: bar.moreAsked()
        }
    }
}
