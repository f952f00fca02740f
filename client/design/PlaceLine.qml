// One final place: its number, who holds it or whom it waits for.
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T

T.ItemDelegate {
    id: line

    required property string key
    required property string place
    required property string name
    required property string detail
    required property bool held
    required property int mark
    required property string state

    property bool current: false
    // On a phone the state stands below the name.
    property bool narrow: false

    objectName: "place-" + key
    leftPadding: Theme.mm(1)
    rightPadding: Theme.mm(1)
    implicitHeight: Math.max(Theme.touch, line.narrow ? implicitContentHeight + Theme.mm(2) : 0)
    focusPolicy: Qt.NoFocus
    Accessible.role: Accessible.ListItem
    Accessible.name: place !== "" ? qsTr("Place %1: %2, %3").arg(place).arg(name).arg(state)
                                  : qsTr("%1, %2").arg(name).arg(state)
    Accessible.description: detail
    Accessible.onPressAction: clicked()

    background: Rectangle {
        color: line.down ? Theme.accentTint : "transparent"
        border.color: Theme.ink
        border.width: line.current ? Theme.focusRing : 0
        Hairline {
            anchors.bottom: parent.bottom
            width: parent.width
        }
    }
    contentItem: RowLayout {
        spacing: Theme.gap
        Label {
            text: line.place
            capMm: 3.4
            strong: true
            horizontalAlignment: Text.AlignRight
            Layout.preferredWidth: Theme.mm(line.narrow ? 12 : 17)
            Accessible.ignored: true
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Layout.leftMargin: Theme.mm(2)
            Label {
                text: line.name
                strong: line.held
                soft: !line.held
                wrapMode: line.narrow ? Text.WordWrap : Text.NoWrap
                elide: line.narrow ? Text.ElideNone : Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            Label {
                visible: text !== ""
                text: line.detail
                capMm: 2.3
                soft: true
                wrapMode: line.narrow ? Text.WordWrap : Text.NoWrap
                elide: line.narrow ? Text.ElideNone : Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            StateMark {
                visible: line.narrow
                kind: line.mark
                word: line.state
                capMm: 2.5
                Accessible.ignored: true
            }
        }
        StateMark {
            visible: !line.narrow
            kind: line.mark
            word: line.state
            capMm: 2.5
            Layout.preferredWidth: Theme.mm(30)
            Accessible.ignored: true
        }
    }
}
