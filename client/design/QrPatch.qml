// A QR code: dark cells on light paper in both themes, with the quiet border that cameras need.
import QtQuick

Rectangle {
    id: patch

    property int size: 0
    // Row by row, "1" for a dark cell.
    property string cells: ""
    readonly property int quiet: 4
    readonly property int span: Math.max(1, size + 2 * quiet)

    // Whole pixels for each cell, so that nothing of the room is lost to the border.
    implicitWidth: Math.round(Theme.mm(50) / span) * span
    implicitHeight: implicitWidth
    color: Theme.qrPaper
    Accessible.role: Accessible.Graphic

    Canvas {
        anchors.fill: parent
        readonly property string cells: patch.cells
        onCellsChanged: requestPaint()
        onWidthChanged: requestPaint()
        onPaint: {
            const c = getContext("2d");
            c.reset();
            if (patch.size <= 0)
                return;
            const cell = Math.floor(width / patch.span);
            const start = Math.floor((width - cell * patch.size) / 2);
            c.fillStyle = Theme.penOnState;
            for (let row = 0; row < patch.size; ++row)
                for (let column = 0; column < patch.size; ++column)
                    if (patch.cells[row * patch.size + column] === "1")
                        c.fillRect(start + column * cell, start + row * cell, cell, cell);
        }
    }
}
