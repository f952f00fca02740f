#include "courthand/event/duty.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace courthand::event {

namespace {

/// When a match holds its court: from `from` until before `until`.
struct Slot {
    std::uint16_t court = 0;
    LocalTime from;
    LocalTime until;
    MatchRef match;
};

[[nodiscard]] bool meet(const Slot& a, const Slot& b) {
    return a.from < b.until && b.from < a.until;
}

/// Of every match that has a time, in their order.
[[nodiscard]] std::vector<Slot> slots_of(const TournamentState& state) {
    std::vector<Slot> slots;
    for (DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m)
            if (const auto& placed = state.divisions[d].matches[m].placement;
                placed && placed->at.given())
                slots.push_back({placed->court, placed->at, {}, {d, static_cast<MatchIndex>(m)}});
    std::sort(slots.begin(), slots.end(), [](const Slot& a, const Slot& b) {
        return std::tie(a.court, a.from, a.match) < std::tie(b.court, b.from, b.match);
    });
    for (std::size_t i = 0; i < slots.size(); ++i) {
        slots[i].until = {slots[i].from.minutes + 1};
        const auto next = std::find_if(
            slots.begin() + static_cast<std::ptrdiff_t>(i), slots.end(), [&](const Slot& later) {
                return later.court != slots[i].court || later.from > slots[i].from;
            });
        if (next != slots.end() && next->court == slots[i].court &&
            next->from.date() == slots[i].from.date())
            slots[i].until = next->from;
    }
    std::sort(slots.begin(), slots.end(),
              [](const Slot& a, const Slot& b) { return a.match < b.match; });
    return slots;
}

[[nodiscard]] Side workers_side(const TournamentState& state, MatchRef ref) {
    const auto source = workers_of(state, ref);
    return source ? state.divisions[ref.division].settled[*source] : Side{};
}

/// Looks at one match among all that have a time.
class Search {
  public:
    Search(const TournamentState& state, const std::vector<Slot>& slots, MatchRef ref)
        : state_{state}, slots_{slots}, ref_{ref} {}

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
        const auto own = std::find_if(slots_.begin(), slots_.end(),
                                      [&](const Slot& slot) { return slot.match == ref_; });
        if (own == slots_.end()) return;
        for (const Slot& slot : slots_)
            if (slot.match != ref_ && meet(slot, *own) && !state_.match(slot.match).result_counts)
                others_.push_back(slot.match);
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
    const std::vector<Slot>& slots_;
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
    return Search{state, slots_of(state), match}.run();
}

std::vector<MatchClash> clashes(const TournamentState& state) {
    const std::vector<Slot> slots = slots_of(state);
    std::vector<MatchClash> all;
    for (DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m) {
            const MatchRef ref{d, static_cast<MatchIndex>(m)};
            if (state.match(ref).result_counts) continue;
            for (const Clash& clash : Search{state, slots, ref}.run()) all.push_back({ref, clash});
        }
    return all;
}

std::string in_words(const TournamentState& state, const Clash& clash) {
    const std::string team = clash.team == no_team ? std::string{} : state.teams[clash.team].name;
    const std::string who = clash.person == 0 ? team : fmt::format("person {}", clash.person);
    const std::string other = clash.other ? state.node(*clash.other).name : std::string{};
    switch (clash.kind) {
        case Clash::Kind::plays_it:
            return who + " plays this match";
        case Clash::Kind::interest:
            return who + " " + interest_words(*clash.reason, team);
        case Clash::Kind::plays_then:
            return clash.person == 0
                       ? fmt::format("{} plays {} at this time", who, other)
                       : fmt::format("{} is of {}, which plays {} at this time", who, team, other);
        case Clash::Kind::works_then:
            return fmt::format("{} works {} at this time", who, other);
        case Clash::Kind::named_twice:
            return who + " is named twice";
        case Clash::Kind::left:
            return who + " has left";
    }
    return {};
}

}  // namespace courthand::event
