// What the free matches cost, as variables: each amount is only held from below, so that the least
// it can be is what it is.
#include <gecode/minimodel.hh>

#include <algorithm>
#include <set>

#include "server/planner/model_builder.h"

namespace courthand::server::planner {

using Gecode::BoolVar;
using Gecode::BoolVarArgs;
using Gecode::IntArgs;
using Gecode::IntVar;
using Gecode::IntVarArgs;
using plan::DayIndex;
using plan::MatchIndex;
using plan::PartyIndex;
using plan::Wish;

namespace {

/// Longest time that anything is reckoned over: the month of a plan.
constexpr int longest = plan::latest_minute;

}  // namespace

void ModelBuilder::weigh(Wish wish, IntVar amount) {
    const auto weight = static_cast<int>(task_.weights[wish]);
    if (weight == 0) return;
    weighed_ << amount;
    weights_ << weight;
}

void ModelBuilder::add_costs() {
    std::set<PartyIndex> touched;
    for (const MatchIndex match : choice_.free) {
        for (const auto& who : relations_.of_match[match]) touched.insert(who.party);
        for (const auto& wait : relations_.after[match])
            for (const auto& who : relations_.of_match[wait.match]) {
                const auto& from = task_.parties[who.party].from;
                if (std::find(from.begin(), from.end(), match) != from.end())
                    touched.insert(who.party);
            }
    }
    for (const PartyIndex party : touched) {
        if (relations_.is_team(party)) add_team(party);
    }
    add_ends();
    add_pools();
    add_told();
    weighed_ << model_.cost_;
    weights_ << -1;
    Gecode::linear(model_, weights_, weighed_, Gecode::IRT_EQ, 0);
}

/// On each day on which it may be, it is, or else counts nothing: then it begins at the end of all
/// times and ends at their beginning.
void ModelBuilder::attend(std::map<DayIndex, Attended>& days, const Span& span) {
    if (const auto only = day_of(span)) {
        Attended& day = days[*only];
        day.starts.push_back(span.start);
        day.ends.push_back(end_of(span));
        day.busy += span.duration;
        return;
    }
    for (std::size_t d = 0; d < relations_.days.size(); ++d) {
        Attended& day = days[static_cast<DayIndex>(d)];
        const BoolVar there = is_on(*span.free, static_cast<DayIndex>(d));
        const IntVar start{model_, 0, longest};
        const IntVar end{model_, 0, longest};
        Gecode::ite(model_, there, span.start, constant(longest), start);
        Gecode::ite(model_, there, end_of(span), constant(0), end);
        day.starts.push_back(start);
        day.ends.push_back(end);
        day.there.push_back(there);
        day.lengths.push_back(span.duration);
    }
}

void ModelBuilder::add_team(PartyIndex team) {
    std::map<DayIndex, Attended> days;
    for (const plan::Attendance& each : relations_.of_party[team])
        if (const auto span = span_of(each.match)) attend(days, *span);
    come_from(team, days);
    for (auto& [index, day] : days) add_day_of_team(day);
}

/// It waits from the end of its earlier matches on, where those are surely on that day.
void ModelBuilder::come_from(PartyIndex team, std::map<DayIndex, Attended>& days) {
    const auto& from = task_.parties[team].from;
    if (from.empty() || days.empty()) return;
    IntVarArgs ends;
    std::optional<DayIndex> last;
    for (const MatchIndex match : from) {
        const auto span = span_of(match);
        if (!span) continue;
        const auto day = day_of(*span);
        if (!day) {
            model_.knows_all_costs_ = false;
            return;
        }
        last = last ? std::max(*last, *day) : *day;
        ends << end_of(*span);
    }
    if (!last || !days.contains(*last)) return;
    Attended& day = days[*last];
    if (!day.there.empty()) {
        model_.knows_all_costs_ = false;
        return;
    }
    const IntVar over{model_, 0, 2 * longest};
    Gecode::max(model_, ends, over);
    day.starts.push_back(over);
}

void ModelBuilder::add_day_of_team(Attended& day) {
    IntVarArgs starts;
    IntVarArgs ends;
    for (const IntVar& start : day.starts) starts << start;
    for (const IntVar& end : day.ends) ends << end;
    const IntVar first{model_, 0, 2 * longest};
    const IntVar last{model_, 0, 2 * longest};
    Gecode::min(model_, starts, first);
    Gecode::max(model_, ends, last);
    BoolVarArgs there;
    IntArgs lengths;
    for (std::size_t i = 0; i < day.there.size(); ++i) {
        there << day.there[i];
        lengths << day.lengths[i];
    }
    const IntVar busy{model_, 0, longest};
    if (there.size() == 0)
        Gecode::rel(model_, busy, Gecode::IRT_EQ, day.busy);
    else
        Gecode::rel(model_, busy == Gecode::sum(lengths, there) + day.busy);
    const IntVar waits{model_, 0, longest};
    Gecode::rel(model_, waits >= last - first - busy);
    weigh(Wish::waiting, waits);
    if (task_.weights[Wish::spread] == 0) return;
    const IntVar long_waits{model_, 0, longest};
    Gecode::rel(model_, long_waits >= waits - task_.fair_wait);
    weigh(Wish::spread, long_waits);
}

void ModelBuilder::add_ends() {
    for (std::size_t d = 0; d < relations_.days.size(); ++d) {
        const auto day = static_cast<DayIndex>(d);
        const IntVar length{model_, 0, longest};
        const int opens = relations_.days[d].from;
        bool any = false;
        int standing = 0;
        for (std::size_t m = 0; m < task_.matches.size(); ++m) {
            const auto& place = board_.plan().places[m];
            if (place && relations_.day_of(place->start) == day)
                standing = std::max(standing, place->start + task_.matches[m].duration);
            if (free_of_[m] < 0) continue;
            const auto span = span_of(static_cast<MatchIndex>(m));
            const auto only = day_of(*span);
            if (only && *only != day) continue;
            any = true;
            if (only)
                Gecode::rel(model_, length >= span->start + (span->duration - opens));
            else
                Gecode::rel(model_, is_on(*span->free, day) >>
                                        (length >= span->start + (span->duration - opens)));
        }
        if (!any) continue;
        if (standing > 0) Gecode::rel(model_, length >= standing - opens);
        weigh(Wish::end, length);
    }
}

void ModelBuilder::add_pools() {
    if (task_.weights[Wish::courts] == 0) return;
    std::set<plan::PoolIndex> pools;
    for (const MatchIndex match : choice_.free)
        if (task_.matches[match].pool) pools.insert(*task_.matches[match].pool);
    for (const plan::PoolIndex pool : pools) {
        std::vector<int> standing(trying_.courts.size(), 0);
        std::vector<BoolVarArgs> free(trying_.courts.size());
        int all = 0;
        for (std::size_t m = 0; m < task_.matches.size(); ++m) {
            if (task_.matches[m].pool != pool) continue;
            const auto& place = board_.plan().places[m];
            if (free_of_[m] < 0 && !place) continue;
            ++all;
            for (std::size_t c = 0; c < trying_.courts.size(); ++c)
                if (free_of_[m] < 0)
                    standing[c] += place->court == trying_.courts[c] ? 1 : 0;
                else
                    free[c] << Gecode::expr(model_,
                                            model_.court_[free_of_[m]] == static_cast<int>(c));
        }
        IntVarArgs counts;
        for (std::size_t c = 0; c < trying_.courts.size(); ++c)
            counts << Gecode::expr(model_, Gecode::sum(free[c]) + standing[c]);
        const IntVar most{model_, 0, all};
        Gecode::max(model_, counts, most);
        weigh(Wish::courts, Gecode::expr(model_, all - most));
    }
}

void ModelBuilder::add_told() {
    if (task_.weights[Wish::told] == 0) return;
    std::map<PartyIndex, BoolVarArgs> moved;
    for (std::size_t m = 0; m < task_.matches.size(); ++m) {
        const auto& published = task_.matches[m].published;
        if (free_of_[m] < 0 || !published) continue;
        const auto court =
            std::find(trying_.courts.begin(), trying_.courts.end(), published->court) -
            trying_.courts.begin();
        const int free = free_of_[m];
        const BoolVar moves =
            Gecode::expr(model_, model_.start_[free] != published->start ||
                                     model_.court_[free] != static_cast<int>(court));
        for (const auto& who : relations_.of_match[m]) moved[who.party] << moves;
    }
    for (const auto& [party, moves] : moved) {
        const auto& all = relations_.of_party[party];
        const bool stands_moved = std::any_of(all.begin(), all.end(), [&](const auto& each) {
            const auto& published = task_.matches[each.match].published;
            return free_of_[each.match] < 0 && published &&
                   board_.plan().places[each.match] != published;
        });
        if (stands_moved) continue;
        const IntVar is_told{model_, 0, 1};
        for (const BoolVar& each : moves) Gecode::rel(model_, each >> (is_told >= 1));
        weigh(Wish::told, is_told);
    }
}

}  // namespace courthand::server::planner
