#include "server/planner/model_builder.h"

#include <gecode/minimodel.hh>

#include <algorithm>

namespace courthand::server::planner {

using Gecode::BoolVar;
using Gecode::BoolVarArgs;
using Gecode::IntArgs;
using Gecode::IntSet;
using Gecode::IntVar;
using Gecode::IntVarArgs;
using plan::DayIndex;
using plan::MatchIndex;
using plan::Minute;
using plan::Part;
using plan::PartyIndex;

ModelBuilder::ModelBuilder(PlaceModel& model, const plan::Relations& relations,
                           const plan::Board& board, const ModelChoice& choice,
                           const Trying& trying)
    : model_{model},
      relations_{relations},
      task_{relations.task},
      board_{board},
      choice_{choice},
      trying_{trying},
      grid_{plan::starts_of(task_)},
      free_of_(task_.matches.size(), -1) {
    for (std::size_t i = 0; i < choice.free.size(); ++i)
        free_of_[choice.free[i]] = static_cast<int>(i);
}

void ModelBuilder::run() {
    make_variables();
    if (model_.failed()) return;
    keep_courts_apart();
    keep_order();
    keep_parties_apart();
    model_.cost_ = IntVar{model_, 0, Gecode::Int::Limits::max};
    if (choice_.costs) add_costs();
}

/// Beginnings on the grid, where it was published, and where the clock allows it.
std::vector<int> ModelBuilder::starts_for(MatchIndex match) const {
    std::vector<int> starts;
    std::vector<Minute> all = grid_;
    for (const auto& also : {task_.matches[match].published, task_.matches[match].pinned})
        if (also) all.push_back(also->start);
    for (const Minute start : all)
        if (in_time(match, start) && board_.time_fits(match, start)) starts.push_back(start);
    std::sort(starts.begin(), starts.end());
    starts.erase(std::unique(starts.begin(), starts.end()), starts.end());
    return starts;
}

bool ModelBuilder::in_time(MatchIndex match, Minute start) const {
    if (choice_.until.empty()) return true;
    const DayIndex day = relations_.day_of(start);
    return day >= choice_.until.size() ||
           start + task_.matches[match].duration <= choice_.until[day];
}

void ModelBuilder::make_variables() {
    const auto count = static_cast<int>(choice_.free.size());
    const auto courts = static_cast<int>(trying_.courts.size());
    model_.start_ = Gecode::IntVarArray{model_, count};
    model_.court_ = Gecode::IntVarArray{model_, count};
    for (std::size_t i = 0; i < choice_.free.size(); ++i) {
        const std::vector<int> starts = starts_for(choice_.free[i]);
        if (starts.empty() || courts == 0) return model_.fail();
        const auto at = static_cast<int>(i);
        model_.start_[at] = IntVar{model_, IntSet{IntArgs(starts)}};
        model_.court_[at] = IntVar{model_, 0, courts - 1};
        limit_to_hours(i, starts);
    }
}

void ModelBuilder::limit_to_hours(std::size_t free, const std::vector<int>& starts) {
    const auto at = static_cast<int>(free);
    for (std::size_t c = 0; c < trying_.courts.size(); ++c) {
        std::vector<int> open;
        for (const int start : starts)
            if (board_.court_fits(choice_.free[free], {trying_.courts[c], start}))
                open.push_back(start);
        if (open.size() == starts.size()) continue;
        const auto court = static_cast<int>(c);
        if (open.empty()) {
            Gecode::rel(model_, model_.court_[at], Gecode::IRT_NQ, court);
            continue;
        }
        BoolVar here = Gecode::expr(model_, model_.court_[at] == court);
        Gecode::dom(model_, model_.start_[at], IntSet{IntArgs(open)},
                    Gecode::Reify{here, Gecode::RM_IMP});
    }
}

void ModelBuilder::keep_courts_apart() {
    if (choice_.free.size() < 2) return;
    IntArgs lengths;
    IntArgs one;
    for (const MatchIndex match : choice_.free) {
        lengths << task_.matches[match].duration;
        one << 1;
    }
    Gecode::nooverlap(model_, model_.start_, lengths, model_.court_, one);
    Gecode::cumulative(model_, static_cast<int>(trying_.courts.size()), model_.start_, lengths,
                       one);
}

void ModelBuilder::keep_order() {
    for (std::size_t i = 0; i < choice_.free.size(); ++i)
        for (const auto& wait : relations_.before[choice_.free[i]])
            if (const int earlier = free_of_[wait.match]; earlier >= 0)
                Gecode::rel(model_, model_.start_[static_cast<int>(i)] >=
                                        model_.start_[earlier] +
                                            task_.matches[wait.match].duration + wait.gap);
}

void ModelBuilder::keep_parties_apart() {
    for (std::size_t p = 0; p < task_.parties.size(); ++p) {
        const auto party = static_cast<PartyIndex>(p);
        std::vector<std::size_t> plays;
        std::vector<std::size_t> all;
        for (const plan::Attendance& each : relations_.of_party[p]) {
            if (free_of_[each.match] < 0) continue;
            all.push_back(static_cast<std::size_t>(free_of_[each.match]));
            if (each.part == Part::plays) plays.push_back(all.back());
        }
        keep_party_apart(plays, all);
        if (plays.empty()) continue;
        limit_rows(party);
        limit_days(party);
    }
}

void ModelBuilder::keep_party_apart(const std::vector<std::size_t>& plays,
                                    const std::vector<std::size_t>& all) {
    const auto apart = [&](const std::vector<std::size_t>& free, bool with_rest) {
        if (free.size() < 2) return;
        IntVarArgs starts;
        IntArgs lengths;
        for (const std::size_t i : free) {
            const MatchIndex match = choice_.free[i];
            starts << model_.start_[static_cast<int>(i)];
            lengths << task_.matches[match].duration + (with_rest ? relations_.rest_of(match) : 0);
        }
        Gecode::unary(model_, starts, lengths);
    };
    apart(all, false);
    apart(plays, true);
}

std::optional<ModelBuilder::Span> ModelBuilder::span_of(MatchIndex match) const {
    const Minute duration = task_.matches[match].duration;
    if (const int free = free_of_[match]; free >= 0)
        return Span{model_.start_[free], duration, static_cast<std::size_t>(free)};
    const auto& place = board_.plan().places[match];
    if (!place) return std::nullopt;
    return Span{constant(place->start), duration, {}};
}

IntVar ModelBuilder::constant(int value) const {
    return IntVar{model_, value, value};
}

IntVar ModelBuilder::end_of(const Span& span) const {
    return Gecode::expr(model_, span.start + span.duration);
}

/// Each match has the length of its row so far: one more than that of a match shortly before it.
void ModelBuilder::limit_rows(PartyIndex team) {
    std::vector<Span> spans;
    std::vector<bool> begun;
    const plan::Group* group = nullptr;
    for (const plan::Attendance& each : relations_.of_party[team])
        if (each.part == Part::plays) {
            group = &task_.groups[task_.matches[each.match].group];
            if (const auto span = span_of(each.match)) {
                spans.push_back(*span);
                begun.push_back(task_.matches[each.match].begun);
            }
        }
    const int most = group->most_in_a_row;
    if (most == 0 || static_cast<int>(spans.size()) <= most || group->rest >= group->row_break)
        return;
    IntVarArgs rows;
    for (const bool stands : begun)
        rows << IntVar{model_, 1, stands ? static_cast<int>(spans.size()) : most};
    for (std::size_t i = 0; i < spans.size(); ++i)
        for (std::size_t j = 0; j < spans.size(); ++j) {
            if (i == j) continue;
            const int close = spans[i].duration + group->row_break;
            const BoolVar joined = Gecode::expr(
                model_, spans[j].start > spans[i].start && spans[j].start < spans[i].start + close);
            const auto a = static_cast<int>(i);
            const auto b = static_cast<int>(j);
            Gecode::rel(model_, joined >> (rows[b] >= rows[a] + 1));
        }
}

void ModelBuilder::limit_days(PartyIndex team) {
    std::vector<std::size_t> free;
    const plan::Group* group = nullptr;
    std::vector<int> standing(relations_.days.size() + 1, 0);
    for (const plan::Attendance& each : relations_.of_party[team]) {
        if (each.part != Part::plays) continue;
        group = &task_.groups[task_.matches[each.match].group];
        if (const int i = free_of_[each.match]; i >= 0)
            free.push_back(static_cast<std::size_t>(i));
        else if (const auto& place = board_.plan().places[each.match])
            ++standing[relations_.day_of(place->start)];
    }
    if (group->most_a_day == 0) return;
    for (std::size_t d = 0; d < relations_.days.size(); ++d) {
        if (standing[d] + static_cast<int>(free.size()) <= group->most_a_day) continue;
        BoolVarArgs there;
        for (const std::size_t i : free) there << is_on(i, static_cast<DayIndex>(d));
        Gecode::linear(model_, there, Gecode::IRT_LQ, group->most_a_day - standing[d]);
    }
}

BoolVar ModelBuilder::is_on(std::size_t free, DayIndex day) {
    const auto known = on_day_.find({free, day});
    if (known != on_day_.end()) return known->second;
    BoolVar there{model_, 0, 1};
    const plan::Window& hours = relations_.days[day];
    Gecode::dom(model_, model_.start_[static_cast<int>(free)], hours.from, hours.until - 1, there);
    on_day_.emplace(std::pair{free, day}, there);
    return there;
}

std::optional<DayIndex> ModelBuilder::day_of(const Span& span) const {
    const DayIndex first = relations_.day_of(span.start.min());
    if (first == relations_.day_of(span.start.max())) return first;
    return std::nullopt;
}

}  // namespace courthand::server::planner
