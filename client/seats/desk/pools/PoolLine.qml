// One line of a cross table: the head of a pool, or a team with its results against the others.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import QtQuick.Templates as T
import Courthand.Design

T.ItemDelegate {
    id: line

    required property string key
    required property string kind
    required property string number
    required property string place
    required property string name
    required property var cells
    required property string matches
    required property string sets
    required property string points
    required property int mark
    required property string state
    required property bool undecided

    property bool current: false
    // On a phone: the places, and the results of a team by a touch.
    property bool narrow: false
    readonly property bool head: kind === "pool"
    // A single pool of many teams: the cells need the room of the sums.
    readonly property bool crowded: cells.length > 9
    // What the columns beside the cells take; the cells share the rest.
    readonly property real beside: Theme.mm(10 + 5 + 37 + 11 + (crowded ? 0 : 12 + 19) + 26) + Theme.mm(1) * (7 + cells.length)
                                  + 2 * leftPadding
    readonly property real cellWidth: Math.floor(Math.max(Theme.mm(crowded ? 6 : 9), Math.min(Theme.mm(27),
                                      (width - beside) / Math.max(1, cells.length))))

    signal decisionWanted()

    objectName: "pool-" + key
    leftPadding: Theme.mm(1)
    rightPadding: Theme.mm(1)
    implicitHeight: head ? Theme.mm(12) : Theme.mm(11)
    focusPolicy: Qt.NoFocus
    Accessible.role: Accessible.ListItem
    Accessible.name: head ? qsTr("%1, %2").arg(name).arg(state)
                          : qsTr("place %1, %2, %3, matches %4").arg(place).arg(name).arg(state)
                                                               .arg(matches)
    Accessible.onPressAction: clicked()

    component Column: Label {
        property real widthMm: 10
        horizontalAlignment: Text.AlignHCenter
        Layout.preferredWidth: Theme.mm(widthMm)
        Accessible.ignored: true
    }

    background: Rectangle {
        color: line.down ? Theme.accentTint : "transparent"
        border.color: Theme.ink
        border.width: line.current ? Theme.focusRing : 0
        Hairline {
            heavy: line.head
            anchors.bottom: parent.bottom
            width: parent.width
        }
    }
    contentItem: RowLayout {
        spacing: Theme.mm(1)
        Column {
            visible: !line.head
            text: line.place
            capMm: 3.6
            strong: true
            widthMm: 10
        }
        Column {
            visible: !line.head
            text: line.number
            soft: true
            widthMm: 5
        }
        Label {
            text: line.name
            strong: true
            capMm: line.head ? 3.6 : 2.9
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
        Button {
            objectName: "decide-" + line.key
            visible: line.undecided
            kind: Button.Primary
            text: qsTr("Decide")
            keyHint: line.current ? qsTr("D") : ""
            onClicked: line.decisionWanted()
        }
        Row {
            visible: !line.narrow
            spacing: Theme.mm(1)
            Repeater {
                // Counted, not listed: a result changes what stands in the cells and makes no new ones.
                model: line.narrow ? 0 : line.cells.length
                PoolCell {
                    required property int index
                    anchors.verticalCenter: parent?.verticalCenter
                    shown: line.cells[index]
                    head: line.head
                    width: line.cellWidth
                }
            }
        }
        Column {
            text: line.head ? qsTr("won") : line.matches
            soft: line.head
            capMm: line.head ? 2.5 : 2.9
            widthMm: 11
        }
        Column {
            visible: !line.crowded
            text: line.head ? qsTr("sets") : line.sets
            soft: line.head
            capMm: line.head ? 2.5 : 2.9
            widthMm: 12
        }
        Column {
            visible: !line.crowded && !line.narrow
            text: line.head ? qsTr("points") : line.points
            soft: line.head
            capMm: line.head ? 2.5 : 2.9
            widthMm: 19
        }
        StateMark {
            visible: !line.narrow
            kind: line.mark
            word: line.state
            capMm: 2.5
            strong: false
            lines: 2
            Layout.preferredWidth: Theme.mm(26)
            Accessible.ignored: true
        }
    }
}
