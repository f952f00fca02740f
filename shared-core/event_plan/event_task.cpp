#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "courthand/event/duty.h"
#include "courthand/event_plan/event_plan.h"

namespace courthand::event_plan {

namespace {

using event::DivisionIndex;
using event::LocalTime;
using event::MatchRef;
using event::SourceIndex;
using event::TeamIndex;
using plan::PartyIndex;
using tournament::Source;

class Builder {
  public:
    Builder(const event::TournamentState& state, const Demands& demands)
        : state_{state}, demands_{demands} {}

    [[nodiscard]] EventTask run() {
        out_.task.step = demands_.step;
        out_.task.fair_wait = demands_.fair_wait;
        out_.task.weights = demands_.weights;
        add_days();
        add_clock();
        add_courts();
        list_matches();
        for (const MatchRef ref : out_.matches) add_match(ref);
        add_shared_people();
        return std::move(out_);
    }

  private:
    [[nodiscard]] static bool has_hours(const event::Hours& hours) {
        return hours.opens.given() && hours.closes.given();
    }
    void add_days() {
        std::set<event::Date> days;
        for (const auto& [number, court] : state_.courts)
            for (const event::Hours& hours : court.hours)
                if (has_hours(hours)) days.insert(hours.opens.date());
        days_.assign(days.begin(), days.end());
        if (!days_.empty()) out_.origin.minutes = days_.front().days * LocalTime::minutes_of_day;
    }

    void add_clock() {
        auto& clock = out_.task.clock;
        clock.push_back({0, 0});
        for (const ClockChange& change : demands_.clock_changes) {
            const plan::ClockPiece& last = clock.back();
            const std::int32_t shown = change.at.minutes - out_.origin.minutes;
            const plan::Minute from = last.from + shown - last.shown;
            if (from <= last.from) continue;  // before all days
            clock.push_back({from, shown + change.shift});
            if (change.shift < 0)
                out_.task.no_start.push_back({from + change.shift, from - change.shift});
        }
    }

    [[nodiscard]] plan::Minute minute(LocalTime time) const { return minute_of(out_, time); }

    void add_courts() {
        for (const auto& [number, court] : state_.courts) {
            plan::TaskCourt added{std::to_string(number), {}, court.features, {}};
            for (const event::Hours& hours : court.hours) {
                if (!has_hours(hours)) continue;
                const auto day = std::lower_bound(days_.begin(), days_.end(), hours.opens.date());
                added.open.push_back({{minute(hours.opens), minute(hours.closes)},
                                      static_cast<plan::DayIndex>(day - days_.begin())});
            }
            std::sort(added.open.begin(), added.open.end(),
                      [](const auto& a, const auto& b) { return a.hours < b.hours; });
            if (const auto kept = demands_.courts_kept.find(number);
                kept != demands_.courts_kept.end())
                added.kept_for = kept->second;
            out_.task.courts.push_back(std::move(added));
            out_.courts.push_back(number);
        }
    }

    [[nodiscard]] std::optional<plan::Place> place_of(
        const std::optional<event::Placement>& placement) const {
        if (!placement || !placement->at.given()) return std::nullopt;
        const auto court = std::find(out_.courts.begin(), out_.courts.end(), placement->court);
        if (court == out_.courts.end()) return std::nullopt;
        return plan::Place{static_cast<plan::CourtIndex>(court - out_.courts.begin()),
                           minute(placement->at)};
    }

    /// Against a bye nothing is played; of what is over, only where it was played matters.
    [[nodiscard]] bool is_planned(MatchRef ref) const {
        const auto bye = event::Side::State::bye;
        if (state_.side(ref, 0).state == bye || state_.side(ref, 1).state == bye) return false;
        const event::MatchState& match = state_.match(ref);
        return !match.result_counts || place_of(match.placement);
    }

    void list_matches() {
        for (DivisionIndex d = 0; d < state_.division_count(); ++d) {
            const event::Division& division = state_.divisions[d];
            const event::DivisionOpened& rules = division.rules;
            plan::Group group{rules.division,      rules.rest_minutes, rules.match_minutes,
                              rules.most_in_a_row, rules.most_a_day,   {}};
            const std::int32_t finish = wish_of(d).latest_finish;
            for (const event::Date day : days_)
                if (finish != 0)
                    group.latest_finish.push_back(
                        minute({day.days * LocalTime::minutes_of_day + finish}));
            out_.task.groups.push_back(std::move(group));
            for (std::size_t m = 0; m < division.matches.size(); ++m)
                if (const MatchRef ref{d, static_cast<event::MatchIndex>(m)}; is_planned(ref)) {
                    indices_[ref] = static_cast<plan::MatchIndex>(out_.matches.size());
                    out_.matches.push_back(ref);
                }
        }
    }

    [[nodiscard]] const DivisionWish& wish_of(DivisionIndex division) const {
        static const DivisionWish none;
        const auto found = demands_.divisions.find(division);
        return found == demands_.divisions.end() ? none : found->second;
    }

    [[nodiscard]] PartyIndex new_party(plan::Party party) {
        out_.task.parties.push_back(std::move(party));
        return static_cast<PartyIndex>(out_.task.parties.size() - 1);
    }

    [[nodiscard]] PartyIndex team(TeamIndex index) {
        const auto known = teams_.find(index);
        if (known != teams_.end()) return known->second;
        return teams_[index] = new_party({plan::Party::Kind::team, state_.teams[index].name, {}});
    }

    /// The matches of the task out of which a source that is open comes.
    void add_from(DivisionIndex d, SourceIndex index, std::set<plan::MatchIndex>& from) const {
        const event::Division& division = state_.divisions[d];
        const Source& source = division.graph.sources[index];
        const auto add = [&](event::MatchIndex m) {
            const auto found = indices_.find(MatchRef{d, m});
            if (found != indices_.end()) {
                from.insert(found->second);
                return;
            }
            for (const SourceIndex side : division.graph.matches[m].sides) add_from(d, side, from);
        };
        switch (source.kind) {
            case Source::Kind::winner:
            case Source::Kind::loser:
                add(static_cast<event::MatchIndex>(source.of));
                break;
            case Source::Kind::place:
                for (const auto m : division.graph.pools[source.of].matches)
                    if (indices_.contains(MatchRef{d, m})) add(m);
                break;
            case Source::Kind::better:
            case Source::Kind::worse:
                add_from(d, source.of, from);
                add_from(d, source.second, from);
                break;
            case Source::Kind::team:
            case Source::Kind::bye:
                break;
        }
    }

    [[nodiscard]] PartyIndex party(DivisionIndex d, SourceIndex source) {
        const event::Division& division = state_.divisions[d];
        if (division.settled[source].is_team()) return team(division.settled[source].team);
        const auto known = expected_.find({d, source});
        if (known != expected_.end()) return known->second;
        std::set<plan::MatchIndex> from;
        add_from(d, source, from);
        return expected_[{d, source}] = new_party({plan::Party::Kind::expected,
                                                   tournament::in_words(division.graph, source),
                                                   {from.begin(), from.end()}});
    }

    [[nodiscard]] PartyIndex person(std::uint16_t number) {
        const auto known = persons_.find(number);
        if (known != persons_.end()) return known->second;
        return persons_[number] =
                   new_party({plan::Party::Kind::person, fmt::format("person {}", number), {}});
    }

    void add_match(MatchRef ref) {
        const event::Division& division = state_.divisions[ref.division];
        const tournament::Match& node = state_.node(ref);
        const event::MatchState& match = state_.match(ref);
        plan::TaskMatch added;
        added.name = node.name;
        added.group = ref.division;
        added.duration = division.rules.match_minutes;
        added.sides = {party(ref.division, node.sides[0]), party(ref.division, node.sides[1])};
        if (node.pool) added.pool = pool(ref.division, *node.pool);
        if (const auto workers = event::workers_of(state_, ref))
            if (division.settled[*workers].state != event::Side::State::bye)
                added.workers.push_back(party(ref.division, *workers));
        add_wish(wish_of(ref.division), node.pool.has_value(), added);
        const auto live = std::find(demands_.in_play.begin(), demands_.in_play.end(), ref);
        if (match.result_counts || live != demands_.in_play.end()) {
            added.pinned = place_of(match.placement);
            added.begun = added.pinned.has_value();
        }
        const auto published = state_.plan.published.find(node.name);
        if (published != state_.plan.published.end()) added.published = place_of(published->second);
        add_persons(ref, added);
        out_.task.matches.push_back(std::move(added));
    }

    void add_wish(const DivisionWish& wish, bool in_pool, plan::TaskMatch& added) const {
        added.needs = wish.needs;
        if (wish.not_before.given()) added.earliest = minute(wish.not_before);
        if (!in_pool && wish.brackets_after.given())
            added.earliest = std::max(added.earliest, minute(wish.brackets_after));
        if (in_pool && wish.pools_over.given()) added.latest_end = minute(wish.pools_over);
    }

    [[nodiscard]] plan::PoolIndex pool(DivisionIndex division, tournament::PoolIndex index) {
        const auto known = pools_.find({division, index});
        if (known != pools_.end()) return known->second;
        out_.task.pools.push_back(state_.divisions[division].graph.pools[index].name);
        return pools_[{division, index}] = static_cast<plan::PoolIndex>(out_.task.pools.size() - 1);
    }

    void add_persons(MatchRef ref, plan::TaskMatch& added) {
        const auto is_side = [&](TeamIndex t) {
            return state_.side(ref, 0).team == t || state_.side(ref, 1).team == t;
        };
        std::set<std::uint16_t> working;
        for (const std::uint16_t number : event::persons_of(state_, state_.match(ref).duty))
            working.insert(number);
        for (const std::uint16_t number : working) {
            added.workers.push_back(person(number));
            const auto known = state_.persons.find(number);
            if (known == state_.persons.end()) continue;
            for (const std::size_t which : {std::size_t{0}, std::size_t{1}}) {
                const event::Side side = state_.side(ref, which);
                if (side.is_team() && event::interest_in(state_, known->second, side.team))
                    added.barred.push_back(person(number));
            }
        }
        for (const std::uint16_t number : who_works_and_has_a_team())
            if (!working.contains(number) && is_side(state_.persons.at(number).team))
                added.present.push_back(person(number));
    }

    /// Players and coaches who have a duty somewhere.
    [[nodiscard]] const std::vector<std::uint16_t>& who_works_and_has_a_team() {
        if (looked_) return on_both_sides_;
        looked_ = true;
        std::set<std::uint16_t> found;
        for (const MatchRef ref : out_.matches)
            for (const std::uint16_t number : event::persons_of(state_, state_.match(ref).duty)) {
                const auto known = state_.persons.find(number);
                if (known == state_.persons.end() || known->second.team == event::no_team) continue;
                const event::Role role = known->second.role;
                if (role == event::Role::player || role == event::Role::coach) found.insert(number);
            }
        on_both_sides_.assign(found.begin(), found.end());
        return on_both_sides_;
    }

    void add_shared_people() {
        for (const auto& teams : demands_.shared_people) {
            std::string names;
            for (const TeamIndex each : teams)
                names += (names.empty() ? "" : " and ") + state_.teams[each].name;
            const PartyIndex shared =
                new_party({plan::Party::Kind::person, "a person of " + names, {}});
            for (std::size_t m = 0; m < out_.matches.size(); ++m)
                for (const TeamIndex each : teams)
                    if (const MatchRef ref = out_.matches[m];
                        state_.side(ref, 0).team == each || state_.side(ref, 1).team == each) {
                        out_.task.matches[m].present.push_back(shared);
                        break;
                    }
        }
    }

    const event::TournamentState& state_;
    const Demands& demands_;
    EventTask out_;
    std::vector<event::Date> days_;
    std::map<MatchRef, plan::MatchIndex> indices_;
    std::map<TeamIndex, PartyIndex> teams_;
    std::map<std::pair<DivisionIndex, SourceIndex>, PartyIndex> expected_;
    std::map<std::uint16_t, PartyIndex> persons_;
    std::map<std::pair<DivisionIndex, tournament::PoolIndex>, plan::PoolIndex> pools_;
    std::vector<std::uint16_t> on_both_sides_;
    bool looked_ = false;
};

}  // namespace

EventTask task_of(const event::TournamentState& state, const Demands& demands) {
    return Builder{state, demands}.run();
}

}  // namespace courthand::event_plan
