// The head official's window: the courts, the alerts beside them, and one alert opened over the
// courts. On a phone the three stand behind one another.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Head

RoomWindow {
    id: window

    required property HeadSeat seat

    enum View { Courts, Alerts, Liberos, Standings }
    property int view: HeadWindow.Courts

    title: qsTr("%1 · head official").arg(seat.venueName)
    // It is carried about on phones and tablets.
    leastTouch: 48

    function showCourt(court: int) {
        const row = window.seat.rowOfCourt(court);
        if (row < 0)
            return;
        window.view = HeadWindow.Courts;
        window.seat.page.close();
        grid.focusCourt(row);
        window.seat.openCourt(court);
    }

    function goBack() {
        if (window.seat.page.open) {
            window.seat.page.close();
            if (column.visible)
                column.focusList();
            else
                window.enterView();
        } else {
            window.view = HeadWindow.Courts;
            grid.forceActiveFocus();
        }
    }
    function enterView() {
        if (window.view === HeadWindow.Liberos)
            liberos.enter();
        else if (window.view === HeadWindow.Standings)
            standings.enter();
        else if (window.narrow && window.view === HeadWindow.Alerts)
            column.focusList();
        else
            grid.forceActiveFocus();
    }
    // Keys go on where the eyes are, and not from the first button of the window.
    function rest() {
        if (!window.focusIsLost() || window.seat.page.busy)
            return;
        if (window.seat.page.open)
            alert.enter();
        else
            window.enterView();
    }
    onActiveFocusItemChanged: resting.restart()
    onViewChanged: resting.restart()

    // When what is under way has been done.
    Timer {
        id: resting
        interval: 0
        onTriggered: window.rest()
    }
    ColumnLayout {
        Keys.onPressed: event => window.pressFocused(event)
        anchors.fill: parent
        anchors.margins: Theme.margin
        spacing: Theme.gap

        HeadHeader {
            seat: window.seat
            narrow: window.narrow
            view: window.view
            dark: window.dark
            Layout.fillWidth: true
            onViewChosen: view => {
                window.seat.page.close();
                window.view = view;
            }
            onDarkChosen: window.dark = !window.dark
            onHelpWanted: help.open()
        }

        RowLayout {
            spacing: Theme.gapWide
            Layout.fillWidth: true
            Layout.fillHeight: true

            Item {
                visible: !window.narrow || window.seat.page.open
                         || window.view !== HeadWindow.Alerts
                Layout.fillWidth: true
                Layout.fillHeight: true

                CourtGrid {
                    id: grid
                    anchors.fill: parent
                    visible: window.view !== HeadWindow.Liberos && window.view !== HeadWindow.Standings
                             && !window.seat.page.open
                    focus: true
                    seat: window.seat
                    narrow: window.narrow
                    stateCapMm: window.stateCapMm
                }
                LiberoView {
                    id: liberos
                    anchors.fill: parent
                    visible: window.view === HeadWindow.Liberos && !window.seat.page.open
                    table: window.seat.liberos
                    narrow: window.narrow
                }
                StandingsView {
                    id: standings
                    anchors.fill: parent
                    visible: window.view === HeadWindow.Standings && !window.seat.page.open
                    page: window.seat.standings
                    narrow: window.narrow
                }
                AlertView {
                    id: alert
                    anchors.fill: parent
                    visible: window.seat.page.open
                    page: window.seat.page
                    narrow: window.narrow
                    onBack: window.goBack()
                }
            }
            Hairline {
                visible: !window.narrow
                upright: true
                Layout.fillHeight: true
            }
            AlertColumn {
                id: column
                visible: !window.narrow
                         || (window.view === HeadWindow.Alerts && !window.seat.page.open)
                seat: window.seat
                Layout.fillWidth: window.narrow
                Layout.fillHeight: true
                Layout.preferredWidth: window.narrow ? -1
                                       : window.width * (grid.wantedColumns > 3 ? 0.24 : 0.3)
            }
        }
    }

    Toast {
        id: toast
        anchors.horizontalCenter: parent.horizontalCenter
        anchors.bottom: parent.bottom
        // On a phone it stands above what can be done with the alert.
        anchors.bottomMargin: window.narrow && window.seat.page.open
                              ? Theme.touch + 3 * Theme.gapWide : Theme.gapWide
        width: Math.min(implicitWidth, parent.width - 2 * Theme.margin)
    }
    Connections {
        target: window.seat.page
        function onChanged() {
            resting.restart();
        }
        function onTold(words: string) {
            toast.show(words, StateMark.Good);
        }
        function onRefused(words: string) {
            toast.show(words, StateMark.Fault);
        }
    }

    KeyHelp {
        id: help
    }

    Instantiator {
        model: 12
        Shortcut {
            id: courtKey
            required property int index
            sequence: "F" + (courtKey.index + 1)
            onActivated: window.showCourt(courtKey.index + 1)
        }
    }
    Shortcut {
        sequence: "G"
        enabled: window.seat.page.asks
        onActivated: window.seat.page.answerTakeOver(true)
    }
    Shortcut {
        sequence: "N"
        enabled: window.seat.page.asks
        onActivated: window.seat.page.answerTakeOver(false)
    }
    Shortcut {
        sequence: "P"
        onActivated: {
            window.seat.page.close();
            window.view = HeadWindow.Standings;
        }
    }
    Shortcut {
        sequence: "?"
        onActivated: help.open()
    }
    Shortcut {
        sequence: "Esc"
        enabled: !help.opened
        onActivated: window.goBack()
    }
}
