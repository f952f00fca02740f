// All courts at once, as many columns as keep every card on the page.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design
import Courthand.Head

GridView {
    id: grid
    objectName: "courtGrid"

    required property HeadSeat seat
    property bool narrow: false
    property real stateCapMm: 4

    // As many as show all courts at once, where the cards stay wide enough to be read.
    readonly property int wantedColumns: {
        if (narrow || count <= 1)
            return 1;
        if (count <= 4)
            return 2;
        return count <= 9 ? 3 : 4;
    }
    readonly property int columns: Math.max(1, Math.min(wantedColumns,
                                                        Math.floor(width / Theme.mm(50))))
    readonly property int rowsShown: Math.max(1, Math.ceil(count / columns))
    readonly property real leastCardHeight: Theme.mm(55)

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

    // More courts than are in sight: where among them one is.
    Rectangle {
        objectName: "courtsInSight"
        parent: grid
        visible: grid.contentHeight > grid.height
        anchors.right: parent.right
        y: grid.visibleArea.yPosition * grid.height
        width: Theme.mm(1)
        height: grid.visibleArea.heightRatio * grid.height
        radius: width / 2
        color: Theme.line
        Accessible.ignored: true
    }
    Label {
        visible: grid.count === 0
        anchors.centerIn: parent
        text: qsTr("No court is known yet. The desk assigns the first match.")
        soft: true
    }
}
