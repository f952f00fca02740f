// A list that is gone through by keys: the arrows, Home and End, Page Up and Page Down, also those of
// a numeric keypad, and Enter for what its line is there for.
import QtQuick

ListView {
    id: list

    // Enter means something here; otherwise it goes on to what lies around the list.
    property bool enters: true
    // Enter on the current line. A key that is held from before, or that is still held, is none.
    signal entered()

    clip: true
    boundsBehavior: Flickable.StopAtBounds
    activeFocusOnTab: true
    keyNavigationEnabled: true
    Accessible.role: Accessible.List

    Keys.forwardTo: [keys]
    Item {
        id: keys

        // Rows that a page goes on: as many as are in sight.
        readonly property int most: {
            const row = list.currentItem;
            return row === null || row.height <= 0 ? 1 : Math.max(1, Math.floor(list.height / row.height) - 1);
        }

        function go(row: int) {
            list.currentIndex = Math.max(0, Math.min(list.count - 1, row));
            list.positionViewAtIndex(list.currentIndex, ListView.Contain);
        }

        Keys.onPressed: event => {
            const enter = event.key === Qt.Key_Return || event.key === Qt.Key_Enter;
            if (enter && list.enters) {
                event.accepted = true;
                if (!event.isAutoRepeat)
                    list.entered();
                return;
            }
            event.accepted = (event.modifiers & ~Qt.KeypadModifier) === Qt.NoModifier && list.count > 0;
            if (!event.accepted)
                return;
            if (event.key === Qt.Key_Home)
                keys.go(0);
            else if (event.key === Qt.Key_End)
                keys.go(list.count - 1);
            else if (event.key === Qt.Key_PageUp)
                keys.go(list.currentIndex - keys.most);
            else if (event.key === Qt.Key_PageDown)
                keys.go(list.currentIndex + keys.most);
            else
                event.accepted = false;
        }
    }
}
