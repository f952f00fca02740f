// Something to touch. Primary: the one act that is expected now. Grave: cannot be taken back.
import QtQuick
import QtQuick.Templates as T

T.Button {
    id: button

    enum Kind { Plain, Primary, Quiet, Grave }

    property int kind: Button.Plain
    // The key that does the same; shown small when there is room.
    property string keyHint: ""
    property string explanation: ""
    property real capMm: 2.9

    readonly property string shown: keyHint !== "" ? qsTr("%1  [%2]").arg(text).arg(keyHint) : text
    readonly property bool filled: kind === Button.Primary

    implicitHeight: Math.max(Theme.touch, implicitContentHeight + Theme.mm(3))
    implicitWidth: Math.max(Theme.touch,
                            Math.ceil(words.advanceWidth) + 1 + leftPadding + rightPadding)
    leftPadding: Theme.mm(3.2)
    rightPadding: Theme.mm(3.2)
    focusPolicy: Qt.TabFocus

    Accessible.role: checkable ? Accessible.CheckBox : Accessible.Button
    Accessible.name: text
    Accessible.description: explanation
    Accessible.checkable: checkable
    Accessible.checked: checked
    Accessible.onPressAction: clicked()

    // A key that is held is one press, whichever key presses a button here.
    readonly property list<int> pressedBy: [Qt.Key_Space, Qt.Key_Return, Qt.Key_Enter, Qt.Key_Select]
    Keys.onPressed: event => event.accepted = event.isAutoRepeat && pressedBy.includes(event.key)
    Keys.onReleased: event => event.accepted = event.isAutoRepeat && pressedBy.includes(event.key)

    // The width of the whole text: an elided one does not tell its own once the type has grown.
    TextMetrics {
        id: words
        font.family: Theme.family
        font.pixelSize: Theme.cap(button.capMm)
        font.weight: button.kind !== Button.Quiet ? Font.DemiBold : Font.Normal
        text: button.shown
    }
    contentItem: Label {
        text: button.shown
        capMm: button.capMm
        strong: button.kind !== Button.Quiet
        color: !button.enabled ? Theme.inkSoft
             : button.filled || button.checked ? Theme.penOnAccent
             : button.kind === Button.Grave ? Theme.ink : Theme.accent
        opacity: button.enabled ? 1 : 0.75
        horizontalAlignment: Text.AlignHCenter
        // Where the room is narrow the words go on in further lines, and the button becomes taller.
        wrapMode: Text.WordWrap
        maximumLineCount: 3
        elide: Text.ElideRight
        Accessible.ignored: true
    }

    background: Rectangle {
        radius: Theme.corner
        color: !button.enabled ? "transparent"
             : button.filled || button.checked ? Theme.accent
             : button.down ? Theme.accentTint
             : button.kind === Button.Quiet ? "transparent" : Theme.raised
        border.color: !button.enabled ? Theme.hairline
                    : button.kind === Button.Grave ? Theme.fault : Theme.accent
        border.width: button.kind === Button.Quiet ? 0
                    : button.kind === Button.Grave ? Theme.rule : Theme.hair
        opacity: button.filled && button.down ? 0.85 : 1

        Rectangle {
            visible: button.visualFocus
            anchors.fill: parent
            anchors.margins: -Theme.focusRing - 1
            color: "transparent"
            radius: Theme.corner + Theme.focusRing
            border.color: Theme.ink
            border.width: Theme.focusRing
        }
    }
}
