// The liberos of every live match in one table.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

ColumnLayout {
    id: view

    required property LiberoTable table
    property bool narrow: false

    spacing: Theme.gap

    function enter() {
        list.forceActiveFocus();
    }

    component Cell: Label {
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
        Layout.preferredWidth: 10
        Accessible.ignored: true
    }

    Heading {
        text: qsTr("Liberos of the live matches")
        wrapMode: Text.WordWrap
        Layout.fillWidth: true
    }
    RowLayout {
        visible: !view.narrow
        spacing: Theme.gap
        Layout.fillWidth: true
        Layout.leftMargin: Theme.mm(4)
        Cell { text: qsTr("Team"); soft: true; capMm: 2.5; Layout.preferredWidth: 18 }
        Cell { text: qsTr("Now"); soft: true; capMm: 2.5; Layout.preferredWidth: 13 }
        Cell { text: qsTr("Designated"); soft: true; capMm: 2.5 }
        Cell { text: qsTr("Re-designated"); soft: true; capMm: 2.5; Layout.preferredWidth: 13 }
        Cell { text: qsTr("Out as libero"); soft: true; capMm: 2.5; Layout.preferredWidth: 13 }
        Cell { text: qsTr("Barred from play"); soft: true; capMm: 2.5; Layout.preferredWidth: 13 }
    }
    Hairline {
        Layout.fillWidth: true
    }
    ListView {
        id: list
        objectName: "liberoTable"
        model: view.table
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        activeFocusOnTab: true
        Layout.fillWidth: true
        Layout.fillHeight: true
        Accessible.role: Accessible.Table
        Accessible.name: qsTr("Liberos")

        delegate: Item {
            id: line
            required property string court
            required property string team
            required property color colour
            required property string designated
            required property string redesignated
            required property string out
            required property string barred
            required property string now
            required property string spoken

            width: ListView.view.width
            height: grid.implicitHeight + Theme.mm(4)
            Accessible.role: Accessible.Row
            Accessible.name: spoken

            TeamStripe {
                team: line.colour
                x: Theme.mm(0.6)
                y: Theme.mm(1.4)
                width: Theme.mm(2)
                height: parent.height - 2 * y
            }
            GridLayout {
                id: grid
                anchors.left: parent.left
                anchors.right: parent.right
                anchors.leftMargin: Theme.mm(4)
                anchors.verticalCenter: parent.verticalCenter
                columns: view.narrow ? 1 : 6
                columnSpacing: Theme.gap
                rowSpacing: Theme.mm(0.6)
                ColumnLayout {
                    spacing: 0
                    Layout.fillWidth: true
                    Layout.preferredWidth: 18
                    Cell { text: line.team; strong: true }
                    Cell { text: line.court; soft: true; capMm: 2.5 }
                }
                Cell { text: line.now; Layout.preferredWidth: 13 }
                Cell {
                    text: view.narrow ? qsTr("Designated %1").arg(line.designated)
                                      : line.designated
                    strong: !view.narrow
                }
                Cell {
                    visible: !view.narrow || line.redesignated !== ""
                    text: view.narrow ? qsTr("Re-designated %1").arg(line.redesignated)
                                      : line.redesignated
                    strong: true
                    Layout.preferredWidth: 13
                }
                Cell {
                    visible: !view.narrow || text !== ""
                    text: line.out
                    Layout.preferredWidth: 13
                }
                Cell {
                    visible: !view.narrow || line.barred !== ""
                    text: view.narrow ? qsTr("Barred %1").arg(line.barred) : line.barred
                    strong: true
                    Layout.preferredWidth: 13
                }
            }
            Hairline {
                anchors.bottom: parent.bottom
                width: parent.width
            }
        }
        Label {
            visible: list.count === 0
            text: qsTr("No match is live.")
            soft: true
        }
    }
}
