// One match: number and time, the two teams, court, state, line-ups and result.
import QtQuick
import QtQuick.Layouts
import Courthand.Design

Item {
    id: line

    required property string matchId
    required property string number
    required property string time
    required property string first
    required property string second
    required property color firstColour
    required property color secondColour
    required property string court
    required property int mark
    required property string state
    required property string lineUps
    required property string sets
    required property string scores
    required property bool movable
    required property string spoken

    property bool narrow: false
    property bool current: false

    signal courtWanted()

    function askCourt() {
        if (line.movable)
            line.courtWanted();
    }

    objectName: "match-" + matchId
    height: grid.implicitHeight + Theme.mm(3)
    Accessible.role: Accessible.ListItem
    Accessible.name: spoken
    Accessible.description: lineUps

    Rectangle {
        anchors.fill: parent
        color: "transparent"
        border.color: Theme.ink
        border.width: line.current ? Theme.focusRing : 0
    }
    Hairline {
        anchors.bottom: parent.bottom
        width: parent.width
    }
    GridLayout {
        id: grid
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.margins: Theme.mm(1)
        anchors.verticalCenter: parent.verticalCenter
        columns: line.narrow ? 2 : 5
        columnSpacing: Theme.gapWide
        rowSpacing: Theme.mm(1)

        ColumnLayout {
            spacing: 0
            Layout.minimumWidth: Theme.mm(15)
            Layout.maximumWidth: Theme.mm(15)
            Label {
                text: line.number
                // "C1", and a name with the letters of its division before it.
                capMm: line.number.length > 3 ? 2.5 : 4.2
                strong: true
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            Label {
                text: line.time
                capMm: 2.5
                soft: true
                Accessible.ignored: true
            }
        }
        ColumnLayout {
            spacing: Theme.mm(0.6)
            Layout.fillWidth: true
            // The shares of names and state in the room that the other columns leave.
            Layout.preferredWidth: 34
            RowLayout {
                spacing: Theme.mm(1.6)
                TeamStripe {
                    team: line.firstColour
                    implicitHeight: Theme.mm(3.6)
                }
                Label {
                    text: line.first
                    strong: true
                    wrapMode: Text.Wrap
                    maximumLineCount: 2
                    elide: Text.ElideRight
                    Layout.fillWidth: true
                    Accessible.ignored: true
                }
            }
            RowLayout {
                spacing: Theme.mm(1.6)
                TeamStripe {
                    team: line.secondColour
                    implicitHeight: Theme.mm(3.6)
                }
                Label {
                    text: line.second
                    strong: true
                    wrapMode: Text.Wrap
                    maximumLineCount: 2
                    elide: Text.ElideRight
                    Layout.fillWidth: true
                    Accessible.ignored: true
                }
            }
        }
        ColumnLayout {
            spacing: 0
            Layout.fillWidth: true
            Layout.preferredWidth: 22
            StateMark {
                kind: line.mark
                word: line.state
                Layout.fillWidth: true
                Accessible.ignored: true
            }
            Label {
                visible: text !== ""
                objectName: "lineUps-" + line.matchId
                text: line.lineUps !== "" ? qsTr("Line-ups: %1").arg(line.lineUps) : ""
                capMm: 2.5
                soft: true
                wrapMode: Text.WordWrap
                Layout.fillWidth: true
                Accessible.ignored: true
            }
        }
        ColumnLayout {
            spacing: 0
            Layout.preferredWidth: Theme.mm(48)
            Layout.maximumWidth: Theme.mm(48)
            Label {
                text: line.sets
                capMm: 3.4
                strong: true
                Accessible.ignored: true
            }
            Label {
                text: line.scores
                capMm: 2.5
                soft: true
                elide: Text.ElideRight
                Layout.fillWidth: true
                Accessible.ignored: true
            }
        }
        Button {
            objectName: "court-" + line.matchId
            visible: line.movable
            text: line.court !== "" ? qsTr("Court %1").arg(line.court) : qsTr("Give a court")
            kind: line.court === "" ? Button.Primary : Button.Plain
            Layout.preferredWidth: Theme.mm(34)
            onClicked: line.courtWanted()
        }
        Label {
            visible: !line.movable
            text: line.court !== "" ? qsTr("Court %1").arg(line.court) : ""
            horizontalAlignment: Text.AlignHCenter
            Layout.preferredWidth: Theme.mm(34)
            Accessible.ignored: true
        }
    }
}
