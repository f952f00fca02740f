// One match of a bracket: its two sides with their sets, the winner in strong type.
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Courthand.Design

T.AbstractButton {
    id: box

    required property string key
    required property string about
    required property string first
    required property string second
    required property bool firstKnown
    required property bool secondKnown
    required property string firstSets
    required property string secondSets
    required property int winner
    required property int mark
    required property string state
    required property string spoken

    property bool current: false
    // Seen from afar: the number of the match alone.
    property bool overview: false
    property real thickness: Theme.hair

    component Side: RowLayout {
        id: side
        property string name: ""
        property string sets: ""
        property bool known: false
        property bool won: false
        spacing: Theme.mm(1)
        Layout.fillWidth: true
        Label {
            text: side.name
            soft: !side.known
            strong: side.won
            capMm: side.known ? 2.7 : 2.4
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
        Label {
            text: side.sets
            strong: side.won
            capMm: 2.7
            Accessible.ignored: true
        }
    }

    objectName: "box-" + key
    focusPolicy: Qt.NoFocus
    padding: Theme.mm(1.2)
    topPadding: Theme.mm(0.4)
    bottomPadding: Theme.mm(0.4)
    Accessible.role: Accessible.Button
    Accessible.name: spoken
    Accessible.onPressAction: clicked()

    background: Rectangle {
        radius: Theme.corner
        color: box.down ? Theme.accentTint : Theme.raised
        border.color: box.current ? Theme.ink : Theme.line
        border.width: box.current ? Theme.focusRing * box.thickness / Theme.hair : box.thickness
        Label {
            visible: box.overview
            anchors.centerIn: parent
            text: box.key
            capMm: 8
            strong: box.winner > 0
            Accessible.ignored: true
        }
    }
    contentItem: ColumnLayout {
        visible: !box.overview
        spacing: 0
        RowLayout {
            spacing: Theme.mm(1)
            Layout.fillWidth: true
            Label {
                text: box.about
                capMm: 2.1
                soft: true
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            StateMark {
                kind: box.mark
                word: box.mark === StateMark.Good || box.mark === StateMark.Quiet ? "" : box.state
                capMm: 2.1
                Accessible.ignored: true
            }
        }
        Side {
            name: box.first
            known: box.firstKnown
            sets: box.firstSets
            won: box.winner === 1
        }
        Hairline {
            Layout.fillWidth: true
        }
        Side {
            name: box.second
            known: box.secondKnown
            sets: box.secondSets
            won: box.winner === 2
        }
    }
}
