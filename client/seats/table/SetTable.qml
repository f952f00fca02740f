// The sets so far, as printed at the foot of a sheet.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design
import Courthand.Table

Column {
    id: table

    required property TableSeat seat
    readonly property int cells: seat.left.setRow.length
    readonly property real cellWidth: Theme.mm(18)
    readonly property real nameWidth: Math.max(0, width - (cells - 1) * cellWidth)

    spacing: Theme.gap

    component Cell: Label {
        required property int index
        required property string modelData
        readonly property bool name: index === 0

        text: modelData
        capMm: name ? 4.2 : 6.4
        strong: true
        elide: Text.ElideRight
        horizontalAlignment: name ? Text.AlignLeft : Text.AlignRight
        width: name ? table.nameWidth : table.cellWidth
        height: Theme.mm(12)
    }

    Row {
        Repeater {
            model: table.cells
            Label {
                required property int index
                text: index === 0 ? "" : index === table.cells - 1 ? qsTr("sets")
                                                                   : qsTr("set %1").arg(index)
                soft: true
                capMm: 2.5
                width: index === 0 ? table.nameWidth : table.cellWidth
                horizontalAlignment: Text.AlignRight
            }
        }
    }
    Hairline {
        heavy: true
        width: table.width
    }
    Row {
        Repeater {
            model: table.seat.left.setRow
            Cell {}
        }
    }
    Hairline {
        width: table.width
    }
    Row {
        Repeater {
            model: table.seat.right.setRow
            Cell {}
        }
    }
    Hairline {
        width: table.width
    }
}
