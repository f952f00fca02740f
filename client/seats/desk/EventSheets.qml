// The sheets by which the desk acts in the tournament's record, and the list of keys, over whatever
// page is shown.
import QtQuick
import Courthand.Desk

Item {
    id: shelf

    required property DeskSeat seat

    readonly property alias match: matchSheet
    readonly property alias team: teamSheet
    readonly property alias enter: enterSheet
    readonly property alias division: divisionSheet
    readonly property alias seeds: seedsSheet
    readonly property alias duty: dutySheet
    readonly property alias official: officialSheet
    readonly property alias listOfficial: listOfficialSheet
    readonly property alias crew: crewSheet
    readonly property alias erase: eraseSheet
    readonly property alias exporting: exportSheet
    readonly property alias keys: keysSheet

    // A sheet about a division: while none is open, the one that opens it comes instead.
    function openDraw() {
        (shelf.seat.tournament.opened ? drawSheet : divisionSheet).open();
    }
    function openBracket() {
        (shelf.seat.tournament.opened ? bracketSheet : divisionSheet).open();
    }

    MatchSheet {
        id: matchSheet
        desk: shelf.seat.tournament
        onDutyWanted: match => dutySheet.ask(match)
    }
    TeamSheet {
        id: teamSheet
        desk: shelf.seat.tournament
        onEraseWanted: who => eraseSheet.ask(who)
    }
    EnterSheet {
        id: enterSheet
        desk: shelf.seat.tournament
    }
    DivisionSheet {
        id: divisionSheet
        desk: shelf.seat.tournament
        usualProfile: shelf.seat.usualProfile
        venueName: shelf.seat.venueName
    }
    SeedsSheet {
        id: seedsSheet
        desk: shelf.seat.tournament
    }
    DrawSheet {
        id: drawSheet
        desk: shelf.seat.tournament
    }
    BracketSheet {
        id: bracketSheet
        desk: shelf.seat.tournament
    }
    DutySheet {
        id: dutySheet
        desk: shelf.seat.tournament
    }
    OfficialSheet {
        id: officialSheet
        desk: shelf.seat.tournament
        onEraseWanted: who => eraseSheet.ask(who)
    }
    ListOfficialSheet {
        id: listOfficialSheet
        desk: shelf.seat.tournament
    }
    CrewSheet {
        id: crewSheet
        desk: shelf.seat.tournament
    }
    EraseNameSheet {
        id: eraseSheet
        people: shelf.seat.tournament.people
    }
    ExportSheet {
        id: exportSheet
        page: shelf.seat.exporting
    }
    ActSheet {
        preview: shelf.seat.tournament.preview
    }
    DeskKeys {
        id: keysSheet
    }
}
