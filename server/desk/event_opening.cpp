#include "server/desk/event_opening.h"

#include <fmt/format.h>

#include <numeric>
#include <optional>
#include <unordered_set>
#include <utility>

#include "courthand/event/act.h"
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

/// The facts that the record does not have and that can be said at once, by their index.
std::vector<std::size_t> missing_of(const EventScriptRead& script, TournamentId tournament,
                                    const KnownRecord& known) {
    const Ids there = ids_of(known);
    std::vector<std::size_t> missing;
    const bool began_otherwise = !there.empty() && !there.contains(id_of(tournament, 1).value);
    if (began_otherwise) return missing;
    for (std::size_t i = 0; i < script.facts.size(); ++i) {
        if (there.contains(id_of(tournament, i + 1).value)) continue;
        if (missing.size() == tournament::most_facts_per_append) break;
        missing.push_back(i);
    }
    return missing;
}

std::vector<Act::Said> part_of(const EventScriptRead& script,
                               const std::vector<std::size_t>& missing, TournamentId tournament) {
    std::vector<Act::Said> part;
    part.reserve(missing.size());
    for (const std::size_t i : missing) part.push_back({id_of(tournament, i + 1), script.facts[i]});
    return part;
}

/// The first of these facts that would have no effect, with its place; nothing when all have one.
std::optional<Status> first_without_effect(const EventScriptRead& script,
                                           const std::vector<std::size_t>& said,
                                           const KnownRecord& known) {
    std::vector<event::Fact> facts;
    facts.reserve(said.size());
    for (const std::size_t i : said) facts.push_back(script.facts[i].fact);
    const event::Meaning meaning = event::meaning_of(*known.state, facts);
    if (meaning.findings.empty()) return std::nullopt;
    const event::Finding& finding = meaning.findings.front();
    const std::size_t index = said.at(finding.fact - known.state->last() - 1);
    const EventScriptRead::Place& place = script.places.at(index);
    // Invalid even where a limit forbids it: that does not pass by itself.
    return Status::failed(StatusCode::invalid,
                          fmt::format("{}:{}:{}: {}: {}", script.file_name, place.line,
                                      place.column, finding.fault.place, finding.fault.message),
                          finding.fault.cure);
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
    out.file_name = file_name;
    for (event::EventLine& line : std::get<event::EventScript>(read).lines) {
        auto* said = std::get_if<event::Said>(&line.content);
        if (said == nullptr) continue;
        if (const auto* opened = std::get_if<event::TournamentOpened>(&said->fact))
            out.name = opened->name;
        out.facts.push_back(std::move(*said));
        out.places.push_back({line.line, line.column});
    }
    return out;
}

Status open_event(tournament::RecordKeeper& record, TournamentId tournament,
                  const EventScriptRead& script) {
    if (Status status = record.catch_up(); !status.ok()) return status;
    // It is said in parts, and of a script with a mistake not even the first is to stay.
    if (const KnownRecord known = record.known(); known.state->last() == 0) {
        std::vector<std::size_t> all(script.facts.size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        if (auto wrong = first_without_effect(script, all, known)) return *std::move(wrong);
    }
    const auto missing = [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
        return part_of(script, missing_of(script, tournament, known), tournament);
    };
    Status status = tournament::say(record, tournament::this_server(), missing).status();
    const bool refused = status.code == StatusCode::invalid || status.code == StatusCode::exhausted;
    if (!refused) return status;
    const KnownRecord known = record.known();
    return first_without_effect(script, missing_of(script, tournament, known), known)
        .value_or(std::move(status));
}

}  // namespace courthand::server::desk
