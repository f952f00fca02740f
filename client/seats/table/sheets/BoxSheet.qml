// A libero box that is still blank: a person says "none" or a number.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

TableSheet {
    id: sheet

    name: "box"
    word: qsTr("Blank libero box")
    key: "B"
    offered: seat.next.boxAsked

    property var box: ({})

    // A number, or -1 for "none".
    function settle(number: int) {
        seat.acts.record("libero_box_settled",
                         { team: box.onLeft, box: box.box + 1, entry: number });
        close();
    }

    title: qsTr("Libero box %1 of %2").arg((box.box ?? 0) + 1).arg(box.team ?? "")
    onAboutToShow: box = seat.next.openBox()
    note: qsTr("Ask the second referee whether the team names a libero here.")

    Button {
        objectName: "boxNone"
        text: qsTr("None: the second referee has asked")
        kind: Button.Primary
        Layout.fillWidth: true
        onClicked: sheet.settle(-1)
    }
    NumberGrid {
        prefix: "box"
        players: sheet.box.onLeft ? sheet.seat.left.roster : sheet.seat.right.roster
        Layout.fillWidth: true
        onPicked: number => sheet.settle(number)
    }
}
