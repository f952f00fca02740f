// One key of the table seat, as the list of keys has it now. A key that is held says nothing new.
import QtQuick
import Courthand.Table

Shortcut {
    required property TableSeat seat
    required property int act
    readonly property bool usable: sequence !== ""

    // The list of keys is read so that a change of the map is seen.
    sequence: seat.keys.list.length > 0 ? seat.keys.keys(act) : ""
    enabled: usable
    autoRepeat: false
    context: Qt.WindowShortcut
}
