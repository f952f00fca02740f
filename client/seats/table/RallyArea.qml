// "This team won the rally": the largest thing to touch, at the outer edge, under a thumb.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Templates as T
import Courthand.Design
import Courthand.Table

T.AbstractButton {
    id: area

    required property SideView side
    property string keyHint: ""

    implicitWidth: Math.max(Theme.touchRally, Theme.mm(27))
    implicitHeight: Theme.touchRally
    focusPolicy: Qt.TabFocus
    Accessible.role: Accessible.Button
    Accessible.name: qsTr("%1 won the rally").arg(side.name)
    Accessible.onPressAction: clicked()

    // A key that is held is one press.
    Keys.onPressed: event => event.accepted = event.isAutoRepeat && event.key === Qt.Key_Space
    Keys.onReleased: event => event.accepted = event.isAutoRepeat && event.key === Qt.Key_Space

    background: Rectangle {
        radius: Theme.corner
        color: area.down ? Theme.accent : area.enabled ? Theme.accentTint : "transparent"
        border.color: area.enabled ? Theme.accent : Theme.hairline
        border.width: area.visualFocus ? Theme.focusRing : area.enabled ? Theme.rule : Theme.hair
    }

    Column {
        anchors.centerIn: parent
        width: parent.width - Theme.mm(3)
        spacing: Theme.mm(1.5)

        component Line: Label {
            width: parent.width
            horizontalAlignment: Text.AlignHCenter
            color: area.down ? Theme.penOnAccent : area.enabled ? Theme.accent : Theme.inkSoft
            wrapMode: Text.Wrap
            Accessible.ignored: true
        }
        Line {
            text: area.side.letter
            capMm: 11
            font.weight: Font.Bold
        }
        Line {
            text: area.side.name
            strong: true
            capMm: 2.9
            maximumLineCount: 3
            elide: Text.ElideRight
        }
        Line {
            text: qsTr("won the rally")
            capMm: 2.5
        }
        Line {
            visible: area.keyHint !== ""
            text: area.keyHint
            capMm: 2.5
        }
    }
}
