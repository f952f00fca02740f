// A state: filled shape, word and colour together, never one alone.
// ◆ fault, ▲ caution, ■ notice, ● good, ○ quiet.
import QtQuick
import Courthand.Design

Item {
    id: mark

    enum Kind { Fault, Caution, Notice, Good, Quiet }

    property int kind: StateMark.Quiet
    property string word: ""
    property real capMm: 2.9
    property bool strong: true
    // A sentence that must be read to its end goes on in further lines.
    property int lines: 1
    // As of a label: how small the word may become where the room is small.
    property real leastCapMm: capMm
    readonly property real shapeSize: Math.round(Theme.mm(mark.capMm) * 1.45)

    implicitWidth: shape.width + (label.visible ? Theme.mm(1.6) + Math.ceil(wordSize.advanceWidth) + 2 : 0)
    implicitHeight: Math.max(shape.height, label.implicitHeight)
    Accessible.role: Accessible.StaticText
    Accessible.name: word

    StateShape {
        id: shape
        width: mark.shapeSize
        height: mark.shapeSize
        anchors.verticalCenter: parent.verticalCenter
        kind: mark.kind
        edge: Theme.ink
        fill: {
            switch (mark.kind) {
            case StateMark.Fault: return Theme.fault;
            case StateMark.Caution: return Theme.caution;
            case StateMark.Notice: return Theme.notice;
            case StateMark.Good: return Theme.good;
            default: return "transparent";
            }
        }
    }

    // The width of the whole word: an elided text does not tell its own once the type has grown.
    TextMetrics {
        id: wordSize
        font: label.font
        text: mark.word
    }
    Label {
        id: label
        visible: mark.word !== ""
        text: mark.word
        capMm: mark.capMm
        leastCapMm: mark.leastCapMm
        strong: mark.strong
        anchors.left: shape.right
        anchors.leftMargin: Theme.mm(1.6)
        anchors.right: parent.right
        anchors.verticalCenter: parent.verticalCenter
        wrapMode: mark.lines > 1 ? Text.WordWrap : Text.NoWrap
        maximumLineCount: mark.lines
        elide: Text.ElideRight
        Accessible.ignored: true
    }
}
