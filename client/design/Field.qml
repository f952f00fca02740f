// One labelled line of text to fill in, with room for what is wrong with it.
import QtQuick
import QtQuick.Templates as T

Item {
    id: field

    property string label: ""
    property string problem: ""
    property string help: ""
    property alias text: input.text
    // An example of what is wanted; it is told as one, so that nobody takes it for what is filled in.
    property string example: ""
    property alias maximumLength: input.maximumLength
    property alias inputMethodHints: input.inputMethodHints
    property alias validator: input.validator
    property alias echoMode: input.echoMode
    property alias readOnly: input.readOnly
    property alias input: input

    // Enter is for what `accepted` does here, and not for the sheet on which the field stands.
    property bool ownEnter: false

    signal accepted()
    signal edited()

    implicitWidth: Theme.mm(60)
    implicitHeight: (field.label !== "" ? name.implicitHeight : 0) + input.height + (below.visible ? below.height : 0)
                    + Theme.mm(1)

    Keys.onPressed: event => event.accepted = field.ownEnter && (event.key === Qt.Key_Return || event.key === Qt.Key_Enter)

    Label {
        id: name
        width: parent.width
        text: field.label
        wrapMode: Text.WordWrap
        capMm: 2.5
        soft: true
        elide: Text.ElideRight
        visible: field.label !== ""
        Accessible.ignored: true
    }
    T.TextField {
        id: input
        anchors.top: field.label !== "" ? name.bottom : parent.top
        anchors.topMargin: Theme.mm(0.6)
        width: parent.width
        height: Theme.touch
        leftPadding: Theme.mm(2.5)
        rightPadding: Theme.mm(2.5)
        verticalAlignment: TextInput.AlignVCenter
        color: Theme.ink
        selectionColor: Theme.accent
        selectedTextColor: Theme.penOnAccent
        font.family: Theme.family
        font.pixelSize: Theme.bodySize
        selectByMouse: true
        activeFocusOnTab: true
        onAccepted: field.accepted()
        onTextEdited: field.edited()
        Accessible.role: Accessible.EditableText
        Accessible.name: field.label
        Accessible.description: field.problem !== "" ? field.problem : field.help

        Label {
            id: hint
            text: field.example === "" ? "" : qsTr("as in %1").arg(field.example)
            anchors.fill: parent
            anchors.leftMargin: input.leftPadding
            anchors.rightMargin: input.rightPadding
            visible: input.text === "" && !input.activeFocus
            soft: true
            elide: Text.ElideRight
            Accessible.ignored: true
        }
        background: Rectangle {
            color: Theme.raised
            radius: Theme.corner
            border.color: field.problem !== "" ? Theme.fault
                        : input.activeFocus ? Theme.accent : Theme.line
            border.width: input.activeFocus || field.problem !== "" ? Theme.rule : Theme.hair
        }
    }
    StateMark {
        id: below
        anchors.top: input.bottom
        anchors.topMargin: Theme.mm(0.6)
        width: parent.width
        visible: field.problem !== "" || field.help !== ""
        kind: field.problem !== "" ? StateMark.Fault : StateMark.Quiet
        word: field.problem !== "" ? field.problem : field.help
        lines: 3
        capMm: 2.5
        strong: field.problem !== ""
    }
}
