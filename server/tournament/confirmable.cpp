#include "server/tournament/confirmable.h"

#include <fmt/format.h>

#include <algorithm>

namespace courthand::server::tournament {

namespace {

/// The result rests on an end of the record that is the end no more.
bool is_of_before(const event::ResultConfirmed& result, const StoredMatch& stored) {
    return result.head.bytes != stored.head.hash;
}

bool was_said(const Act& act, const KnownRecord& known) {
    return std::any_of(act.facts.begin(), act.facts.end(), [&](const Act::Said& said) {
        return std::find(known.ids->begin(), known.ids->end(), said.id) != known.ids->end();
    });
}

Status overtaken(const event::ResultConfirmed& result) {
    return Status::failed(
        StatusCode::conflict,
        fmt::format("{}: the table has written since: look at the result again", result.match),
        "confirm it as the table has it now");
}

}  // namespace

Status confirmable(const Act& act, TournamentId tournament, RecordKeeper& record,
                   MatchStore& matches) {
    for (const Act::Said& said : act.facts) {
        const auto* const result = std::get_if<event::ResultConfirmed>(&said.said.fact);
        if (result == nullptr || result->from != event::ResultFrom::table) continue;
        MatchKey key{tournament, {}};
        key.match.value.bytes = result->record.bytes;
        const auto stored = matches.match(key);
        if (stored.status().code == StatusCode::not_found) continue;
        if (!stored.ok()) return stored.status();
        if (!is_of_before(*result, *stored)) continue;
        if (Status status = record.catch_up(); status.passing()) return status;
        return was_said(act, record.known()) ? Status::fine() : overtaken(*result);
    }
    return Status::fine();
}

}  // namespace courthand::server::tournament
