// The head of a page of the book: its title, and the one act that belongs to it. Placed by anchors:
// a button keeps the width of its word whatever becomes of the window.
import QtQuick
import Courthand.Design

Item {
    id: head

    property string title: ""
    property alias act: button.text
    property alias actName: button.objectName
    // What is chosen for the whole page, beside its title.
    default property alias choices: choices.data

    signal acted()

    implicitHeight: Math.max(words.implicitHeight, button.implicitHeight)

    Heading {
        id: words
        text: head.title
        elide: Text.ElideRight
        anchors.left: parent.left
        anchors.right: choices.left
        anchors.verticalCenter: parent.verticalCenter
    }
    Row {
        id: choices
        spacing: Theme.gap
        anchors.right: button.visible ? button.left : parent.right
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
    }
    Button {
        id: button
        visible: text !== ""
        kind: Button.Primary
        anchors.right: parent.right
        onClicked: head.acted()
    }
}
