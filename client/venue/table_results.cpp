#include "venue/table_results.h"

#include <algorithm>

#include "wire/uuid.h"

namespace courthand::venue {

TableResults::TableResults(const DeskBook& book) {
    for (const auto& result : book.results) rows_[result.match_id].result = result;
    for (const auto& match : book.matches)
        if (const auto found = rows_.find(match.id); found != rows_.end())
            found->second.first = match.first;
}

std::optional<TableResult> TableResults::of(const event::TournamentState& state,
                                            event::MatchRef match) const {
    const event::RecordId record = state.match(match).record;
    if (!record.given()) return std::nullopt;
    const auto found = rows_.find(wire::Uuid{record.bytes}.to_text());
    if (found == rows_.end()) return std::nullopt;
    const ResultListed& result = found->second.result;
    TableResult out;
    out.decided = result.decided;
    // The desk names the teams of a record in its own order; the sides of a match have theirs.
    const event::Side second = state.side(match, 1);
    const bool turned = second.is_team() && found->second.first == state.teams[second.team].name;
    for (const Score set : result.set_scores)
        out.sets.push_back(turned ? event::SetScore{set.b, set.a} : event::SetScore{set.a, set.b});
    if (result.head_hash.size() == out.head.bytes.size())
        std::transform(result.head_hash.begin(), result.head_hash.end(), out.head.bytes.begin(),
                       [](char byte) { return static_cast<std::uint8_t>(byte); });
    return out;
}

std::optional<event::ResultConfirmed> TableResults::confirmation(
    const event::TournamentState& state, event::MatchRef match) const {
    const auto recorded = of(state, match);
    if (!recorded) return std::nullopt;
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
    return recorded && recorded->decided;
}

}  // namespace courthand::venue
