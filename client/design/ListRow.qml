// One line of a list: what it is, more about it, and something at its end.
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T

T.ItemDelegate {
    id: row

    property string title: text
    property int titleLines: 1
    property string detail: ""
    property string trailing: ""
    property int markKind: StateMark.Quiet
    property string markWord: ""
    property bool touchable: true
    property bool selected: false
    // Extra items at the end of the line, e.g. buttons.
    default property alias extras: end.data

    implicitHeight: Math.max(Theme.touch, line.implicitHeight + Theme.mm(2))
    implicitWidth: line.implicitWidth + leftPadding + rightPadding
    leftPadding: Theme.mm(2.5)
    rightPadding: Theme.mm(2.5)
    hoverEnabled: touchable
    focusPolicy: touchable ? Qt.TabFocus : Qt.NoFocus
    Accessible.role: Accessible.ListItem
    Accessible.name: row.title
    Accessible.description: row.markWord + " " + row.detail + " " + row.trailing
    Accessible.onPressAction: clicked()

    RowLayout {
        id: line
        anchors.fill: parent
        anchors.leftMargin: row.leftPadding
        anchors.rightMargin: row.rightPadding
        spacing: Theme.gap

        StateMark {
            visible: row.markWord !== ""
            kind: row.markKind
            word: row.markWord
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Label {
                text: row.title
                strong: true
                elide: Text.ElideRight
                maximumLineCount: row.titleLines
                wrapMode: row.titleLines > 1 ? Text.WordWrap : Text.NoWrap
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            Label {
                visible: row.detail !== ""
                text: row.detail
                capMm: 2.5
                soft: true
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
                Accessible.ignored: true
            }
        }
        Label {
            visible: row.trailing !== ""
            text: row.trailing
            Accessible.ignored: true
        }
        RowLayout {
            id: end
            spacing: Theme.gap
        }
    }
    background: Rectangle {
        color: row.selected || row.down ? Theme.accentTint : "transparent"
        border.color: row.visualFocus ? Theme.ink : "transparent"
        border.width: row.visualFocus ? Theme.focusRing : 0
        Hairline {
            anchors.bottom: parent.bottom
            width: parent.width
        }
    }
}
