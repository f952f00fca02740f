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
    required property bool asks

    property bool current: false
    property bool chosen: false
    property bool busy: false

    // The answer to a device that asks to go on with the match.
    signal answered(consent: bool)

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
            wrapMode: Text.WordWrap
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
        Label {
            visible: row.asks
            text: row.detail
            capMm: 2.5
            wrapMode: Text.WordWrap
            Layout.fillWidth: true
            Accessible.ignored: true
        }
        RowLayout {
            visible: row.asks
            spacing: Theme.gap
            Layout.fillWidth: true
            Layout.topMargin: Theme.mm(0.8)
            Button {
                objectName: "goOn-" + row.alertId
                text: qsTr("Let the new table go on")
                keyHint: row.current ? qsTr("G") : ""
                explanation: qsTr("%1: what the old device still sends is kept aside").arg(row.court)
                kind: Button.Primary
                capMm: 2.5
                enabled: !row.busy
                Layout.fillWidth: true
                onClicked: row.answered(true)
            }
            Button {
                objectName: "no-" + row.alertId
                text: qsTr("No")
                keyHint: row.current ? qsTr("N") : ""
                explanation: qsTr("%1: the device that writes goes on alone").arg(row.court)
                capMm: 2.5
                enabled: !row.busy
                onClicked: row.answered(false)
            }
        }
    }
}
