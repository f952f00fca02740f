// Six players on their half of the floor, net at the right, as the left team stands. A place that
// differs between the two diagrams has a heavy edge.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design

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

    component Place: Rectangle {
        id: place
        property var facts: ({})
        readonly property color pen: facts.libero ? Theme.raised : Theme.ink

        color: facts.libero ? Theme.ink : Theme.raised
        radius: Theme.corner
        border.color: facts.changed ? Theme.accent : Theme.line
        border.width: facts.changed ? Theme.mm(0.9) : Theme.hair
        Accessible.role: Accessible.StaticText
        Accessible.name: facts.spoken

        Label {
            x: Theme.mm(1.6)
            y: Theme.mm(0.4)
            text: place.facts.numeral
            capMm: 2.2
            color: place.pen
            Accessible.ignored: true
        }
        Label {
            anchors.horizontalCenter: parent.horizontalCenter
            anchors.bottom: parent.bottom
            text: place.facts.number
            capMm: 5
            font.weight: Font.Bold
            color: place.pen
            Accessible.ignored: true
        }
    }

    RowLayout {
        spacing: Theme.mm(1.6)
        TeamStripe {
            team: diagram.team
            implicitHeight: heading.implicitHeight * 0.7
            implicitWidth: Theme.mm(2)
        }
        Label {
            id: heading
            text: diagram.title
            strong: true
        }
    }
    Rectangle {
        id: half
        implicitWidth: Theme.mm(42)
        implicitHeight: Theme.mm(50)
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
        // The attack line, between back row and front row.
        Rectangle {
            x: half.pad * 1.5 + half.tileWidth
            width: Theme.hair
            height: parent.height
            color: Theme.line
        }
        Repeater {
            model: diagram.places
            Place {
                required property int index
                required property var modelData
                facts: modelData
                width: half.tileWidth
                height: half.tileHeight
                x: half.pad + diagram.columns[index] * (half.tileWidth + half.pad)
                y: half.pad + diagram.rows[index] * (half.tileHeight + half.pad)
            }
        }
    }
}
