// Several lines of text to write or paste.
import QtQuick
import QtQuick.Templates as T

Item {
    id: area

    property string label: ""
    property alias text: input.text
    property alias placeholder: hint.text
    property alias readOnly: input.readOnly

    implicitWidth: Theme.mm(80)
    implicitHeight: name.implicitHeight + Theme.mm(30)

    Label {
        id: name
        text: area.label
        capMm: 2.5
        soft: true
        Accessible.ignored: true
    }
    Rectangle {
        anchors.top: name.bottom
        anchors.topMargin: Theme.mm(0.6)
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.bottom: parent.bottom
        color: Theme.raised
        radius: Theme.corner
        border.color: input.activeFocus ? Theme.accent : Theme.line
        border.width: input.activeFocus ? Theme.rule : Theme.hair

        Flickable {
            anchors.fill: parent
            anchors.margins: Theme.mm(1)
            contentWidth: width
            contentHeight: input.implicitHeight
            clip: true
            boundsBehavior: Flickable.StopAtBounds
            T.TextArea {
                id: input
                width: parent.width
                implicitHeight: contentHeight + Theme.mm(4)
                padding: Theme.mm(1.5)
                color: Theme.ink
                selectionColor: Theme.accent
                selectedTextColor: Theme.penOnAccent
                font.family: Theme.family
                font.pixelSize: Theme.captionSize
                wrapMode: TextEdit.Wrap
                selectByMouse: true
                activeFocusOnTab: true
                textFormat: TextEdit.PlainText
                KeyNavigation.priority: KeyNavigation.BeforeItem
                Accessible.role: Accessible.EditableText
                Accessible.name: area.label
                Accessible.multiLine: true
                Label {
                    id: hint
                    x: input.leftPadding
                    y: input.topPadding
                    width: input.width - 2 * x
                    visible: input.text === "" && !input.activeFocus
                    soft: true
                    capMm: 2.5
                    wrapMode: Text.WordWrap
                    Accessible.ignored: true
                }
            }
        }
    }
}
