// The score between the two teams, sets beside it, and who serves.
import QtQuick
import Courthand.Design
import Courthand.Table

Item {
    id: line

    required property TableSeat seat

    implicitHeight: Theme.mm(16)

    component Points: Label {
        capMm: 12
        font.weight: Font.Bold
        anchors.verticalCenter: parent.verticalCenter
    }
    component Sets: Column {
        id: sets
        property int won: 0
        anchors.verticalCenter: parent.verticalCenter
        Label {
            text: sets.won
            capMm: 5
            strong: true
            anchors.horizontalCenter: parent.horizontalCenter
        }
        Label {
            text: qsTr("sets")
            capMm: 2.3
            soft: true
            anchors.horizontalCenter: parent.horizontalCenter
        }
    }
    component Ball: Rectangle {
        property string word: qsTr("serves")
        anchors.verticalCenter: parent.verticalCenter
        width: Theme.mm(4)
        height: width
        radius: width / 2
        color: Theme.ink
        Accessible.role: Accessible.StaticText
        Accessible.name: word
    }

    TeamHead {
        side: line.seat.left
        anchors.left: parent.left
        anchors.right: leftSets.left
        height: parent.height
    }
    Ball {
        id: leftBall
        anchors.right: colon.left
        anchors.rightMargin: Theme.mm(28)
        opacity: line.seat.left.serving ? 1 : 0
    }
    Sets {
        id: leftSets
        won: line.seat.left.sets
        anchors.right: leftBall.left
        anchors.rightMargin: Theme.gapWide
    }
    Points {
        id: leftPoints
        objectName: "leftPoints"
        text: line.seat.left.points
        anchors.right: colon.left
        anchors.rightMargin: Theme.gap
        horizontalAlignment: Text.AlignRight
    }
    Points {
        id: colon
        text: ":"
        anchors.horizontalCenter: parent.horizontalCenter
        anchors.verticalCenterOffset: -Theme.mm(1)
        Accessible.ignored: true
    }
    Points {
        id: rightPoints
        objectName: "rightPoints"
        text: line.seat.right.points
        anchors.left: colon.right
        anchors.leftMargin: Theme.gap
    }
    Sets {
        id: rightSets
        won: line.seat.right.sets
        anchors.left: rightBall.right
        anchors.leftMargin: Theme.gapWide
    }
    Ball {
        id: rightBall
        anchors.left: colon.right
        anchors.leftMargin: Theme.mm(28)
        opacity: line.seat.right.serving ? 1 : 0
    }
    TeamHead {
        side: line.seat.right
        mirrored: true
        anchors.left: rightSets.right
        anchors.right: parent.right
        height: parent.height
    }
}
