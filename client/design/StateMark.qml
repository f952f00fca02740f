// A state: filled shape, word and colour together, never one alone.
// ◆ fault, ▲ caution, ■ notice, ● good, ○ quiet.
import QtQuick

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

    Canvas {
        id: shape
        width: mark.shapeSize
        height: mark.shapeSize
        anchors.verticalCenter: parent.verticalCenter

        readonly property color fill: {
            switch (mark.kind) {
            case StateMark.Fault: return Theme.fault;
            case StateMark.Caution: return Theme.caution;
            case StateMark.Notice: return Theme.notice;
            case StateMark.Good: return Theme.good;
            default: return "transparent";
            }
        }
        readonly property color edge: Theme.ink
        readonly property int kind: mark.kind
        onFillChanged: requestPaint()
        onEdgeChanged: requestPaint()
        onKindChanged: requestPaint()
        onWidthChanged: requestPaint()

        onPaint: {
            const c = getContext("2d");
            const w = width;
            const e = Math.max(1.5, w * 0.07);
            c.reset();
            c.lineWidth = e;
            c.lineJoin = "round";
            c.strokeStyle = edge;
            c.fillStyle = fill;
            c.beginPath();
            if (kind === StateMark.Fault) {
                c.moveTo(w / 2, e);
                c.lineTo(w - e, w / 2);
                c.lineTo(w / 2, w - e);
                c.lineTo(e, w / 2);
                c.closePath();
            } else if (kind === StateMark.Caution) {
                c.moveTo(w / 2, w * 0.1);
                c.lineTo(w - e, w * 0.88);
                c.lineTo(e, w * 0.88);
                c.closePath();
            } else if (kind === StateMark.Notice) {
                c.rect(w * 0.14, w * 0.14, w * 0.72, w * 0.72);
            } else {
                c.arc(w / 2, w / 2, w * 0.38, 0, 2 * Math.PI);
            }
            if (kind !== StateMark.Quiet)
                c.fill();
            c.stroke();
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
