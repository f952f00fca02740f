// What the facts of a tournament amount to. Plain data that anyone may read; made and changed by
// `fold` and `fold_in` alone (fold.h). Teams, divisions and matches are indices here.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/event/fact.h"
#include "courthand/event/finding.h"
#include "courthand/event/limits.h"
#include "courthand/rules/profile.h"
#include "courthand/standings/chain.h"
#include "courthand/standings/pool.h"
#include "courthand/tournament/graph.h"

namespace courthand::event {

using DivisionIndex = std::uint16_t;
/// Into `TournamentState::teams`; the number of the team in match graphs is one more.
using TeamIndex = std::uint16_t;
inline constexpr TeamIndex no_team = 0xFFFF;
using tournament::MatchIndex;
using tournament::PoolIndex;
using tournament::SourceIndex;

/// A match of the tournament.
struct MatchRef {
    DivisionIndex division = 0;
    MatchIndex match = 0;
    friend constexpr auto operator<=>(MatchRef, MatchRef) = default;
};

struct Team {
    std::string name;
    std::string club;
    std::string colour;
    std::string last_pool;  ///< of the last event; empty: none
    DivisionIndex division = 0;
    std::optional<PoolIndex> pool;
    bool withdrawn = false;
    FactNumber entered = 0;
    FactNumber roster_frozen = 0;  ///< 0: not yet
    std::vector<std::uint8_t> roster;
    friend bool operator==(const Team&, const Team&) = default;
};

struct Person {
    Role role = Role::official;
    TeamIndex team = no_team;
    Jersey jersey{};
    bool captain = false;
    bool libero = false;
    FactNumber listed = 0;  ///< beside which stands the name, if any
    std::vector<TeamIndex> conflicts;
    friend bool operator==(const Person&, const Person&) = default;
};

struct Hours {
    LocalTime opens;
    LocalTime closes;
    friend bool operator==(const Hours&, const Hours&) = default;
};

struct Court {
    std::string name;
    std::vector<std::string> features;
    std::vector<Hours> hours;  ///< one for each day, in the order they were given
    friend bool operator==(const Court&, const Court&) = default;
};

/// Whom a side of a match, or another source, stands for.
struct Side {
    enum class State : std::uint8_t { open, team, bye } state = State::open;
    TeamIndex team = no_team;
    [[nodiscard]] constexpr bool is_team() const noexcept { return state == State::team; }
    friend constexpr bool operator==(Side, Side) = default;
};

/// A confirmed result. It counts as long as the sides of its match are the teams that played.
struct Result {
    FactNumber fact = 0;
    std::array<TeamIndex, 2> teams{no_team, no_team};
    std::vector<SetScore> sets;
    std::optional<ResultFrom> from;  ///< nothing: it was awarded
    std::optional<Award> award;
    standings::Ending ending = standings::Ending::played;
    RecordId record;
    HeadHash head;
    friend bool operator==(const Result&, const Result&) = default;
};

struct Placement {
    FactNumber fact = 0;
    std::uint16_t court = 1;
    LocalTime at;
    Timing timing = Timing::fixed;
    bool may_start_early = false;
    friend bool operator==(const Placement&, const Placement&) = default;
};

struct Duty {
    FactNumber fact = 0;  ///< 0: the workers are those of the pool's order of play, if any
    Source workers;
    std::optional<SourceIndex> source;  ///< of the workers, in the graph
    std::string crew;
    std::uint16_t first_referee = 0;
    std::uint16_t second_referee = 0;
    friend bool operator==(const Duty&, const Duty&) = default;
};

struct CarriedPoints {
    FactNumber fact = 0;
    TeamIndex team = no_team;  ///< whose penalty it is
    std::uint8_t points = 0;
    friend bool operator==(const CarriedPoints&, const CarriedPoints&) = default;
};

struct RunningClock {
    TeamIndex team = no_team;
    LateParty party = LateParty::team;
    std::int32_t minutes = 0;  ///< of the runs that ended
    LocalTime since;           ///< of the run that goes on; none: it stands
    bool stopped = false;
    friend bool operator==(const RunningClock&, const RunningClock&) = default;
};

/// What the record knows of a match beside its place in the graph.
struct MatchState {
    MatchFormat format{};
    const Profile* profile = nullptr;  ///< its own; null: that of the division
    tournament::Winner winner = tournament::Winner::unknown;  ///< who goes on, also by a bye
    std::optional<Result> result;
    bool result_counts = false;  ///< false with a result: its sides are other teams now
    RecordId record;             ///< kept by the table; none yet
    std::optional<Placement> placement;
    Duty duty;
    std::vector<CarriedPoints> carried;
    std::vector<RunningClock> clocks;
    friend bool operator==(const MatchState&, const MatchState&) = default;
};

struct PoolDecision {
    FactNumber fact = 0;
    standings::Decider by = standings::Decider::lot;
    std::vector<TeamIndex> order;
    friend bool operator==(const PoolDecision&, const PoolDecision&) = default;
};

struct PoolState {
    std::string name;
    std::vector<TeamIndex> teams;  ///< by place in the pool's order of play
    std::vector<std::uint16_t> cuts;
    std::vector<PoolDecision> decisions;
    std::size_t open_matches = 0;  ///< that the order of the pool waits for
    /// The team at each place as far as it is settled; empty while matches are open.
    std::vector<TeamIndex> order;
    friend bool operator==(const PoolState&, const PoolState&) = default;
};

/// Who needs whom in the graph of a division, so that a result reaches only what hangs on it.
struct Uses {
    static constexpr SourceIndex none = 0xFFFF'FFFF;
    std::vector<std::vector<MatchIndex>> matches;      ///< by source: with such a side
    std::vector<std::vector<SourceIndex>> compared;    ///< by source: better or worse of it
    std::vector<std::array<SourceIndex, 2>> ends;      ///< by match: its winner, its loser
    std::vector<std::vector<MatchIndex>> conditional;  ///< by match: played only if …
    std::vector<std::vector<SourceIndex>> places;      ///< by pool
    friend bool operator==(const Uses&, const Uses&) = default;
};

/// A fact that made part of the graph after the draw.
struct GraphStep {
    FactNumber fact = 0;
    std::vector<TeamIndex> entrants;  ///< of a bracket by seeds: who they were when it was made
    friend bool operator==(const GraphStep&, const GraphStep&) = default;
};

struct Division {
    DivisionOpened rules;
    const Profile* profile = nullptr;
    const standings::Chain* chain = nullptr;
    MatchFormat format{};
    std::vector<TeamIndex> teams;  ///< in the order of entry
    std::vector<TeamIndex> seeds;  ///< by seed; `no_team`: not given
    std::optional<DrawMade> draw;
    std::vector<GraphStep> steps;

    tournament::Graph graph;
    std::vector<MatchState> matches;  ///< by match of the graph
    std::vector<PoolState> pools;     ///< by pool of the graph
    std::vector<Side> settled;        ///< by source of the graph
    Uses uses;
    friend bool operator==(const Division&, const Division&) = default;
};

struct Plan {
    std::uint32_t version = 0;  ///< 0: none is published
    FactNumber fact = 0;
    std::map<std::string, Placement, std::less<>> published;  ///< by match
    friend bool operator==(const Plan&, const Plan&) = default;
};

struct TournamentState {
    std::optional<TournamentOpened> opened;
    Confirmer confirmer = Confirmer::desk;
    std::vector<Division> divisions;
    std::vector<Team> teams;
    std::map<std::uint16_t, Court> courts;
    std::map<std::uint16_t, Person> persons;
    std::map<std::string, std::vector<std::uint16_t>, std::less<>> crews;
    std::map<std::string, DivisionIndex, std::less<>> division_names;
    std::map<std::string, TeamIndex, std::less<>> team_names;
    std::map<std::string, MatchRef, std::less<>> match_names;
    Plan plan;

    std::vector<Fact> facts;        ///< all that were said, by number less one
    std::vector<bool> counts;       ///< the same; false: taken back
    std::vector<Finding> findings;  ///< of facts that count, in their order

    friend bool operator==(const TournamentState&, const TournamentState&) = default;

    [[nodiscard]] FactNumber last() const noexcept { return static_cast<FactNumber>(facts.size()); }
    /// Divisions there are; `limits.h` keeps them far below what an index holds.
    [[nodiscard]] DivisionIndex division_count() const noexcept {
        return static_cast<DivisionIndex>(divisions.size());
    }
    [[nodiscard]] const MatchState& match(MatchRef ref) const {
        return divisions[ref.division].matches[ref.match];
    }
    [[nodiscard]] const tournament::Match& node(MatchRef ref) const {
        return divisions[ref.division].graph.matches[ref.match];
    }
    [[nodiscard]] Side side(MatchRef ref, std::size_t which) const {
        return divisions[ref.division].settled[node(ref).sides[which]];
    }
    [[nodiscard]] std::optional<MatchRef> find_match(std::string_view name) const;
    [[nodiscard]] std::optional<TeamIndex> find_team(std::string_view name) const;
    [[nodiscard]] std::optional<DivisionIndex> find_division(std::string_view code) const;
    [[nodiscard]] std::optional<PoolIndex> find_pool(DivisionIndex division,
                                                     std::string_view name) const;
};

}  // namespace courthand::event
