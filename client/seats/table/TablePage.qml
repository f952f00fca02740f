// The table seat: the page that the match needs now, the sheets over it, and the keys.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Table

FocusScope {
    id: page

    required property TableSeat seat
    readonly property bool onCourt: seat.page === TableSeat.CourtPage
    readonly property bool keysLive: !sheets.open && onCourt

    focus: true
    Accessible.role: Accessible.Pane
    Accessible.name: qsTr("Table seat, court %1").arg(seat.court)

    // A key that is held says nothing new.
    Keys.onPressed: event => {
        if (sheets.open || event.modifiers & (Qt.ControlModifier | Qt.AltModifier))
            return;
        const writes = page.seat.writesNumbers;
        if (!page.onCourt && !writes)
            return;
        if (event.isAutoRepeat) {
            event.accepted = true;
            return;
        }
        if (event.key >= Qt.Key_0 && event.key <= Qt.Key_9
                && (writes || page.seat.keys.on(KeyMap.Figures)))
            page.seat.keyDigit(event.key - Qt.Key_0);
        else if (event.key === Qt.Key_Backspace)
            page.seat.keyErase();
        else if (writes && (event.key === Qt.Key_Return || event.key === Qt.Key_Enter))
            page.seat.keyExpected();
        else if (event.key === Qt.Key_N && page.seat.keyNone())
            event.accepted = true;
        else if (page.onCourt && event.key === Qt.Key_Escape)
            page.seat.picking.letGo();
        else
            return;
        event.accepted = true;
    }

    component Key: TableKey {
        seat: page.seat
        enabled: usable && page.keysLive
    }
    Key { act: KeyMap.RallyLeft; onActivated: page.seat.rallyWon(true) }
    Key { act: KeyMap.RallyRight; onActivated: page.seat.rallyWon(false) }
    Key { act: KeyMap.ServeHit; onActivated: page.seat.serveHit() }
    Key {
        act: KeyMap.Expected
        enabled: usable && !sheets.open && !page.seat.writesNumbers
            && page.seat.page !== TableSeat.ElsewherePage
        onActivated: page.seat.keyExpected()
    }
    Key { act: KeyMap.Libero; onActivated: page.seat.keyTeam() }
    Key { act: KeyMap.ItHappened; onActivated: page.seat.picking.itHappened() }
    Key {
        act: KeyMap.GoOnHere
        enabled: usable && !sheets.open && page.seat.page === TableSeat.ElsewherePage
        onActivated: page.seat.saving.askToGoOn()
    }
    Key {
        act: KeyMap.Undo
        enabled: usable && !sheets.open
        onActivated: page.seat.undo()
    }

    Connections {
        target: page.seat
        function onSaid(words, good) {
            // On the court page the last entry is read in its own line.
            if (!page.onCourt || !good)
                toast.show(words, good ? StateMark.Good : StateMark.Caution);
            else if (toast.kind === StateMark.Good)
                toast.visible = false;
        }
        function onStruck(words) {
            toast.show(words, StateMark.Good);
        }
        function onSheetWanted(name) {
            sheets.sheet(name).open();
        }
        function onClockStarted(seconds, words) {
            topLine.clock.start(seconds, words);
        }
        function onClockStopped() {
            topLine.clock.stop();
        }
    }

    ColumnLayout {
        anchors.fill: parent
        anchors.margins: Theme.margin
        spacing: Theme.gap

        TopLine {
            id: topLine
            seat: page.seat
            told: toast.visible
            Layout.fillWidth: true
            Layout.preferredHeight: Theme.mm(7)
        }
        Hairline {
            Layout.fillWidth: true
        }
        Item {
            Layout.fillWidth: true
            Layout.fillHeight: true

            CourtPage {
                anchors.fill: parent
                visible: page.onCourt
                seat: page.seat
            }
            LineUpPage {
                anchors.fill: parent
                visible: page.seat.page === TableSeat.LineUpPage
                seat: page.seat
            }
            TossPage {
                anchors.fill: parent
                visible: page.seat.page === TableSeat.TossPage
                seat: page.seat
            }
            StartPage {
                anchors.fill: parent
                visible: page.seat.page === TableSeat.StartPage
                seat: page.seat
            }
            RosterPage {
                anchors.fill: parent
                visible: page.seat.page === TableSeat.RosterPage
                seat: page.seat
            }
            ElsewherePage {
                anchors.fill: parent
                visible: page.seat.page === TableSeat.ElsewherePage
                seat: page.seat
            }
            ResultPage {
                anchors.fill: parent
                visible: page.seat.page === TableSeat.ResultPage
                seat: page.seat
            }
        }
        HelpLine {
            visible: !page.onCourt && page.seat.board.help !== ""
            seat: page.seat
            Layout.fillWidth: true
        }
        ActionBar {
            visible: page.onCourt
            seat: page.seat
            shelf: sheets
            Layout.fillWidth: true
        }
    }
    SheetShelf {
        id: sheets
        seat: page.seat
        clock: topLine.clock
        keysLive: page.onCourt
    }
    // Between court and set on one side and the state of saving on the other, which are never covered.
    Toast {
        id: toast
        objectName: "toast"
        x: topLine.x + topLine.wordsAt
        y: Theme.mm(1)
        mostWidth: topLine.x + topLine.statesAt - Theme.gap - x
    }
}
