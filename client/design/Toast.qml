// A sentence about what just happened, whole however long it is. It goes by itself and takes nothing
// with it.
import QtQuick

Rectangle {
    id: toast

    property string text: ""
    property int kind: StateMark.Good
    // What it may take up of the page; a longer sentence goes on in further lines.
    property real mostWidth: Theme.mm(110)

    function show(words: string, markKind: int) {
        toast.text = words;
        toast.kind = markKind;
        toast.visible = true;
        away.restart();
    }

    visible: false
    color: Theme.raised
    border.color: Theme.ink
    border.width: Theme.hair
    radius: Theme.corner
    implicitWidth: mark.implicitWidth + Theme.mm(4)
    implicitHeight: mark.height + Theme.mm(3)
    width: Math.min(implicitWidth, mostWidth)
    height: implicitHeight
    z: 1
    Accessible.role: Accessible.AlertMessage
    Accessible.name: text

    StateMark {
        id: mark
        objectName: "toastMark"
        anchors.centerIn: parent
        width: toast.width - Theme.mm(4)
        height: implicitHeight
        kind: toast.kind
        word: toast.text
        lines: Theme.toastLines
    }
    Timer {
        id: away
        // As long as it takes to read.
        interval: Theme.toastMs + Theme.toastMsPerLetter * toast.text.length
        onTriggered: toast.visible = false
    }
}
