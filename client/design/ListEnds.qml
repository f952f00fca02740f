// The keys Home and End, and Page Up and Page Down, in a list that is gone through by the arrows. The
// list forwards its keys here: `Keys.forwardTo: [ends]`.
import QtQuick

Item {
    id: ends

    required property ListView view
    // Rows that a page goes on: as many as are in sight.
    readonly property int most: {
        const row = ends.view.currentItem;
        return row === null || row.height <= 0 ? 1 : Math.max(1, Math.floor(ends.view.height / row.height) - 1);
    }

    function go(row: int) {
        ends.view.currentIndex = Math.max(0, Math.min(ends.view.count - 1, row));
        ends.view.positionViewAtIndex(ends.view.currentIndex, ListView.Contain);
    }

    Keys.onPressed: event => {
        event.accepted = event.modifiers === Qt.NoModifier && ends.view.count > 0;
        if (!event.accepted)
            return;
        if (event.key === Qt.Key_Home)
            ends.go(0);
        else if (event.key === Qt.Key_End)
            ends.go(ends.view.count - 1);
        else if (event.key === Qt.Key_PageUp)
            ends.go(ends.view.currentIndex - ends.most);
        else if (event.key === Qt.Key_PageDown)
            ends.go(ends.view.currentIndex + ends.most);
        else
            event.accepted = false;
    }
}
