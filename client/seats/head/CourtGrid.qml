// All courts at once, as many columns as keep every card on the page.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design
import Courthand.Head

GridView {
    id: grid

    required property HeadSeat seat
    property bool narrow: false
    property real stateCapMm: 4

    readonly property int columns: {
        if (narrow || count <= 1)
            return 1;
        if (count <= 4)
            return 2;
        return count <= 9 ? 3 : 4;
    }
    readonly property int rowsShown: Math.max(1, Math.ceil(count / columns))
    readonly property real leastCardHeight: Theme.mm(narrow ? 54 : 50)

    function focusCourt(row: int) {
        grid.currentIndex = row;
        grid.forceActiveFocus();
    }

    model: seat.courts
    cellWidth: Math.floor(width / columns)
    cellHeight: Math.max(leastCardHeight, Math.floor(height / Math.max(rowsShown, narrow ? 4 : 2)))
    clip: true
    boundsBehavior: Flickable.StopAtBounds
    activeFocusOnTab: true
    keyNavigationEnabled: true
    Accessible.role: Accessible.List
    Accessible.name: qsTr("Courts")

    Keys.onReturnPressed: grid.seat.openAlert((currentItem as CourtCard)?.alertId ?? "")
    Keys.onEnterPressed: grid.seat.openAlert((currentItem as CourtCard)?.alertId ?? "")

    delegate: CourtCard {
        width: grid.cellWidth - Theme.gap
        height: grid.cellHeight - Theme.gap
        stateCapMm: grid.stateCapMm
        current: GridView.isCurrentItem && grid.activeFocus
        onClicked: {
            grid.currentIndex = index;
            grid.forceActiveFocus();
            grid.seat.openAlert(alertId);
        }
    }

    Label {
        visible: grid.count === 0
        anchors.centerIn: parent
        text: qsTr("No court is known yet. The desk assigns the first match.")
        soft: true
    }
}
