// A libero box that is still blank: a person says "none" or a number.
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

Sheet {
    id: sheet

    required property TableSeat seat
    property var box: ({})

    title: qsTr("Libero box %1 of %2").arg((box.box ?? 0) + 1).arg(box.team ?? "")
    note: qsTr("Ask the second referee whether the team names a libero here.")
    onAboutToShow: box = seat.openBox()

    Button {
        objectName: "boxNone"
        text: qsTr("None: the second referee has asked")
        kind: Button.Primary
        Layout.fillWidth: true
        onClicked: {
            sheet.seat.settleBox(sheet.box.onLeft, sheet.box.box, -1);
            sheet.close();
        }
    }
    NumberGrid {
        prefix: "box"
        players: sheet.box.onLeft ? sheet.seat.left.roster : sheet.seat.right.roster
        Layout.fillWidth: true
        onPicked: number => {
            sheet.seat.settleBox(sheet.box.onLeft, sheet.box.box, number);
            sheet.close();
        }
    }
}
