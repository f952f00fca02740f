// One court: what an official reads from across the hall.
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Courthand.Design
import Courthand.Head

T.AbstractButton {
    id: card

    required property int index
    required property int court
    required property string number
    required property string match
    required property string setWords
    required property int mark
    required property string stateWord
    required property string notSeen
    required property bool playing
    required property var teamA
    required property var teamB
    required property string alertId
    required property int alertMark
    required property string alertWord
    required property string alertTitle
    required property string alertAge
    required property string alertOwner
    required property int alertCount
    required property string spoken

    property real stateCapMm: 4
    property bool current: false

    readonly property real heightMm: height / Theme.pixelsPerMm
    readonly property real pointsCapMm: Math.max(5, Math.min(11, heightMm * 0.12))
    readonly property bool roomy: heightMm > 56

    objectName: "court" + court
    focusPolicy: Qt.NoFocus
    padding: Theme.mm(roomy ? 2.4 : 1.8)
    Accessible.role: Accessible.Button
    Accessible.name: spoken
    Accessible.description: notSeen
    Accessible.onPressAction: clicked()

    background: Rectangle {
        color: Theme.raised
        radius: Theme.corner
        border.color: card.current ? Theme.ink : Theme.hairline
        border.width: card.current ? Theme.focusRing : Theme.hair
    }

    contentItem: ColumnLayout {
        spacing: Theme.mm(card.roomy ? 1.6 : 0.8)

        RowLayout {
            spacing: Theme.mm(card.roomy ? 2.4 : 1.6)
            Layout.fillWidth: true
            Label {
                text: card.number
                capMm: card.stateCapMm * (card.roomy ? 1.35 : 1)
                font.weight: Font.Bold
                Accessible.ignored: true
            }
            StateMark {
                objectName: "state"
                kind: card.mark
                word: card.stateWord
                capMm: card.stateCapMm
                Layout.fillWidth: true
                Accessible.ignored: true
            }
        }
        RowLayout {
            visible: card.playing
            spacing: Theme.gap
            Layout.fillWidth: true
            Label {
                visible: text !== ""
                text: card.setWords
                capMm: card.roomy ? 2.9 : 2.5
                strong: true
                Accessible.ignored: true
            }
            Label {
                visible: card.notSeen === ""
                text: card.match
                capMm: card.roomy ? 2.9 : 2.5
                soft: true
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            StateMark {
                objectName: "notSeen"
                visible: card.notSeen !== ""
                kind: StateMark.Quiet
                word: card.notSeen
                capMm: card.roomy ? 2.9 : 2.5
                Layout.fillWidth: true
                Accessible.ignored: true
            }
        }
        CardTeam {
            visible: card.playing
            team: card.teamA
            pointsCapMm: card.pointsCapMm
            dim: card.notSeen !== ""
            roomy: card.roomy
            Layout.fillWidth: true
        }
        CardTeam {
            visible: card.playing
            team: card.teamB
            pointsCapMm: card.pointsCapMm
            dim: card.notSeen !== ""
            roomy: card.roomy
            Layout.fillWidth: true
        }
        Item {
            Layout.fillHeight: true
        }
        Hairline {
            visible: card.alertId !== ""
            Layout.fillWidth: true
        }
        RowLayout {
            visible: card.alertId !== ""
            spacing: Theme.mm(1.6)
            Layout.fillWidth: true
            StateMark {
                objectName: "alertMark"
                kind: card.alertMark
                word: card.alertWord
                capMm: 2.9
                Accessible.ignored: true
            }
            Label {
                text: card.roomy || card.alertOwner === "" ? card.alertTitle : card.alertOwner
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            Label {
                objectName: "alertAge"
                text: card.alertAge
                strong: true
                Accessible.ignored: true
            }
        }
        Label {
            visible: card.alertId !== "" && text !== "" && card.roomy
            text: card.alertCount > 1
                  ? qsTr("%1 · %2 more").arg(card.alertOwner !== "" ? card.alertOwner
                                                                    : qsTr("nobody is going yet"))
                        .arg(card.alertCount - 1)
                  : card.alertOwner
            capMm: 2.5
            soft: true
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
    }
}
