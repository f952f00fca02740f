// The tournament desk's window: what waits at the left, the day at the right.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Layouts
import Courthand.Design
import Courthand.Desk

RoomWindow {
    id: window

    required property DeskSeat seat

    enum Page { Matches, Courts, Teams, Rosters, Audit, Pools, Bracket, Results, Record, Places, Officials }
    property int page: DeskWindow.Matches
    // Team lists lie beside the tournament's record: they have a page behind the teams.
    property bool listsWanted: false
    readonly property bool entriesShown: seat.tournament.opened && !listsWanted
    onPageChanged: pages.enter(page)

    title: qsTr("%1 · tournament desk").arg(seat.venueName)

    // What is begun on a page: the act at its head.
    function begin() {
        if (window.page === DeskWindow.Pools)
            eventSheets.openDraw();
        else if (window.page === DeskWindow.Bracket)
            eventSheets.openBracket();
        else if (window.page === DeskWindow.Teams && window.entriesShown)
            eventSheets.enter.open();
        else if (window.page === DeskWindow.Teams && !window.seat.tournament.opened)
            eventSheets.division.open();
        else if (window.page === DeskWindow.Teams)
            window.page = DeskWindow.Rosters;
        else if (window.page === DeskWindow.Officials)
            eventSheets.listOfficial.open();
        else
            newMatch.open();
    }
    function act(name: string, subject: var) {
        if (name === "court")
            courtSheet.ask(subject);
        else if (name === "code")
            codeSheet.ask(subject);
        else if (name === "withdraw")
            revokeSheet.ask(subject.device, subject.name);
        else if (name === "fork") {
            window.seat.lookAtFork(subject);
            records.open();
        } else if (name === "result")
            eventSheets.match.ask(subject);
        else if (name === "duty")
            eventSheets.duty.ask(subject);
        else if (name === "decide") {
            window.seat.tournament.division = subject.split("|")[0];
            window.page = DeskWindow.Pools;
            pages.decide(subject);
        } else if (name === "entries" || name === "plan") {
            window.seat.tournament.division = subject;
            window.page = name === "plan" ? DeskWindow.Results : DeskWindow.Teams;
        } else if (name === "roster")
            window.page = DeskWindow.Rosters;
    }

    ColumnLayout {
        anchors.fill: parent
        anchors.margins: Theme.margin
        spacing: Theme.gap

        DeskHeader {
            seat: window.seat
            page: window.page
            narrow: window.narrow
            dark: window.dark
            Layout.fillWidth: true
            onPageChosen: page => window.page = page
            onDarkChosen: window.dark = !window.dark
            onKeysWanted: eventSheets.keys.open()
        }
        GridLayout {
            columns: window.narrow ? 1 : 3
            columnSpacing: Theme.gapWide
            rowSpacing: Theme.gap
            Layout.fillWidth: true
            Layout.fillHeight: true

            WorkColumn {
                work: window.seat.work
                Layout.fillWidth: window.narrow
                Layout.fillHeight: !window.narrow
                Layout.preferredWidth: window.narrow ? -1 : window.width * 0.26
                Layout.preferredHeight: window.narrow ? window.height * 0.3 : -1
                busy: window.seat.busy
                onActed: (name, subject) => window.act(name, subject)
                onAnswered: (subject, consent) =>
                    window.seat.answerTakeOver(subject.match, subject.device, consent)
            }
            Hairline {
                visible: !window.narrow
                upright: true
                Layout.fillHeight: true
            }
            Item {
                Layout.fillWidth: true
                Layout.fillHeight: true
                MatchTable {
                    anchors.fill: parent
                    visible: window.page === DeskWindow.Matches
                    matches: window.seat.matches
                    narrow: window.narrow
                    onNewWanted: newMatch.open()
                    onCourtWanted: matchId => courtSheet.ask(matchId)
                }
                CourtsPage {
                    anchors.fill: parent
                    visible: window.page === DeskWindow.Courts
                    seat: window.seat
                    onCodeWanted: court => codeSheet.ask(court)
                    onRevokeWanted: (deviceId, name) => revokeSheet.ask(deviceId, name)
                }
                TeamsPage {
                    anchors.fill: parent
                    visible: window.page === DeskWindow.Teams && !window.entriesShown
                    teams: window.seat.teams
                    opened: window.seat.tournament.opened
                    begun: window.seat.tournament.divisionPage.tournamentOpened
                    onBack: window.listsWanted = false
                    onOpenWanted: eventSheets.division.open()
                    onImportWanted: window.page = DeskWindow.Rosters
                }
                EventPages {
                    id: pages
                    anchors.fill: parent
                    page: window.page
                    narrow: window.narrow
                    entriesShown: window.entriesShown
                    desk: window.seat.tournament
                    sheets: eventSheets
                    onListsWanted: window.listsWanted = true
                }
                RosterPage {
                    anchors.fill: parent
                    visible: window.page === DeskWindow.Rosters
                    rosters: window.seat.rosters
                    frozen: window.seat.tournament.listsFrozen
                    onBack: window.page = DeskWindow.Teams
                }
                AuditPage {
                    anchors.fill: parent
                    visible: window.page === DeskWindow.Audit
                    audit: window.seat.audit
                }
            }
        }
    }

    Toast {
        id: toast
        anchors.horizontalCenter: parent.horizontalCenter
        anchors.bottom: parent.bottom
        anchors.bottomMargin: Theme.gapWide
        width: Math.min(implicitWidth, parent.width - 2 * Theme.margin)
    }
    Connections {
        target: window.seat
        function onTold(words: string) {
            toast.show(words, StateMark.Good);
            newMatch.close();
            courtSheet.close();
            revokeSheet.close();
            records.close();
        }
        function onRefused(words: string) {
            toast.show(words, StateMark.Fault);
        }
    }

    NewMatchSheet {
        id: newMatch
        seat: window.seat
    }
    CourtSheet {
        id: courtSheet
        seat: window.seat
    }
    CodeSheet {
        id: codeSheet
        seat: window.seat
    }
    TwoRecordsSheet {
        id: records
        page: window.seat.fork
    }
    RevokeSheet {
        id: revokeSheet
        seat: window.seat
    }
    EventSheets {
        id: eventSheets
        seat: window.seat
    }

    DeskShortcuts {
        onKeysWanted: eventSheets.keys.open()
        onBegun: window.begin()
        onPageChosen: page => window.page = page
        onImportWanted: window.page = DeskWindow.Rosters
        onExportWanted: eventSheets.exporting.ask()
        onPublishWanted: window.seat.tournament.publishPlan()
    }
}
