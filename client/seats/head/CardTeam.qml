// One team on a court card: stripe, name, who of the liberos is on, sets and points. A long name goes
// on in a second line, and becomes smaller rather than end in dots.
import QtQuick
import QtQuick.Layouts
import Courthand.Design

RowLayout {
    id: row

    required property var team
    property real pointsCapMm: 6
    property bool dim: false
    property bool roomy: true

    spacing: Theme.mm(1.6)
    Layout.preferredHeight: Theme.mm(roomy ? 14 : 11)
    Layout.minimumHeight: Theme.mm(10.4)
    Layout.maximumHeight: Theme.mm(18)

    TeamStripe {
        team: row.team.colour
        implicitWidth: Theme.mm(2)
        Layout.fillHeight: true
        Layout.maximumHeight: row.height - Theme.mm(1)
    }
    Item {
        id: words
        Layout.fillWidth: true
        Layout.fillHeight: true
        Label {
            id: name
            objectName: "teamName"
            text: row.team.name
            strong: true
            leastCapMm: 1.6
            wrapMode: Text.WordWrap
            lineHeight: 0.9
            verticalAlignment: Text.AlignTop
            width: parent.width
            // It may take what the liberos leave; both stand in the middle as one block.
            height: parent.height - liberos.height
            y: Math.max(0, (height - contentHeight) / 2)
            Accessible.ignored: true
        }
        Label {
            id: liberos
            objectName: "teamLiberos"
            text: row.team.liberos
            capMm: 2.5
            leastCapMm: 1.6
            soft: true
            elide: Text.ElideRight
            width: parent.width
            height: text !== "" ? Theme.mm(4.4) : 0
            y: name.y + name.contentHeight
            Accessible.ignored: true
        }
    }
    Label {
        visible: row.team.serving && row.roomy
        text: qsTr("serves")
        capMm: 2.5
        soft: true
        Accessible.ignored: true
    }
    // Sets won, and under them the ball: the name keeps its width when its team serves.
    ColumnLayout {
        spacing: 0
        Layout.alignment: Qt.AlignVCenter
        Label {
            text: row.team.sets
            capMm: 3.6
            soft: true
            horizontalAlignment: Text.AlignHCenter
            Layout.preferredWidth: Theme.mm(3.2)
            Layout.preferredHeight: Theme.mm(6)
            Accessible.ignored: true
        }
        Rectangle {
            opacity: row.team.serving ? 1 : 0
            implicitWidth: Theme.mm(2.6)
            implicitHeight: Theme.mm(2.6)
            radius: width / 2
            color: Theme.ink
            Layout.alignment: Qt.AlignHCenter
        }
    }
    Label {
        text: row.team.points
        capMm: row.pointsCapMm
        font.weight: row.dim ? Font.Normal : Font.Bold
        soft: row.dim
        horizontalAlignment: Text.AlignRight
        Layout.preferredWidth: Theme.mm(row.pointsCapMm * 1.75)
        Layout.preferredHeight: Theme.mm(row.pointsCapMm * 1.5)
        Accessible.ignored: true
    }
}
