// The desk's pages of the tournament's record, one of them shown.
pragma ComponentBehavior: Bound
import QtQuick
import Courthand.Desk

Item {
    id: pages

    required property EventDesk desk
    required property EventSheets sheets
    property int page: 0
    property bool narrow: false
    // Behind the teams lies a page of their lists, which are no part of the record.
    property bool entriesShown: true

    signal listsWanted()

    // The keys go to the list of the page that was chosen.
    function enter(page: int) {
        const shown = [[DeskWindow.Teams, entriesPage], [DeskWindow.Pools, poolsPage],
                       [DeskWindow.Bracket, bracketsPage], [DeskWindow.Results, resultsPage],
                       [DeskWindow.Record, recordPage], [DeskWindow.Places, placesPage],
                       [DeskWindow.Officials, officialsPage]];
        for (const each of shown) {
            if (each[0] === page)
                each[1].enter();
        }
    }
    function decide(key: string) {
        poolsPage.decide(key);
    }

    EntriesPage {
        id: entriesPage
        anchors.fill: parent
        visible: pages.page === DeskWindow.Teams && pages.entriesShown
        desk: pages.desk
        onTeamWanted: team => pages.sheets.team.ask(team)
        onNewWanted: pages.sheets.enter.open()
        onDivisionWanted: pages.sheets.division.open()
        onSeedsWanted: pages.sheets.seeds.open()
        onListsWanted: pages.listsWanted()
    }
    PoolsPage {
        id: poolsPage
        anchors.fill: parent
        visible: pages.page === DeskWindow.Pools
        narrow: pages.narrow
        desk: pages.desk
        onDrawWanted: pages.sheets.openDraw()
    }
    BracketsPage {
        id: bracketsPage
        anchors.fill: parent
        visible: pages.page === DeskWindow.Bracket
        desk: pages.desk
        onBracketWanted: pages.sheets.openBracket()
        onMatchWanted: match => pages.sheets.match.ask(match)
    }
    ResultsPage {
        id: resultsPage
        anchors.fill: parent
        visible: pages.page === DeskWindow.Results
        narrow: pages.narrow
        desk: pages.desk
        onMatchWanted: match => pages.sheets.match.ask(match)
        onDutyWanted: match => pages.sheets.duty.ask(match)
        onPublishWanted: pages.desk.publishPlan()
        onExportWanted: pages.sheets.exporting.ask()
    }
    FactsPage {
        id: recordPage
        anchors.fill: parent
        visible: pages.page === DeskWindow.Record
        desk: pages.desk
    }
    PlacesPage {
        id: placesPage
        anchors.fill: parent
        visible: pages.page === DeskWindow.Places
        desk: pages.desk
    }
    OfficialsPage {
        id: officialsPage
        anchors.fill: parent
        visible: pages.page === DeskWindow.Officials
        desk: pages.desk
        onPersonWanted: person => pages.sheets.official.ask(person)
        onCrewWanted: crew => pages.sheets.crew.ask(crew)
        onNewWanted: pages.sheets.listOfficial.open()
        onEraseWanted: who => pages.sheets.erase.ask(who)
    }
}
