// Six players on their half of the floor, net at the right, as the left team stands. A place that
// differs between the two diagrams has a heavy edge.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

ColumnLayout {
    id: diagram

    property string title: ""
    property string teamName: ""
    property color team: "transparent"
    property var places: []

    // Row from the far side and column from the end line, for positions I to VI.
    readonly property var rows: [2, 2, 1, 0, 0, 1]
    readonly property var columns: [0, 1, 1, 1, 0, 0]

    spacing: Theme.mm(1)
    Accessible.role: Accessible.Grouping
    Accessible.name: qsTr("%1, %2").arg(title).arg(teamName)

    Label {
        text: diagram.title
        soft: true
        capMm: 2.5
    }
    Rectangle {
        id: half
        implicitWidth: Theme.mm(54)
        implicitHeight: Theme.mm(58)
        Layout.fillWidth: true
        Layout.preferredWidth: implicitWidth
        color: Theme.floor
        border.color: Theme.line
        border.width: Theme.hair

        readonly property real pad: Theme.mm(1.6)
        readonly property real tileWidth: (width - 4 * pad) / 2
        readonly property real tileHeight: (height - 4 * pad) / 3

        Rectangle {
            x: parent.width - width
            y: -Theme.mm(1)
            width: Math.max(2, Theme.mm(0.8))
            height: parent.height + Theme.mm(2)
            color: Theme.ink
        }
        Repeater {
            model: diagram.places
            CourtTile {
                required property int index
                required property var modelData
                enabled: false
                number: modelData.number
                numeral: modelData.numeral
                libero: modelData.libero
                offer: modelData.changed ? CourtTile.Chosen : CourtTile.Idle
                team: diagram.team
                spoken: modelData.spoken
                width: half.tileWidth
                height: half.tileHeight
                x: half.pad + diagram.columns[index] * (half.tileWidth + half.pad)
                y: half.pad + diagram.rows[index] * (half.tileHeight + half.pad)
            }
        }
    }
}
