#include "standings/separation.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace courthand::standings {
namespace {

enum class Needs : std::uint8_t { nothing, sets, points };

[[nodiscard]] Needs needs(Criterion criterion) noexcept {
    switch (criterion) {
        case Criterion::matches_won:
        case Criterion::last_match:
        case Criterion::beat_all_others:
        case Criterion::lost_to_all_others:
            return Needs::nothing;
        case Criterion::match_points:
        case Criterion::set_quotient:
        case Criterion::set_percentage:
        case Criterion::set_difference:
            return Needs::sets;
        case Criterion::point_quotient:
        case Criterion::point_percentage:
        case Criterion::point_difference:
        case Criterion::points_against:
            break;
    }
    return Needs::points;
}

[[nodiscard]] bool known(const Record& record, Criterion criterion) noexcept {
    switch (needs(criterion)) {
        case Needs::nothing:
            return true;
        case Needs::sets:
            return record.sets_known;
        case Needs::points:
            break;
    }
    return record.points_known;
}

/// The value of a criterion that is a sum over matches.
[[nodiscard]] Quotient sum(const Record& r, Criterion criterion) noexcept {
    switch (criterion) {
        case Criterion::matches_won:
            return {r.won, 1};
        case Criterion::match_points:
            return {r.match_points, 1};
        case Criterion::set_quotient:
            return {r.sets_won, r.sets_lost};
        case Criterion::set_percentage:
            return {r.sets_won, r.sets_won + r.sets_lost};
        case Criterion::set_difference:
            return {r.sets_won - r.sets_lost, 1};
        case Criterion::point_quotient:
            return {r.points_won, r.points_lost};
        case Criterion::point_percentage:
            return {r.points_won, r.points_won + r.points_lost};
        case Criterion::point_difference:
            return {r.points_won - r.points_lost, 1};
        case Criterion::points_against:
            return {r.points_lost, 1};
        case Criterion::last_match:
        case Criterion::beat_all_others:
        case Criterion::lost_to_all_others:
            break;
    }
    return {};
}

}  // namespace

Separation::Separation(const Chain& chain, const Pool& pool, const std::vector<Result>& results,
                       bool keep_reasons)
    : records(pool.teams.size()),
      chain_{chain},
      pool_{pool},
      results_{results},
      keep_reasons_{keep_reasons},
      mutual_(pool.teams.size()) {
    tally(chain, results, ~TeamSet{0}, records);
}

void Separation::run(const std::vector<TeamIndex>& teams) {
    places.clear();
    comparisons.clear();
    Walk walk;
    walk.teams = teams;
    if (!teams.empty()) separate(std::move(walk));
}

bool Separation::applies(const Walk& walk) const {
    const Step& step = chain_.steps[walk.step];
    if ((walk.passed >> walk.step & 1U) != 0) return false;
    if (step.tied == Tied::two) return walk.teams.size() == 2;
    if (step.tied == Tied::three_or_more) return walk.teams.size() > 2;
    return true;
}

bool Separation::place_matters(const Walk& walk) const {
    const std::size_t last = walk.first_place + walk.teams.size() - 1;
    return std::any_of(pool_.cuts.begin(), pool_.cuts.end(),
                       [&](std::uint16_t cut) { return walk.first_place <= cut && cut < last; });
}

TeamSet Separation::counted_in(Walk& walk) const {
    if (chain_.steps[walk.step].scope == Scope::all) return ~TeamSet{0};
    if (walk.first_tied == 0) walk.first_tied = set_of(walk.teams);
    if (chain_.mutual_among == MutualAmong::first_tied) return walk.first_tied;
    return set_of(walk.teams);
}

std::optional<std::vector<Quotient>> Separation::values_of(const Walk& walk, TeamSet counted) {
    const Criterion criterion = chain_.steps[walk.step].criterion;
    std::vector<Quotient> values(walk.teams.size());
    if (criterion == Criterion::last_match) {
        const auto winner = last_winner(results_, walk.teams[0], walk.teams[1]);
        for (std::size_t i = 0; i < values.size(); ++i)
            values[i] = {winner == walk.teams[i] ? 1 : 0, 1};
        return values;
    }
    if (criterion == Criterion::beat_all_others || criterion == Criterion::lost_to_all_others) {
        const bool won = criterion == Criterion::beat_all_others;
        const TeamSet among = set_of(walk.teams);
        for (std::size_t i = 0; i < values.size(); ++i)
            values[i] = {swept(results_, walk.teams[i], among, won) ? 1 : 0, 1};
        return values;
    }
    const bool mutual = counted != ~TeamSet{0};
    if (mutual) tally(chain_, results_, counted, mutual_);
    const std::vector<Record>& sums = mutual ? mutual_ : records;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const Record& record = sums[walk.teams[i]];
        if (!known(record, criterion)) return std::nullopt;
        values[i] = sum(record, criterion);
    }
    return values;
}

void Separation::separate(Walk walk) {
    if (walk.teams.size() == 1) {
        Place place;
        place.number = walk.first_place;
        place.teams = std::move(walk.teams);
        place.because = std::move(walk.because);
        places.push_back(std::move(place));
        return;
    }
    for (; walk.step < chain_.steps.size(); ++walk.step) {
        if (!applies(walk)) continue;
        const Step& step = chain_.steps[walk.step];
        if (step.play_off_if_cut && place_matters(walk))
            return finish(std::move(walk), Open::place_matters);
        const TeamSet counted = counted_in(walk);
        auto values = values_of(walk, counted);
        if (!values) return finish(std::move(walk), Open::scores_missing);
        const bool level = std::all_of(values->begin(), values->end(),
                                       [&](const Quotient& q) { return q == values->front(); });
        if (keep_reasons_) {
            Comparison c{walk.step, walk.teams, *values, {}, !level};
            for (TeamIndex t = 0; counted != ~TeamSet{0} && t < pool_.teams.size(); ++t)
                if ((counted & bit(t)) != 0) c.counted.push_back(t);
            walk.because.push_back(comparisons.size());
            comparisons.push_back(std::move(c));
        }
        if (!level) return split(walk, std::move(*values));
        if (step.scope == Scope::all) walk.passed |= 1U << walk.step;
    }
    finish(std::move(walk), Open::chain_ended);
}

void Separation::split(const Walk& walk, std::vector<Quotient> values) {
    const Step& step = chain_.steps[walk.step];
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const bool less = less_is_better(step.criterion);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return less ? values[a] < values[b] : values[b] < values[a];
    });
    std::size_t from = 0;
    while (from < order.size()) {
        std::size_t to = from + 1;
        while (to < order.size() && values[order[to]] == values[order[from]]) ++to;
        Walk part;
        for (std::size_t i = from; i < to; ++i) part.teams.push_back(walk.teams[order[i]]);
        part.first_place = static_cast<std::uint16_t>(walk.first_place + from);
        part.because = walk.because;
        part.passed = walk.passed;
        if (step.scope == Scope::all) part.passed |= 1U << walk.step;
        if (chain_.after_split == AfterSplit::go_on) {
            part.step = walk.step + 1;
            part.first_tied = walk.first_tied;
        }
        separate(std::move(part));
        from = to;
    }
}

std::optional<std::size_t> Separation::decision_on(const std::vector<TeamIndex>& teams) const {
    const TeamSet wanted = set_of(teams);
    // The last decision on these teams stands.
    for (std::size_t i = pool_.decisions.size(); i-- > 0;)
        if (set_of(pool_.decisions[i].order) == wanted) return i;
    return std::nullopt;
}

void Separation::finish(Walk walk, Open open) {
    if (const auto decided = decision_on(walk.teams)) {
        std::uint16_t number = walk.first_place;
        for (const TeamIndex team : pool_.decisions[*decided].order) {
            Place place;
            place.number = number++;
            place.teams = {team};
            place.because = walk.because;
            place.decision = decided;
            places.push_back(std::move(place));
        }
        return;
    }
    Place place;
    place.number = walk.first_place;
    place.teams = std::move(walk.teams);
    place.because = std::move(walk.because);
    place.open = open;
    place.decider = open == Open::place_matters ? Decider::play_off : chain_.last_resort;
    place.stopped_at = walk.step;
    places.push_back(std::move(place));
}

}  // namespace courthand::standings
