// A cell of a cross table: the sets of a match, and its points below them where there is room. In
// the head of a pool it is the number of a team.
import QtQuick
import Courthand.Design

Item {
    id: cell

    // Of a head its words, of a match its cell; for a moment, while a row changes, neither.
    property var shown: null
    property bool head: false
    readonly property bool own: !head && (shown?.own ?? false)

    implicitHeight: sets.implicitHeight + (points.visible ? points.implicitHeight : 0)

    Rectangle {
        visible: cell.own
        anchors.centerIn: parent
        width: Theme.mm(6)
        height: Theme.hair
        color: Theme.line
    }
    Label {
        id: sets
        text: cell.head ? (typeof cell.shown === "string" ? cell.shown : "") : (cell.shown?.sets ?? "")
        soft: cell.head
        strong: !cell.head
        anchors.horizontalCenter: parent.horizontalCenter
        Accessible.ignored: true
    }
    Label {
        id: points
        visible: text !== "" && implicitWidth <= cell.width
        text: cell.head ? "" : (cell.shown?.points ?? "")
        soft: true
        capMm: 2.1
        anchors.horizontalCenter: parent.horizontalCenter
        anchors.top: sets.bottom
        Accessible.ignored: true
    }
}
