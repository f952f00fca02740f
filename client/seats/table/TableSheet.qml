// A sheet of the table seat. Each file in the folder `sheets` is one, and says here all that the rest
// of the seat knows of it: by what name it is asked for, what its button says and where that stands,
// its key, and when it is offered.
import QtQuick
import Courthand.Design
import Courthand.Table

Sheet {
    id: sheet

    enum Place { Nowhere, BarLeft, BarRight, More }

    required property TableSeat seat
    // The clock in the top line.
    required property RunningClock clock
    // The shelf on which it lies beside the others.
    required property var shelf

    required property string name
    // On its button and in the list of keys.
    property string word: title
    required property string key
    // Where its button stands, and after which others.
    property int place: TableSheet.Nowhere
    property int rank: 0
    property bool offered: true
    // Its key works on every page, not only on that of play.
    property bool anywhere: false
    // The number of its key in the list of keys.
    property int act: -1

    // What its button and its key do.
    function ask() {
        open();
    }
    function makeKnown() {
        act = seat.keys.know(name, word, key);
    }

    onSeatChanged: makeKnown()
    Component.onCompleted: makeKnown()
}
