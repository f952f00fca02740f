#include "venue/table_result.h"

#include <algorithm>

#include "wire/uuid.h"

namespace courthand::venue {

namespace {

/// The desk names the teams of a record in its own order; the sides of a match have theirs.
bool turned_round(const event::TournamentState& state, event::MatchRef match, const DeskBook& book,
                  const Id& id) {
    const event::Side second = state.side(match, 1);
    return std::any_of(book.matches.begin(), book.matches.end(), [&](const auto& planned) {
        return planned.id == id && second.is_team() &&
               planned.first == state.teams[second.team].name;
    });
}

}  // namespace

std::optional<TableResult> table_result(const event::TournamentState& state, event::MatchRef match,
                                        const DeskBook& book) {
    const event::RecordId record = state.match(match).record;
    if (!record.given()) return std::nullopt;
    const Id id = wire::Uuid{record.bytes}.to_text();
    const auto found = std::find_if(book.results.begin(), book.results.end(),
                                    [&](const auto& result) { return result.match_id == id; });
    if (found == book.results.end()) return std::nullopt;
    TableResult out;
    out.decided = found->decided;
    const bool turned = turned_round(state, match, book, id);
    for (const Score set : found->set_scores)
        out.sets.push_back(turned ? event::SetScore{set.b, set.a} : event::SetScore{set.a, set.b});
    if (found->head_hash.size() == out.head.bytes.size())
        std::transform(found->head_hash.begin(), found->head_hash.end(), out.head.bytes.begin(),
                       [](char byte) { return static_cast<std::uint8_t>(byte); });
    return out;
}

event::ResultConfirmed confirmation(const event::TournamentState& state, event::MatchRef match,
                                    const TableResult& recorded) {
    event::ResultConfirmed fact;
    fact.match = state.node(match).name;
    fact.from = event::ResultFrom::table;
    fact.sets = recorded.sets;
    fact.record = state.match(match).record;
    fact.head = recorded.head;
    return fact;
}

bool to_confirm(const event::TournamentState& state, event::MatchRef match, const DeskBook& book) {
    if (state.match(match).result) return false;
    const auto recorded = table_result(state, match, book);
    return recorded && recorded->decided;
}

}  // namespace courthand::venue
