#include <fmt/format.h>

#include <algorithm>

#include "courthand/standings/rank.h"
#include "standings/separation.h"

namespace courthand::standings {
namespace {

constexpr int decimals = 4;

[[nodiscard]] std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    std::string all;
    for (const std::string& part : parts) {
        if (!all.empty()) all += between;
        all += part;
    }
    return all;
}

[[nodiscard]] std::string names(const Pool& pool, const std::vector<TeamIndex>& teams) {
    std::vector<std::string> parts;
    parts.reserve(teams.size());
    for (const TeamIndex team : teams) parts.push_back(pool.teams[team]);
    return joined(parts, ", ");
}

[[nodiscard]] std::string value_in_words(Criterion criterion, const Quotient& value) {
    switch (criterion) {
        case Criterion::last_match:
            return value.numerator == 1 ? "won" : "did not win";
        case Criterion::beat_all_others:
        case Criterion::lost_to_all_others:
            return value.numerator == 1 ? "yes" : "no";
        case Criterion::set_quotient:
        case Criterion::point_quotient:
            if (value.infinite()) return fmt::format("{}:0 (none lost)", value.numerator);
            return fmt::format("{}:{} = {}", value.numerator, value.denominator,
                               decimal(value, decimals));
        case Criterion::set_percentage:
        case Criterion::point_percentage:
            return fmt::format("{} of {} = {}", value.numerator, value.denominator,
                               decimal(value, decimals));
        case Criterion::matches_won:
        case Criterion::match_points:
        case Criterion::set_difference:
        case Criterion::point_difference:
        case Criterion::points_against:
            break;
    }
    return fmt::format("{}", value.numerator);
}

[[nodiscard]] std::string scope_in_words(const Pool& pool, const Chain& chain,
                                         const Comparison& c) {
    const Step& step = chain.steps[c.step];
    if (step.scope == Scope::all)
        return step.criterion == Criterion::last_match ? "" : ", all matches";
    if (c.counted == c.among) return ", matches between them";
    return fmt::format(", matches between {}", names(pool, c.counted));
}

/// "set quotient, all matches: Quayside 4:2 = 2.0000, Mill Lane 5:3 = 1.6667".
[[nodiscard]] std::string comparison_in_words(const Pool& pool, const Chain& chain,
                                              const Comparison& c) {
    const Criterion criterion = chain.steps[c.step].criterion;
    std::vector<std::size_t> order(c.among.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    const bool less = less_is_better(criterion);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return less ? c.values[a] < c.values[b] : c.values[b] < c.values[a];
    });
    std::vector<std::string> parts;
    parts.reserve(order.size());
    for (const std::size_t i : order)
        parts.push_back(
            fmt::format("{} {}", pool.teams[c.among[i]], value_in_words(criterion, c.values[i])));
    return fmt::format("{}{}: {}{}", in_words(criterion), scope_in_words(pool, chain, c),
                       joined(parts, ", "), c.separated ? "" : ": level");
}

[[nodiscard]] std::string open_in_words(const Pool& pool, const Chain& chain, const Place& place) {
    const std::string who = names(pool, place.teams);
    switch (*place.open) {
        case Open::scores_missing:
            return fmt::format(
                "needs a decision: {} are level and the scores for the {} are not known", who,
                in_words(chain.steps[place.stopped_at].criterion));
        case Open::place_matters:
            return fmt::format("needs a decision: a place that matters lies between {}; {}", who,
                               in_words(place.decider));
        case Open::chain_ended:
            break;
    }
    return fmt::format("needs a decision: {} are level in every step; {}", who,
                       in_words(place.decider));
}

}  // namespace

std::string decimal(const Quotient& quotient, int digits) {
    if (quotient.infinite()) return "-";
    std::int64_t scale = 1;
    for (int i = 0; i < digits; ++i) scale *= 10;
    const std::int64_t below = quotient.divisor();
    const std::int64_t scaled = (2 * quotient.numerator * scale + below) / (2 * below);
    return fmt::format("{}.{:0{}}", scaled / scale, scaled % scale, digits);
}

std::vector<std::string> reasons(const Chain& chain, const Pool& pool, const Table& table,
                                 std::size_t place) {
    std::vector<std::string> lines;
    const Place& here = table.places[place];
    for (const std::size_t i : here.because)
        lines.push_back(comparison_in_words(pool, chain, table.comparisons[i]));
    if (here.decision) {
        const Decision& d = pool.decisions[*here.decision];
        lines.push_back(fmt::format("decided {}: {}{}{}", in_words(d.by), names(pool, d.order),
                                    d.note.empty() ? "" : "; ", d.note));
    }
    if (here.open) lines.push_back(open_in_words(pool, chain, here));
    return lines;
}

}  // namespace courthand::standings
