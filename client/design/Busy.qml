// Work is going on, and what it is. Three dots fill one after the other, slowly; nothing flashes.
pragma ComponentBehavior: Bound
import QtQuick

Row {
    id: busy

    property string words: ""
    property int step: 0

    spacing: Theme.mm(1.2)
    Accessible.role: Accessible.ProgressBar
    Accessible.name: words

    Timer {
        interval: 600
        repeat: true
        running: busy.visible
        onTriggered: busy.step = (busy.step + 1) % 3
    }
    Repeater {
        model: 3
        Rectangle {
            id: dot
            required property int index
            anchors.verticalCenter: parent.verticalCenter
            width: Theme.mm(2)
            height: width
            radius: width / 2
            color: busy.step === dot.index ? Theme.ink : "transparent"
            border.color: Theme.ink
            border.width: Theme.hair
        }
    }
    Label {
        visible: busy.words !== ""
        text: busy.words
        soft: true
        leftPadding: Theme.mm(1)
        anchors.verticalCenter: parent.verticalCenter
        Accessible.ignored: true
    }
}
