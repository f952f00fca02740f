// One team on a court card: stripe, name, who of the liberos is on, sets and points.
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

    TeamStripe {
        team: row.team.colour
        implicitWidth: Theme.mm(2)
        implicitHeight: words.implicitHeight
        Layout.fillHeight: true
        Layout.maximumHeight: words.implicitHeight
    }
    ColumnLayout {
        id: words
        spacing: 0
        Layout.fillWidth: true
        Label {
            text: row.team.name
            strong: true
            elide: Text.ElideRight
            Layout.fillWidth: true
            Accessible.ignored: true
        }
        Label {
            text: row.team.liberos
            capMm: 2.5
            soft: true
            elide: Text.ElideRight
            Layout.fillWidth: true
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
    Rectangle {
        visible: row.team.serving
        implicitWidth: Theme.mm(2.6)
        implicitHeight: Theme.mm(2.6)
        radius: width / 2
        color: Theme.ink
    }
    Label {
        text: row.team.sets
        capMm: 3.6
        soft: true
        horizontalAlignment: Text.AlignRight
        Layout.preferredWidth: Theme.mm(row.roomy ? 5 : 3.2)
        Accessible.ignored: true
    }
    Label {
        text: row.team.points
        capMm: row.pointsCapMm
        font.weight: row.dim ? Font.Normal : Font.Bold
        soft: row.dim
        horizontalAlignment: Text.AlignRight
        Layout.preferredWidth: Theme.mm(row.pointsCapMm * 1.75)
        Accessible.ignored: true
    }
}
