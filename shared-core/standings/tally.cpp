#include "standings/tally.h"

#include <algorithm>

namespace courthand::standings {
namespace {

struct Side {
    std::uint8_t sets_won;
    std::uint8_t sets_lost;
    bool won;
    bool lost;
};

[[nodiscard]] Side side_of(const Result& r, bool first) noexcept {
    const auto winner = r.winner();
    const bool both_lost = r.ending == Ending::forfeit_by_both;
    const bool first_won = winner == Result::Winner::first;
    const bool second_won = winner == Result::Winner::second;
    if (first) return {r.first_sets, r.second_sets, first_won, second_won || both_lost};
    return {r.second_sets, r.first_sets, second_won, first_won || both_lost};
}

void add(const Chain& chain, const Result& r, bool first, Record& record) {
    const Side side = side_of(r, first);
    ++record.played;
    record.won = static_cast<std::uint16_t>(record.won + (side.won ? 1 : 0));
    record.lost = static_cast<std::uint16_t>(record.lost + (side.lost ? 1 : 0));
    if (r.detail == Detail::winner) record.sets_known = false;
    if (r.detail != Detail::points) record.points_known = false;
    if (const auto points = match_points(chain, r, first)) record.match_points += *points;
    record.sets_won += side.sets_won;
    record.sets_lost += side.sets_lost;
    if (r.detail != Detail::points) return;
    const auto count = static_cast<std::size_t>(r.first_sets + r.second_sets);
    for (std::size_t i = 0; i < count; ++i) {
        const SetScore score = r.scores[i];
        record.points_won += first ? score.first : score.second;
        record.points_lost += first ? score.second : score.first;
    }
}

}  // namespace

TeamSet set_of(const std::vector<TeamIndex>& teams) noexcept {
    TeamSet set = 0;
    for (const TeamIndex team : teams) set |= bit(team);
    return set;
}

std::optional<std::int8_t> match_points(const Chain& chain, const Result& result,
                                        bool of_first) noexcept {
    const bool forfeited = result.ending == Ending::forfeit_by_both ||
                           (of_first ? result.ending == Ending::forfeit_by_first
                                     : result.ending == Ending::forfeit_by_second);
    if (forfeited) return chain.forfeit_points;
    if (result.detail == Detail::winner) return std::nullopt;
    const Side side = side_of(result, of_first);
    const auto found = std::find_if(chain.worth.begin(), chain.worth.end(), [&](const Worth& w) {
        return w.won == side.sets_won && w.lost == side.sets_lost;
    });
    if (found == chain.worth.end()) return std::nullopt;
    return found->points;
}

void tally(const Chain& chain, const std::vector<Result>& results, TeamSet among,
           std::vector<Record>& records) {
    std::fill(records.begin(), records.end(), Record{});
    for (const Result& r : results) {
        if ((among & bit(r.first)) == 0 || (among & bit(r.second)) == 0) continue;
        add(chain, r, true, records[r.first]);
        add(chain, r, false, records[r.second]);
    }
}

bool swept(const std::vector<Result>& results, TeamIndex team, TeamSet among, bool won) noexcept {
    TeamSet met = bit(team);
    for (const Result& r : results) {
        if (r.first != team && r.second != team) continue;
        const TeamIndex other = r.first == team ? r.second : r.first;
        if ((among & bit(other)) == 0) continue;
        const Side side = side_of(r, r.first == team);
        if (won ? !side.won : !side.lost) return false;
        met |= bit(other);
    }
    return met == among;
}

std::optional<TeamIndex> last_winner(const std::vector<Result>& results, TeamIndex a,
                                     TeamIndex b) noexcept {
    const Result* last = nullptr;
    for (const Result& r : results) {
        const bool theirs = (r.first == a && r.second == b) || (r.first == b && r.second == a);
        if (theirs && (last == nullptr || r.order > last->order)) last = &r;
    }
    if (last == nullptr || last->winner() == Result::Winner::none) return std::nullopt;
    return last->winner() == Result::Winner::first ? last->first : last->second;
}

}  // namespace courthand::standings
