// A sheet of paper on the ground. Children are laid out by the caller inside `content`.
import QtQuick

Rectangle {
    id: card

    default property alias content: inside.data
    property real padding: Theme.margin

    color: Theme.raised
    border.color: Theme.hairline
    border.width: Theme.hair
    radius: Theme.corner
    implicitWidth: inside.childrenRect.width + 2 * padding
    implicitHeight: inside.childrenRect.height + 2 * padding

    Item {
        id: inside
        anchors.fill: parent
        anchors.margins: card.padding
    }
}
