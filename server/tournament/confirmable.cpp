#include "server/tournament/confirmable.h"

#include <fmt/format.h>

#include <algorithm>

namespace courthand::server::tournament {

namespace {

/// A result that was read from the record of a table; null for anything else.
const event::ResultConfirmed* from_table(const Act::Said& said) {
    const auto* const result = std::get_if<event::ResultConfirmed>(&said.said.fact);
    return result != nullptr && event::is_from_record(result->from) ? result : nullptr;
}

RecordEnd end_under(const event::ResultConfirmed& result) {
    RecordEnd end;
    end.match.value.bytes = result.record.bytes;
    end.hash = result.head.bytes;
    return end;
}

bool was_said(const Act& act, const KnownRecord& known) {
    return std::any_of(act.facts.begin(), act.facts.end(), [&](const Act::Said& said) {
        return std::find(known.ids->begin(), known.ids->end(), said.id) != known.ids->end();
    });
}

/// A person's act cannot say that signatures have spoken: what they confirm the server reads for
/// itself.
Status said_by_signatures(const Act& act) {
    for (const Act::Said& said : act.facts)
        if (const auto* const result = from_table(said);
            result != nullptr && result->from == event::ResultFrom::signed_record)
            return Status::failed(
                StatusCode::invalid,
                fmt::format("{}: only the server says that signatures confirm it", result->match),
                "confirm it as the table has it");
    return Status::fine();
}

}  // namespace

Status confirmable(const Act& act, TournamentId tournament, RecordKeeper& record,
                   MatchStore& matches) {
    if (Status status = said_by_signatures(act); !status.ok()) return status;
    for (const RecordEnd& end : ends_under(act)) {
        const auto stored = matches.match({tournament, end.match});
        if (stored.status().code == StatusCode::not_found) continue;
        if (!stored.ok()) return stored.status();
        if (stored->head.hash == end.hash) continue;
        if (Status status = record.catch_up(); status.passing()) return status;
        return was_said(act, record.known()) ? Status::fine() : written_since(act, end.match);
    }
    return Status::fine();
}

std::vector<RecordEnd> ends_under(const Act& act) {
    std::vector<RecordEnd> ends;
    for (const Act::Said& said : act.facts)
        if (const auto* const result = from_table(said)) ends.push_back(end_under(*result));
    return ends;
}

Status written_since(const Act& act, MatchId match) {
    std::string name;
    for (const Act::Said& said : act.facts)
        if (const auto* const result = from_table(said);
            result && end_under(*result).match == match)
            name = result->match;
    return Status::failed(
        StatusCode::conflict,
        fmt::format("{}: the table has written since: look at the result again", name),
        "confirm it as the table has it now");
}

}  // namespace courthand::server::tournament
