#include "server/desk/event_opening.h"

#include <fmt/format.h>

#include <unordered_set>
#include <utility>

#include "courthand/event_script/event_script.h"
#include "server/tournament/derived_id.h"
#include "server/tournament/say.h"

namespace courthand::server::desk {

namespace {

using tournament::Act;
using tournament::FactId;
using tournament::KnownRecord;

/// The same at every server that opens the tournament from this script.
FactId id_of(TournamentId tournament, std::size_t number) {
    return FactId{
        tournament::derived_id(tournament.value, fmt::format("event script fact {}", number))};
}

using Ids = std::unordered_set<Uuid>;

Ids ids_of(const KnownRecord& record) {
    Ids ids;
    for (const FactId& id : *record.ids) ids.insert(id.value);
    return ids;
}

}  // namespace

Result<EventScriptRead> read_event_script(std::string_view text, const std::string& file_name) {
    auto read = event::read_event(text);
    if (const auto* wrong = std::get_if<ScriptError>(&read))
        return Status::failed(
            StatusCode::invalid,
            fmt::format("{}:{}:{}: {}", file_name, wrong->line, wrong->column, wrong->message),
            wrong->cure);
    EventScriptRead out;
    for (event::EventLine& line : std::get<event::EventScript>(read).lines) {
        auto* said = std::get_if<event::Said>(&line.content);
        if (said == nullptr) continue;
        if (const auto* opened = std::get_if<event::TournamentOpened>(&said->fact))
            out.name = opened->name;
        out.facts.push_back(std::move(*said));
    }
    return out;
}

Status open_event(tournament::RecordKeeper& record, TournamentId tournament,
                  const std::vector<event::Said>& facts) {
    const auto missing = [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
        const Ids there = ids_of(known);
        std::vector<Act::Said> part;
        const bool began_otherwise = !there.empty() && !there.contains(id_of(tournament, 1).value);
        if (began_otherwise) return part;
        for (std::size_t i = 0; i < facts.size(); ++i) {
            const FactId id = id_of(tournament, i + 1);
            if (there.contains(id.value)) continue;
            if (part.size() == tournament::most_facts_per_append) break;
            part.push_back({id, facts[i]});
        }
        return part;
    };
    return tournament::say(record, tournament::this_server(), missing).status();
}

}  // namespace courthand::server::desk
