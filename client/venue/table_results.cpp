#include "venue/table_results.h"

#include <algorithm>

#include "wire/uuid.h"

namespace courthand::venue {

TableResults::TableResults(const DeskBook& book) {
    for (const auto& result : book.results) rows_[result.match_id].result = result;
    for (const auto& match : book.matches)
        if (const auto found = rows_.find(match.id); found != rows_.end()) {
            found->second.first = match.first;
            found->second.second = match.second;
        }
}

std::optional<TableResult> TableResults::of(const event::TournamentState& state,
                                            event::MatchRef match) const {
    const event::RecordId record = state.match(match).record;
    if (!record.given()) return std::nullopt;
    const auto found = rows_.find(wire::Uuid{record.bytes}.to_text());
    if (found == rows_.end()) return std::nullopt;
    const auto& [result, first, second] = found->second;
    const event::Side one = state.side(match, 0);
    const event::Side other = state.side(match, 1);
    if (!one.is_team() || !other.is_team()) return std::nullopt;
    const std::string& one_name = state.teams[one.team].name;
    const std::string& other_name = state.teams[other.team].name;
    // The desk names the teams of a record in its own order; the sides of a match have theirs.
    const bool turned = first == other_name && second == one_name;
    if (!turned && !(first == one_name && second == other_name)) return std::nullopt;
    TableResult out;
    out.decided = result.decided;
    out.ended = static_cast<std::size_t>(std::max(0, result.sets.a + result.sets.b));
    out.forfeited = result.forfeited;
    for (const Score set : result.set_scores)
        out.sets.push_back(turned ? event::SetScore{set.b, set.a} : event::SetScore{set.a, set.b});
    out.signed_by = turned ? courthand::turned(result.signed_by) : result.signed_by;
    out.protested = result.protested;
    out.left_to_desk = result.left_to_desk;
    if (result.head_hash.size() == out.head.bytes.size())
        std::transform(result.head_hash.begin(), result.head_hash.end(), out.head.bytes.begin(),
                       [](char byte) { return static_cast<std::uint8_t>(byte); });
    return out;
}

std::optional<event::ResultConfirmed> TableResults::confirmation(
    const event::TournamentState& state, event::MatchRef match) const {
    const auto recorded = of(state, match);
    if (!recorded || !recorded->decided || recorded->forfeited) return std::nullopt;
    event::ResultConfirmed fact;
    fact.match = state.node(match).name;
    fact.from = event::ResultFrom::table;
    fact.sets = recorded->sets;
    fact.record = state.match(match).record;
    fact.head = recorded->head;
    return fact;
}

bool TableResults::to_confirm(const event::TournamentState& state, event::MatchRef match) const {
    if (state.match(match).result) return false;
    const auto recorded = of(state, match);
    return recorded && recorded->decided && !recorded->forfeited;
}

bool TableResults::to_award(const event::TournamentState& state, event::MatchRef match) const {
    if (state.match(match).result) return false;
    const auto recorded = of(state, match);
    return recorded && recorded->forfeited;
}

}  // namespace courthand::venue
