// The way of a winner from the box of a match to a side of the next one: across, up or down, across.
import QtQuick
import Courthand.Design

Item {
    id: line

    property real fromX: 0
    property real fromY: 0
    property real toX: 0
    property real toY: 0
    property real thickness: Theme.hair
    // Every way into one match turns at the same distance from it.
    readonly property real turn: toX - Theme.mm(4)

    Rectangle {
        x: line.fromX
        y: line.fromY - height / 2
        width: Math.max(0, line.turn - line.fromX)
        height: line.thickness
        color: Theme.line
    }
    Rectangle {
        x: line.turn
        y: Math.min(line.fromY, line.toY)
        width: line.thickness
        height: Math.abs(line.toY - line.fromY)
        color: Theme.line
    }
    Rectangle {
        x: line.turn
        y: line.toY - height / 2
        width: line.toX - line.turn
        height: line.thickness
        color: Theme.line
    }
}
