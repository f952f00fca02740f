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
    // Alerts of matches that were on this court before, in words; they are not of the match above.
    required property string earlier
    required property string spoken

    property real stateCapMm: 4
    property bool current: false

    readonly property real heightMm: height / Theme.pixelsPerMm
    readonly property real pointsCapMm: Math.max(5, Math.min(11, heightMm * 0.12))
    readonly property bool roomy: heightMm > 56
    // Four to a row on a laptop: what is said elsewhere too gives way.
    readonly property bool tight: width / Theme.pixelsPerMm < 62
    readonly property bool roomOfItsOwn: alertCount === 0 || roomy
    readonly property real smallCapMm: roomy && !tight ? 2.9 : 2.5

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
        spacing: Theme.mm(card.roomy ? 1.6 : 0.6)

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
                leastCapMm: card.stateCapMm * 0.7
                Layout.fillWidth: true
                Accessible.ignored: true
            }
        }
        RowLayout {
            visible: card.playing
            spacing: Theme.mm(1.6)
            Layout.fillWidth: true
            Label {
                // A narrow card has no room for both.
                visible: text !== "" && (card.notSeen === "" || !card.tight)
                text: card.setWords
                capMm: card.smallCapMm
                strong: true
                Accessible.ignored: true
            }
            Label {
                visible: card.notSeen === ""
                text: card.match
                capMm: card.smallCapMm
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
                capMm: card.smallCapMm
                leastCapMm: 1.8
                Layout.fillWidth: true
                Accessible.ignored: true
            }
        }
        CardTeam {
            visible: card.playing
            team: card.teamA
            pointsCapMm: card.pointsCapMm
            dim: card.notSeen !== ""
            roomy: card.roomy && !card.tight
            Layout.fillWidth: true
            Layout.fillHeight: true
        }
        CardTeam {
            visible: card.playing
            team: card.teamB
            pointsCapMm: card.pointsCapMm
            dim: card.notSeen !== ""
            roomy: card.roomy && !card.tight
            Layout.fillWidth: true
            Layout.fillHeight: true
        }
        Item {
            Layout.fillHeight: true
            Layout.preferredHeight: 0
        }
        Hairline {
            visible: card.alertId !== ""
            Layout.fillWidth: true
        }
        RowLayout {
            visible: card.alertCount > 0
            spacing: Theme.mm(1.6)
            Layout.fillWidth: true
            StateMark {
                objectName: "alertMark"
                kind: card.alertMark
                word: card.alertWord
                capMm: card.tight ? 2.5 : 2.9
                Accessible.ignored: true
            }
            // Of a narrow card the list beside it says what the alert is.
            Label {
                objectName: "alertTitle"
                text: card.tight ? "" : card.roomy || card.alertOwner === "" ? card.alertTitle
                                                                            : card.alertOwner
                leastCapMm: 2
                elide: Text.ElideRight
                // Half a title says less than the list beside it.
                opacity: truncated ? 0 : 1
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            Label {
                visible: card.earlier !== "" && !card.roomOfItsOwn
                //: On a narrow card: further alerts, of matches before
                text: qsTr("+ earlier")
                capMm: 2.2
                soft: true
                Accessible.ignored: true
            }
            Label {
                objectName: "alertAge"
                text: card.alertAge
                capMm: card.tight ? 2.5 : 2.9
                strong: true
                Accessible.ignored: true
            }
        }
        Label {
            visible: card.alertCount > 0 && text !== "" && card.roomy
            text: card.alertCount > 1
                  ? qsTr("%1 · %2 more").arg(card.alertOwner !== "" ? card.alertOwner
                                                                    : qsTr("nobody is going yet"))
                        .arg(card.alertCount - 1)
                  : card.alertOwner
            capMm: 2.5
            leastCapMm: 2
            soft: true
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
        Label {
            objectName: "earlier"
            visible: card.earlier !== "" && card.roomOfItsOwn
            text: card.earlier
            capMm: 2.5
            leastCapMm: 1.8
            soft: true
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
    }
}
