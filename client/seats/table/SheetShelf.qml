// All sheets of the table seat, one for each file in the folder `sheets`, with their keys.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Design
import Courthand.Table

Item {
    id: shelf

    required property TableSeat seat
    required property RunningClock clock
    // Keys of the sheets may be used now.
    property bool keysLive: true

    property var sheets: []
    readonly property bool open: sheets.some(one => one.visible)

    // The sheet of that name. There is one: the names are those of the program and of the files.
    function sheet(name: string): TableSheet {
        const found = sheets.find(one => one.name === name);
        if (!found)
            throw new Error("there is no sheet " + name);
        return found;
    }
    // Those with a button in that place, in their order.
    function offeredAt(place: int): var {
        return sheets.filter(one => one.place === place && one.offered)
                     .sort((a, b) => a.rank - b.rank);
    }
    function made(file: string): TableSheet {
        const component = Qt.createComponent(file);
        if (component.status !== Component.Ready)
            throw new Error(component.errorString());
        // A required property takes a value first; the seat may be another one later.
        const made = component.createObject(shelf, {
            "seat": shelf.seat,
            "clock": shelf.clock,
            "shelf": shelf
        }) as TableSheet;
        made.seat = Qt.binding(() => shelf.seat);
        return made;
    }

    Component.onCompleted: {
        const all = [];
        for (let i = 0; i < SheetFiles.list.length; ++i)
            all.push(made(SheetFiles.list[i]));
        sheets = all;
    }

    Repeater {
        model: shelf.sheets
        Item {
            id: holder
            required property TableSheet modelData
            TableKey {
                seat: shelf.seat
                act: holder.modelData.act
                enabled: usable && holder.modelData.offered && !shelf.open
                         && (shelf.keysLive || holder.modelData.anywhere)
                onActivated: holder.modelData.ask()
            }
        }
    }
}
