// A small fact about something: a word in a hairline frame. Touchable only when `touchable`.
import QtQuick
import QtQuick.Templates as T

T.AbstractButton {
    id: chip

    property bool touchable: false
    property real capMm: 2.5
    property bool strong: false

    enabled: touchable
    focusPolicy: touchable ? Qt.TabFocus : Qt.NoFocus
    leftPadding: Theme.mm(2)
    rightPadding: Theme.mm(2)
    implicitHeight: touchable ? Theme.touch : implicitContentHeight + Theme.mm(1.2)
    implicitWidth: implicitContentWidth + leftPadding + rightPadding
    Accessible.role: touchable ? Accessible.Button : Accessible.StaticText
    Accessible.name: text
    Accessible.onPressAction: clicked()

    contentItem: Label {
        text: chip.text
        capMm: chip.capMm
        strong: chip.strong
        color: chip.checked ? Theme.penOnAccent : chip.touchable ? Theme.accent : Theme.ink
        horizontalAlignment: Text.AlignHCenter
        elide: Text.ElideRight
        Accessible.ignored: true
    }
    background: Rectangle {
        radius: Theme.corner
        color: chip.checked ? Theme.accent : chip.down ? Theme.accentTint : "transparent"
        border.width: chip.visualFocus ? Theme.focusRing : Theme.hair
        border.color: chip.visualFocus ? Theme.ink : chip.touchable ? Theme.accent : Theme.hairline
    }
}
