// The requests of the teams, undo in the middle (far from the rally areas), and the rest.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design
import Courthand.Table

Item {
    id: bar

    required property TableSeat seat
    required property SheetShelf shelf

    implicitHeight: Theme.touch

    component Act: Button {
        height: bar.height
        anchors.verticalCenter: parent?.verticalCenter
    }
    component Sheets: Row {
        id: row
        property int place: TableSheet.Nowhere
        height: bar.height
        spacing: Theme.gap
        Repeater {
            model: bar.shelf.offeredAt(row.place)
            Act {
                required property TableSheet modelData
                objectName: modelData.name
                text: modelData.word
                onClicked: modelData.ask()
            }
        }
    }

    Sheets {
        place: TableSheet.BarLeft
        anchors.left: parent.left
    }
    Act {
        objectName: "undo"
        text: qsTr("Undo")
        width: Theme.mm(32)
        anchors.horizontalCenter: parent.horizontalCenter
        explanation: qsTr("Takes back: %1").arg(bar.seat.undoWords)
        onClicked: bar.seat.undo()
    }
    Sheets {
        place: TableSheet.BarRight
        anchors.right: parent.right
    }
}
