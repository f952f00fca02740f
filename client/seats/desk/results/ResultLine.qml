// One match with its result, as the desk has it.
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Courthand.Design

T.ItemDelegate {
    id: line

    required property string key
    required property string about
    required property string first
    required property string second
    required property bool known
    required property string sets
    required property string scores
    required property string place
    required property int mark
    required property string state

    property bool current: false
    // On a phone: how it stands as a mark, and the points by a touch.
    property bool narrow: false

    objectName: "result-" + key
    leftPadding: Theme.mm(1)
    rightPadding: Theme.mm(1)
    implicitHeight: Theme.mm(line.narrow ? 15 : 11)
    focusPolicy: Qt.NoFocus
    Accessible.role: Accessible.ListItem
    Accessible.name: qsTr("%1, %2 against %3, %4").arg(key).arg(first).arg(second).arg(state)
    Accessible.description: scores
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
            text: line.key
            strong: true
            elide: Text.ElideRight
            Layout.preferredWidth: Theme.mm(line.narrow ? 9 : 16)
            Accessible.ignored: true
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Label {
                text: qsTr("%1 – %2").arg(line.first).arg(line.second)
                strong: line.known
                soft: !line.known
                elide: Text.ElideRight
                wrapMode: line.narrow ? Text.WordWrap : Text.NoWrap
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            Label {
                text: line.place !== "" ? qsTr("%1 · %2").arg(line.about).arg(line.place) : line.about
                capMm: 2.3
                soft: true
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
        }
        Label {
            text: line.sets
            capMm: 3.4
            strong: true
            horizontalAlignment: Text.AlignHCenter
            Layout.preferredWidth: Theme.mm(14)
            Accessible.ignored: true
        }
        Label {
            visible: !line.narrow
            text: line.scores
            capMm: 2.5
            soft: true
            wrapMode: Text.WordWrap
            Layout.preferredWidth: Theme.mm(46)
            Accessible.ignored: true
        }
        StateMark {
            kind: line.mark
            word: line.narrow ? "" : line.state
            capMm: 2.5
            Layout.preferredWidth: line.narrow ? Theme.mm(5) : Theme.mm(38)
            Accessible.ignored: true
        }
    }
}
