// Everything the desk of a tournament says. A fact is never refused unless it is unreadable; what
// cannot take effect is told as a finding (finding.h). Facts refer to teams, pools, matches and
// divisions by name. Free words (a reason, the text of a note) stand beside a fact, never in it.
#pragma once

#include <cstdint>
#include <string>
#include <variant>

#include "courthand/event/entries.h"
#include "courthand/event/plan.h"
#include "courthand/event/results.h"
#include "courthand/event/setup.h"
#include "courthand/event/structure.h"

namespace courthand::event {

/// Number of a fact in its record: 1, 2, 3 … with no gap. 0 names none.
using FactNumber = std::uint32_t;

/// Something written down that changes nothing; its words stand beside it.
struct NoteWritten {
    std::string match;  ///< empty: of the event
    std::string team;   ///< empty: of nobody
    friend bool operator==(const NoteWritten&, const NoteWritten&) = default;
};

/// An earlier fact no longer counts. Taking back a fact of this kind restores what it took back.
struct TakenBack {
    FactNumber fact = 1;
    friend bool operator==(const TakenBack&, const TakenBack&) = default;
};

/// A new kind stands at the end; it breaks the build wherever it is not handled.
using Fact = std::variant<TournamentOpened, DivisionOpened, CourtOpened, TeamEntered, TeamWithdrawn,
                          RosterFrozen, PersonListed, ConflictDeclared, CrewFormed, SeedsGiven,
                          DrawMade, TeamMoved, BracketMade, MatchAdded, SidesGiven, DutyGiven,
                          MatchPlaced, MatchMoved, PlanPublished, RecordOpened, ResultConfirmed,
                          ResultReopened, MatchAwarded, LateClock, DecisionMade, PenaltyCarried,
                          NoteWritten, TakenBack, TeamDescribed, MatchUnplaced, ConfirmerNamed>;

/// A fact with the words beside it.
struct Said {
    Fact fact;
    std::string words;
    friend bool operator==(const Said&, const Said&) = default;
};

}  // namespace courthand::event
