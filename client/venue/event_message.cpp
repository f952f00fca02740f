#include "venue/event_message.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <utility>
#include <variant>

#include "venue/board_message.h"
#include "wire/event_convert.h"
#include "wire/tournament_limits.h"

namespace courthand::venue {

namespace {

ActOutcome::Fate fate_of(v1::ActResponse::Fate fate) {
    if (fate == v1::ActResponse::FATE_KEPT) return ActOutcome::Fate::kept;
    if (fate == v1::ActResponse::FATE_HAD) return ActOutcome::Fate::had;
    if (fate == v1::ActResponse::FATE_OVERTAKEN) return ActOutcome::Fate::overtaken;
    return ActOutcome::Fate::failed;
}

event::Problem problem_of(const std::string& word) {
    const auto& words = event::problem_words;
    const auto found = std::find(words.begin(), words.end(), word);
    if (found == words.end()) return event::Problem::unknown_fact;
    return static_cast<event::Problem>(found - words.begin());
}

}  // namespace

v1::ActRequest act_request(const EventAct& act, const std::string& author, bool preview) {
    const auto now = std::chrono::system_clock::now().time_since_epoch();
    v1::ActRequest request;
    request.set_author(author);
    request.set_device_time_us(std::chrono::duration_cast<std::chrono::microseconds>(now).count());
    request.set_seen(act.seen);
    request.set_preview(preview);
    for (std::size_t i = 0; i < std::min(act.facts.size(), act.ids.size()); ++i) {
        v1::ActFact& fact = *request.add_facts();
        fact.set_fact_id(bytes_of_id(act.ids[i]));
        wire::to_proto(act.facts[i].fact, *fact.mutable_fact());
        fact.set_words(act.facts[i].words);
    }
    return request;
}

std::string not_sendable(const EventAct& act, const v1::ActRequest& request) {
    if (act.facts.empty() || act.ids.size() != act.facts.size())
        return "The act has no facts, or not an id for each; make it with new_act.";
    if (act.facts.size() > wire::most_act_facts || request.ByteSizeLong() > wire::most_act_bytes)
        return fmt::format(
            "That is too much at once: an act has up to {} facts and {} MiB. Do it in parts.",
            wire::most_act_facts, wire::most_act_bytes / 1024 / 1024);
    const auto takes_back = [](const event::Said& said) {
        return std::holds_alternative<event::TakenBack>(said.fact);
    };
    if (std::count_if(act.facts.begin(), act.facts.end(), takes_back) >
        static_cast<std::ptrdiff_t>(wire::most_taken_back))
        return fmt::format("Up to {} facts are taken back at once. Do it in parts.",
                           wire::most_taken_back);
    return {};
}

ActOutcome outcome_of(const v1::ActResponse& response) {
    ActOutcome outcome;
    outcome.fate = fate_of(response.fate());
    if (outcome.fate == ActOutcome::Fate::failed)
        outcome.problem =
            "The server's answer cannot be read: bring this program and the server to one version.";
    for (const v1::ActFinding& finding : response.findings())
        outcome.findings.push_back({finding.fact(),
                                    problem_of(finding.problem()),
                                    {finding.place(), finding.message(), finding.cure()}});
    outcome.effects.facts = {response.facts_undone().begin(), response.facts_undone().end()};
    outcome.effects.matches = {response.matches_changed().begin(),
                               response.matches_changed().end()};
    outcome.effects.places = {response.places_changed().begin(), response.places_changed().end()};
    return outcome;
}

ActOutcome failed_act(std::string problem) {
    ActOutcome outcome;
    outcome.problem = std::move(problem);
    return outcome;
}

}  // namespace courthand::venue
