#include "courthand/event/duty.h"

#include <fmt/format.h>

#include <algorithm>

#include "courthand/event/court_time.h"

namespace courthand::event {

namespace {

[[nodiscard]] Side workers_side(const TournamentState& state, MatchRef ref) {
    const auto source = workers_of(state, ref);
    return source ? state.divisions[ref.division].settled[*source] : Side{};
}

/// Looks at one match among all that have a time.
class Search {
  public:
    Search(const TournamentState& state, const std::vector<CourtTime>& times, MatchRef ref)
        : state_{state}, times_{times}, ref_{ref} {}

    [[nodiscard]] std::vector<Clash> run() {
        find_others();
        const Side workers = workers_side(state_, ref_);
        if (workers.is_team()) look_at_team(workers.team);
        const auto persons = persons_of(state_, state_.match(ref_).duty);
        for (std::size_t i = 0; i < persons.size(); ++i) {
            const auto earlier = persons.begin() + static_cast<std::ptrdiff_t>(i);
            if (std::find(persons.begin(), earlier, persons[i]) == earlier)
                look_at_person(persons[i]);
            else
                add({Clash::Kind::named_twice, persons[i], no_team, {}, {}});
        }
        return std::move(found_);
    }

  private:
    void find_others() {
        const auto own = std::find_if(times_.begin(), times_.end(),
                                      [&](const CourtTime& time) { return time.match == ref_; });
        if (own == times_.end()) return;
        for (const CourtTime& time : times_)
            if (time.match != ref_ && meet(time, *own) && !state_.match(time.match).result_counts)
                others_.push_back(time.match);
    }
    [[nodiscard]] bool plays(MatchRef match, TeamIndex team) const {
        return state_.side(match, 0).team == team || state_.side(match, 1).team == team;
    }

    void look_at_team(TeamIndex team) {
        if (state_.teams[team].withdrawn) add({Clash::Kind::left, 0, team, {}, {}});
        if (plays(ref_, team)) add({Clash::Kind::plays_it, 0, team, {}, {}});
        for (const MatchRef other : others_) {
            if (plays(other, team)) add({Clash::Kind::plays_then, 0, team, {}, other});
            if (workers_side(state_, other).team == team)
                add({Clash::Kind::works_then, 0, team, {}, other});
        }
    }

    void look_at_person(std::uint16_t number) {
        const auto known = state_.persons.find(number);
        if (known == state_.persons.end()) return;
        const Person& person = known->second;
        for (std::size_t which = 0; which < 2; ++which) {
            const Side side = state_.side(ref_, which);
            if (!side.is_team()) continue;
            if (const auto why = interest_in(state_, person, side.team))
                add({Clash::Kind::interest, number, side.team, why->kind, {}});
        }
        const bool on_court = person.role == Role::player || person.role == Role::coach;
        for (const MatchRef other : others_) {
            if (on_court && person.team != no_team && plays(other, person.team))
                add({Clash::Kind::plays_then, number, person.team, {}, other});
            const auto there = persons_of(state_, state_.match(other).duty);
            if (std::find(there.begin(), there.end(), number) != there.end())
                add({Clash::Kind::works_then, number, no_team, {}, other});
        }
    }

    void add(Clash clash) { found_.push_back(clash); }

    const TournamentState& state_;
    const std::vector<CourtTime>& times_;
    MatchRef ref_;
    std::vector<MatchRef> others_;  ///< without a result, at this time
    std::vector<Clash> found_;
};

[[nodiscard]] std::string interest_words(Interest::Kind kind, const std::string& team) {
    switch (kind) {
        case Interest::Kind::declared:
            return "has a conflict of interest with " + team;
        case Interest::Kind::own_team:
            return "belongs to " + team;
        case Interest::Kind::own_club:
            return "belongs to the club of " + team;
    }
    return {};
}

}  // namespace

std::optional<SourceIndex> workers_of(const TournamentState& state, MatchRef ref) {
    const Duty& duty = state.match(ref).duty;
    return duty.fact != 0 ? duty.source : state.node(ref).workers;
}

std::vector<std::uint16_t> persons_of(const TournamentState& state, const Duty& duty) {
    std::vector<std::uint16_t> persons;
    for (const std::uint16_t referee : {duty.first_referee, duty.second_referee})
        if (referee != 0) persons.push_back(referee);
    const auto crew = state.crews.find(duty.crew);
    if (crew != state.crews.end())
        persons.insert(persons.end(), crew->second.begin(), crew->second.end());
    return persons;
}

std::vector<Clash> clashes(const TournamentState& state, MatchRef match) {
    return Search{state, court_times(state), match}.run();
}

std::vector<MatchClash> clashes(const TournamentState& state) {
    const std::vector<CourtTime> times = court_times(state);
    std::vector<MatchClash> all;
    for (DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m) {
            const MatchRef ref{d, static_cast<MatchIndex>(m)};
            if (state.match(ref).result_counts) continue;
            for (const Clash& clash : Search{state, times, ref}.run()) all.push_back({ref, clash});
        }
    return all;
}

std::string objection_words(const TournamentState& state, const Clash& clash) {
    const std::string team = clash.team == no_team ? std::string{} : state.teams[clash.team].name;
    const std::string other = clash.other ? state.node(*clash.other).name : std::string{};
    switch (clash.kind) {
        case Clash::Kind::plays_it:
            return "plays this match";
        case Clash::Kind::interest:
            return interest_words(*clash.reason, team);
        case Clash::Kind::plays_then:
            return clash.person == 0
                       ? fmt::format("plays {} at this time", other)
                       : fmt::format("is of {}, which plays {} at this time", team, other);
        case Clash::Kind::works_then:
            return fmt::format("works {} at this time", other);
        case Clash::Kind::named_twice:
            return "is named twice";
        case Clash::Kind::left:
            return "has left";
    }
    return {};
}

std::string in_words(const TournamentState& state, const Clash& clash) {
    const std::string who =
        clash.person == 0 ? state.teams[clash.team].name : fmt::format("person {}", clash.person);
    return who + " " + objection_words(state, clash);
}

}  // namespace courthand::event
