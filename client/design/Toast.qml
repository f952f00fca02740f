// A short word about what just happened. It goes by itself and takes nothing with it.
import QtQuick

Rectangle {
    id: toast

    property string text: ""
    property int kind: StateMark.Good

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
    implicitWidth: mark.implicitWidth + Theme.mm(6)
    implicitHeight: mark.implicitHeight + Theme.mm(4)
    Accessible.role: Accessible.AlertMessage
    Accessible.name: text

    StateMark {
        id: mark
        anchors.centerIn: parent
        width: Math.min(implicitWidth, parent.width - Theme.mm(4))
        kind: toast.kind
        word: toast.text
    }
    Timer {
        id: away
        interval: Theme.toastMs
        onTriggered: toast.visible = false
    }
}
