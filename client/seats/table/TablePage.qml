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
    readonly property bool sheetOpen: timeOutSheet.visible || substitutionSheet.visible
        || captainSheet.visible || redesignationSheet.visible || boxSheet.visible
        || rulingSheet.visible || sanctionSheet.visible || injurySheet.visible
        || serverSheet.visible || wordsSheet.visible || scoreSheet.visible || keysSheet.visible
        || moreSheet.visible || deskListSheet.visible
    readonly property bool keysLive: !sheetOpen && onCourt

    focus: true
    Accessible.role: Accessible.Pane
    Accessible.name: qsTr("Table seat, court %1").arg(seat.court)

    function openWanted(wanted: int) {
        if (wanted === TableSeat.CaptainSheet)
            captainSheet.open();
        else if (wanted === TableSeat.SubstitutionSheet)
            substitutionSheet.open();
        else if (wanted === TableSeat.BoxSheet)
            boxSheet.open();
    }
    function openSubstitution(onLeft: bool) {
        seat.beginSubstitution(onLeft, -1);
        substitutionSheet.open();
    }
    function openRedesignation() {
        seat.beginRedesignation(true);
        redesignationSheet.open();
    }
    function openMore(item: int) {
        switch (item) {
        case MoreSheet.Sanctions: sanctionSheet.open(); break;
        case MoreSheet.Injury: injurySheet.open(); break;
        case MoreSheet.Server: serverSheet.open(); break;
        case MoreSheet.Replay: seat.acts.replayRally(); break;
        case MoreSheet.Ruling: if (seat.notices.length > 0) rulingSheet.show(0); break;
        case MoreSheet.Remark: wordsSheet.protest = false; wordsSheet.open(); break;
        case MoreSheet.Protest: wordsSheet.protest = true; wordsSheet.open(); break;
        case MoreSheet.Score: scoreSheet.open(); break;
        case MoreSheet.Courts: seat.acts.changeCourts(); break;
        case MoreSheet.PositionLeft: seat.acts.positionalFault(true); break;
        case MoreSheet.PositionRight: seat.acts.positionalFault(false); break;
        case MoreSheet.Interrupted: seat.acts.interrupt(); break;
        case MoreSheet.OtherCourt: seat.acts.playAnew(false); break;
        case MoreSheet.WholeMatch: seat.acts.playAnew(true); break;
        case MoreSheet.LineUpLeft: seat.openLineUp(true); break;
        case MoreSheet.LineUpRight: seat.openLineUp(false); break;
        case MoreSheet.Flip: seat.flipView(); break;
        case MoreSheet.Lamp: Theme.dark = !Theme.dark; break;
        case MoreSheet.Keys: keysSheet.open(); break;
        case MoreSheet.GoOnHere: seat.askToGoOn(); break;
        case MoreSheet.IncompleteLeft: seat.acts.incomplete(true, false); break;
        case MoreSheet.IncompleteRight: seat.acts.incomplete(false, false); break;
        }
    }

    // A key that is held says nothing new.
    Keys.onPressed: event => {
        if (page.sheetOpen || event.modifiers & (Qt.ControlModifier | Qt.AltModifier))
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
            page.seat.letGo();
        else
            return;
        event.accepted = true;
    }

    component Key: Shortcut {
        required property int act
        property bool anywhere: false
        // The list of keys is read so that a change of the map is seen.
        sequence: page.seat.keys.list.length > 0 ? page.seat.keys.keys(act) : ""
        enabled: sequence !== "" && (anywhere ? !page.sheetOpen : page.keysLive)
        autoRepeat: false
        context: Qt.WindowShortcut
    }
    Key { act: KeyMap.RallyLeft; onActivated: page.seat.rallyWon(true) }
    Key { act: KeyMap.RallyRight; onActivated: page.seat.rallyWon(false) }
    Key { act: KeyMap.ServeHit; onActivated: page.seat.serveHit() }
    Key {
        act: KeyMap.Expected
        enabled: !page.sheetOpen && !page.seat.writesNumbers
            && page.seat.page !== TableSeat.ElsewherePage
        onActivated: page.openWanted(page.seat.keyExpected())
    }
    Key { act: KeyMap.Libero; onActivated: page.seat.keyLibero() }
    Key { act: KeyMap.Substitution; onActivated: page.openSubstitution(true) }
    Key { act: KeyMap.TimeOut; onActivated: timeOutSheet.open() }
    Key { act: KeyMap.Captain; onActivated: captainSheet.open() }
    Key { act: KeyMap.Redesignation; onActivated: page.openRedesignation() }
    Key { act: KeyMap.ItHappened; onActivated: page.seat.itHappened() }
    Key { act: KeyMap.More; onActivated: moreSheet.open() }
    Key {
        act: KeyMap.GoOnHere
        enabled: !page.sheetOpen && page.seat.page === TableSeat.ElsewherePage
        onActivated: page.seat.askToGoOn()
    }
    Key { act: KeyMap.Undo; anywhere: true; onActivated: page.seat.undo() }
    Key { act: KeyMap.Help; anywhere: true; onActivated: keysSheet.open() }

    Connections {
        target: page.seat
        function onSaid(words, good) {
            // On the court page the last entry is read in its own line.
            if (!page.onCourt || !good)
                toast.show(words, good ? StateMark.Good : StateMark.Caution);
        }
        function onStruck(words) {
            toast.show(words, StateMark.Good);
        }
        function onSubstitutionAsked() {
            substitutionSheet.open();
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
                onExpected: page.openWanted(page.seat.doExpected())
                onRulingAsked: notice => rulingSheet.show(notice)
                onListAsked: deskListSheet.open()
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
                onWordsAsked: protest => {
                    wordsSheet.protest = protest;
                    wordsSheet.open();
                }
            }
        }
        HelpLine {
            visible: !page.onCourt && page.seat.help !== ""
            seat: page.seat
            Layout.fillWidth: true
            onListAsked: deskListSheet.open()
        }
        ActionBar {
            visible: page.onCourt
            seat: page.seat
            Layout.fillWidth: true
            onTimeOutAsked: timeOutSheet.open()
            onSubstitutionAsked: page.openSubstitution(true)
            onCaptainAsked: captainSheet.open()
            onRedesignationAsked: page.openRedesignation()
            onMoreAsked: moreSheet.open()
        }
    }
    Toast {
        id: toast
        anchors.horizontalCenter: parent.horizontalCenter
        y: Theme.margin
        width: Math.min(implicitWidth, Theme.mm(110))
    }

    TimeOutSheet { id: timeOutSheet; seat: page.seat; clock: topLine.clock }
    SubstitutionSheet { id: substitutionSheet; seat: page.seat }
    CaptainSheet { id: captainSheet; seat: page.seat }
    RedesignationSheet { id: redesignationSheet; seat: page.seat }
    BoxSheet { id: boxSheet; seat: page.seat }
    DeskListSheet { id: deskListSheet; seat: page.seat }
    RulingSheet { id: rulingSheet; seat: page.seat }
    SanctionSheet { id: sanctionSheet; seat: page.seat }
    InjurySheet {
        id: injurySheet
        seat: page.seat
        onSubstitutionAsked: substitutionSheet.open()
    }
    ServerSheet { id: serverSheet; seat: page.seat }
    WordsSheet { id: wordsSheet; seat: page.seat }
    ScoreSheet { id: scoreSheet; seat: page.seat }
    KeysSheet { id: keysSheet; seat: page.seat }
    MoreSheet { id: moreSheet; seat: page.seat; onAsked: item => page.openMore(item) }
}
