// One alert in the list.
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Courthand.Design

T.ItemDelegate {
    id: row

    required property int index
    required property string alertId
    required property int mark
    required property string word
    required property string title
    required property string detail
    required property string court
    required property string place
    required property string age
    required property string owner
    required property bool shelved
    required property bool gone
    required property string spoken

    property bool current: false
    property bool chosen: false

    objectName: "alert-" + alertId
    focusPolicy: Qt.NoFocus
    leftPadding: Theme.mm(1.6)
    rightPadding: Theme.mm(1.6)
    topPadding: Theme.mm(1.8)
    bottomPadding: Theme.mm(1.8)
    implicitHeight: Math.max(Theme.touch, implicitContentHeight + topPadding + bottomPadding)
    Accessible.role: Accessible.ListItem
    Accessible.name: spoken
    Accessible.description: owner !== "" ? owner : detail
    Accessible.onPressAction: clicked()

    background: Rectangle {
        color: row.chosen || row.down ? Theme.accentTint : "transparent"
        border.color: row.current ? Theme.ink : "transparent"
        border.width: row.current ? Theme.focusRing : 0
        Hairline {
            anchors.bottom: parent.bottom
            width: parent.width
        }
    }
    contentItem: ColumnLayout {
        spacing: Theme.mm(0.4)

        RowLayout {
            spacing: Theme.mm(1.6)
            Layout.fillWidth: true
            StateMark {
                kind: row.mark
                word: row.word
                capMm: 2.7
                Accessible.ignored: true
            }
            Label {
                text: row.court
                capMm: 2.7
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            Label {
                text: row.age
                capMm: 2.9
                strong: true
                Accessible.ignored: true
            }
        }
        Label {
            text: row.title
            strong: true
            wrapMode: Text.WordWrap
            maximumLineCount: 2
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
        Label {
            visible: text !== ""
            text: row.place
            capMm: 2.4
            soft: true
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
        Label {
            visible: text !== ""
            text: row.owner
            capMm: 2.5
            color: Theme.accent
            strong: true
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
    }
}
