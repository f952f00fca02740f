#include "server/desk/event_opening.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <optional>
#include <string>
#include <unordered_map>
#include <utility>

#include "courthand/event/act.h"
#include "courthand/event/fold.h"
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

/// Which fact of the record has an id, by index.
using Ids = std::unordered_map<Uuid, std::size_t>;

Ids ids_of(const KnownRecord& record) {
    Ids ids;
    for (const FactId& id : *record.ids) ids.emplace(id.value, ids.size());
    return ids;
}

Status at(const EventScriptRead& script, std::size_t index, const std::string& what,
          std::string cure) {
    const EventScriptRead::Place& place = script.places.at(index);
    // Invalid even where a limit forbids it: that does not pass by itself.
    return Status::failed(
        StatusCode::invalid,
        fmt::format("{}:{}:{}: {}", script.file_name, place.line, place.column, what),
        std::move(cure));
}

/// An event is told from another by its name and days: next year's may have the same name.
bool same_event(const event::TournamentOpened& one, const event::TournamentOpened& other) {
    return one.name == other.name && one.first_day == other.first_day &&
           one.last_day == other.last_day;
}

std::string words_of(const event::TournamentOpened* opened) {
    if (opened == nullptr) return "an event without a name";
    return fmt::format("the event \"{}\" from {} to {}", opened->name,
                       event::written(opened->first_day), event::written(opened->last_day));
}

/// Another event is in the record already; nothing when it may be the one of the script.
std::optional<Status> held_another(const EventScriptRead& script, const KnownRecord& known,
                                   bool began_otherwise) {
    const event::TournamentOpened* newest = nullptr;
    for (const event::Fact& fact : known.state->facts) {
        const auto* const opened = std::get_if<event::TournamentOpened>(&fact);
        if (opened == nullptr) continue;
        // Also by an earlier one: a desk may have changed name and days.
        if (script.opened && same_event(*opened, *script.opened)) return std::nullopt;
        newest = opened;
    }
    // Of one that was cut off before its name was said, the script itself knows whose it is.
    if (!began_otherwise && (newest == nullptr || !script.opened)) return std::nullopt;
    const std::string held = words_of(newest);
    return Status::failed(
        StatusCode::invalid,
        fmt::format("{} is kept here already, and {} opens {}; nothing was changed", held,
                    script.file_name, words_of(script.opened ? &*script.opened : nullptr)),
        fmt::format("name another data folder and another database for it, or leave --event out "
                    "to go on with {}",
                    held));
}

/// The facts that the record does not have and that can be said at once, by their index. `invalid`
/// when it has another event, or others in their places: the ids go by the places in the script.
Result<std::vector<std::size_t>> missing_of(const EventScriptRead& script, TournamentId tournament,
                                            const KnownRecord& known) {
    const Ids there = ids_of(known);
    std::vector<std::size_t> missing;
    const bool began_otherwise = !there.empty() && !there.contains(id_of(tournament, 1).value);
    if (!there.empty())
        if (auto another = held_another(script, known, began_otherwise)) return *std::move(another);
    if (began_otherwise) return missing;
    std::optional<std::size_t> other;
    for (std::size_t i = 0; i < script.facts.size(); ++i) {
        const auto found = there.find(id_of(tournament, i + 1).value);
        if (found == there.end()) {
            if (missing.size() < tournament::most_facts_per_append) missing.push_back(i);
        } else if (!other && known.state->facts[found->second] != script.facts[i].fact) {
            other = i;
        }
    }
    if (other && !missing.empty())
        return at(script, *other, "the tournament was begun with another line in this place",
                  "go on with the script as it was, or say the rest at the desk");
    return missing;
}

std::vector<Act::Said> part_of(const EventScriptRead& script,
                               const std::vector<std::size_t>& missing, TournamentId tournament) {
    std::vector<Act::Said> part;
    part.reserve(missing.size());
    for (const std::size_t i : missing) part.push_back({id_of(tournament, i + 1), script.facts[i]});
    return part;
}

/// The first of these facts that would not be kept or would have no effect, with its place; nothing
/// when there is none. They are said together to `state`, which has them afterwards.
std::optional<Status> first_refused(const EventScriptRead& script,
                                    const std::vector<std::size_t>& said,
                                    event::TournamentState& state) {
    std::vector<event::Said> part;
    part.reserve(said.size());
    for (const std::size_t i : said) part.push_back(script.facts[i]);
    std::vector<event::Finding> findings = event::objections(state, part);
    const event::FactNumber before = state.last();
    for (const event::Said& one : part) event::fold_in(state, one.fact);
    std::copy_if(state.findings.begin(), state.findings.end(), std::back_inserter(findings),
                 [&](const event::Finding& finding) { return finding.fact > before; });
    const auto first = std::min_element(findings.begin(), findings.end(),
                                        [](const event::Finding& one, const event::Finding& other) {
                                            return one.fact < other.fact;
                                        });
    if (first == findings.end()) return std::nullopt;
    return at(script, said.at(first->fact - before - 1),
              fmt::format("{}: {}", first->fault.place, first->fault.message), first->fault.cure);
}

/// The same of the whole script, part by part as it is said to an empty record.
std::optional<Status> first_refused(const EventScriptRead& script) {
    event::TournamentState state;
    std::vector<std::size_t> part;
    for (std::size_t i = 0; i < script.facts.size(); ++i) {
        part.push_back(i);
        if (part.size() < tournament::most_facts_per_append && i + 1 < script.facts.size())
            continue;
        if (auto refused = first_refused(script, part, state)) return refused;
        part.clear();
    }
    return std::nullopt;
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
            out.opened = *opened;
        out.facts.push_back(std::move(*said));
        out.places.push_back({line.line, line.column});
    }
    return out;
}

Status open_event(tournament::RecordKeeper& record, TournamentId tournament,
                  const EventScriptRead& script) {
    if (Status status = record.catch_up(); !status.ok()) return status;
    // It is said in parts, and of a script with a mistake not even the first is to stay.
    if (record.known().state->last() == 0)
        if (auto refused = first_refused(script)) return *std::move(refused);
    const auto missing = [&](const KnownRecord& known) -> Result<std::vector<Act::Said>> {
        const auto left = missing_of(script, tournament, known);
        if (!left.ok()) return left.status();
        return part_of(script, *left, tournament);
    };
    Status status = tournament::say(record, tournament::this_server(), missing).status();
    const bool refused = status.code == StatusCode::invalid || status.code == StatusCode::exhausted;
    if (!refused) return status;
    const KnownRecord known = record.known();
    const auto left = missing_of(script, tournament, known);
    if (!left.ok()) return left.status();
    event::TournamentState state = *known.state;
    return first_refused(script, *left, state).value_or(std::move(status));
}

}  // namespace courthand::server::desk
