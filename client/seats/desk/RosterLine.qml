// One line of a roster file, its cells under one another; those with a fault have a frame.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design

Item {
    id: row

    required property int line
    required property var cells
    required property var wrong
    property int columns: 1

    readonly property bool head: line === 1

    objectName: "line-" + line
    height: body.implicitHeight + Theme.mm(2)
    Accessible.role: Accessible.Row
    Accessible.name: qsTr("line %1: %2").arg(line).arg(cells.join(", "))

    Hairline {
        anchors.bottom: parent.bottom
        width: parent.width
        heavy: row.head
    }
    ColumnLayout {
        id: body
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.verticalCenter: parent.verticalCenter
        spacing: Theme.mm(0.4)

        RowLayout {
            spacing: Theme.gap
            Layout.fillWidth: true
            Label {
                text: row.line
                soft: true
                capMm: 2.5
                horizontalAlignment: Text.AlignRight
                Layout.preferredWidth: Theme.mm(8)
                Accessible.ignored: true
            }
            Row {
                id: boxes
                spacing: Theme.gap
                Layout.fillWidth: true
                Repeater {
                    // Counted: a file that is read again changes what stands in the cells of a line.
                    model: row.cells.length
                    Item {
                        id: cell
                        required property int index
                        readonly property bool bad: row.wrong.indexOf(index) >= 0
                        height: Theme.mm(6.4)
                        width: (boxes.width + boxes.spacing) / row.cells.length - boxes.spacing
                        Rectangle {
                            visible: cell.bad
                            anchors.fill: parent
                            color: "transparent"
                            border.color: Theme.fault
                            border.width: Theme.rule
                            radius: Theme.corner
                        }
                        Label {
                            anchors.fill: parent
                            anchors.leftMargin: Theme.mm(1.2)
                            anchors.rightMargin: Theme.mm(1.2)
                            text: row.cells[cell.index] ?? ""
                            strong: row.head || cell.bad
                            elide: Text.ElideRight
                            Accessible.ignored: true
                        }
                    }
                }
            }
        }
    }
}
