#include "server/service/tournament_message.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <variant>

#include "wire/event_convert.h"
#include "wire/tournament_limits.h"

namespace courthand::server::service {

namespace {

using tournament::FactId;
using tournament::FactNumber;
using tournament::Outcome;

/// Bytes of the numbers of facts in one line of the audit, which is cut there.
constexpr std::size_t most_facts_named = 128;

Status invalid(std::string why, std::string cure) {
    return Status::failed(StatusCode::invalid, std::move(why), std::move(cure));
}

Status author_broken(const std::string& author) {
    if (!author.empty() && wire::fits(author, wire::most_name_bytes)) return Status::fine();
    return invalid("author: it does not say who acts",
                   fmt::format("give a function of up to {} bytes, as \"desk 2\"; not the name of "
                               "a person",
                               wire::most_name_bytes));
}

Result<tournament::Act::Said> said_of(const v1::ActFact& fact, int index) {
    const std::string place = fmt::format("facts[{}].", index);
    const auto id = uuid_from_bytes(fact.fact_id());
    if (!id || id->nil())
        return invalid(place + "fact_id: it is no id", "make 16 bytes once, and keep them");
    auto read = wire::from_proto(fact.fact());
    if (const auto* why = std::get_if<wire::Unreadable>(&read))
        return invalid(place + why->text(), "correct it and act again");
    if (!wire::fits(fact.words(), wire::most_remark_bytes))
        return invalid(
            place + "words: they cannot be kept",
            fmt::format("write up to {} bytes, without special keys", wire::most_remark_bytes));
    return tournament::Act::Said{FactId{*id},
                                 {std::get<event::Fact>(std::move(read)), fact.words()}};
}

/// As much of a text as may travel, whole letters only.
std::string clipped(const std::string& text) {
    if (text.size() <= wire::most_remark_bytes) return text;
    std::size_t end = wire::most_remark_bytes;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return text.substr(0, end);
}

v1::ActResponse::Fate fate_of(Outcome::Fate fate) {
    switch (fate) {
        case Outcome::Fate::kept:
            return v1::ActResponse::FATE_KEPT;
        case Outcome::Fate::had:
            return v1::ActResponse::FATE_HAD;
        case Outcome::Fate::overtaken:
            return v1::ActResponse::FATE_OVERTAKEN;
    }
    return v1::ActResponse::FATE_UNSPECIFIED;
}

template <class From, class Add>
void add_some(const std::vector<From>& all, std::size_t most, const Add& add) {
    for (std::size_t i = 0; i < std::min(all.size(), most); ++i) add(all[i]);
}

std::string kind_of(const v1::TournamentFact& fact) {
    const auto* const oneof = v1::TournamentFact::descriptor()->FindOneofByName("kind");
    const auto* const field = fact.GetReflection()->GetOneofFieldDescriptor(fact, oneof);
    return field == nullptr ? "no fact" : field->name();
}

}  // namespace

Result<RecordWish> record_wish(const v1::WatchRecordRequest& request, bool with_words) {
    RecordWish wish;
    wish.with_words = with_words;
    wish.from.number = request.after();
    if (request.after() == 0 && request.after_hash().empty()) return wish;
    if (request.after() == 0 || request.after_hash().size() != wish.from.hash.size())
        return invalid("after_hash: it is not the hash of fact `after`",
                       "send both, 32 bytes of hash, or neither to begin anew");
    std::copy(request.after_hash().begin(), request.after_hash().end(), wish.from.hash.begin());
    return wish;
}

Result<tournament::Act> act_of(const v1::ActRequest& request, DeviceId device) {
    if (Status broken = author_broken(request.author()); !broken.ok()) return broken;
    const auto count = static_cast<std::size_t>(request.facts_size());
    if (count == 0 || count > wire::most_act_facts)
        return invalid(
            fmt::format("facts: an act has 1 to {} of them, not {}", wire::most_act_facts, count),
            "split it into several acts");
    if (request.ByteSizeLong() > wire::most_act_bytes)
        return invalid(fmt::format("the act is larger than {} bytes", wire::most_act_bytes),
                       "split it into several acts");
    const auto takes_back = [](const v1::ActFact& one) { return one.fact().has_taken_back(); };
    if (std::count_if(request.facts().begin(), request.facts().end(), takes_back) >
        static_cast<std::ptrdiff_t>(wire::most_taken_back))
        return invalid(
            fmt::format("facts: more than {} of them take back others", wire::most_taken_back),
            "split it into several acts");
    tournament::Act act;
    act.device = device;
    act.author = request.author();
    act.device_time_us = request.device_time_us();
    act.seen = request.seen();
    for (int i = 0; i < request.facts_size(); ++i) {
        auto said = said_of(request.facts(i), i);
        if (!said.ok()) return said.status();
        act.facts.push_back(*std::move(said));
    }
    return act;
}

Result<std::vector<FactNumber>> facts_to_erase(const v1::EraseWordsRequest& request) {
    if (Status broken = author_broken(request.author()); !broken.ok()) return broken;
    const auto count = static_cast<std::size_t>(request.facts_size());
    if (count == 0 || count > wire::most_erased_facts)
        return invalid(
            fmt::format("facts: name 1 to {} of them, not {}", wire::most_erased_facts, count),
            "ask for the rest in a second request");
    return std::vector<FactNumber>{request.facts().begin(), request.facts().end()};
}

v1::ActResponse to_message(const Outcome& outcome) {
    v1::ActResponse response;
    response.set_fate(fate_of(outcome.fate));
    response.set_first(outcome.first);
    response.set_last(outcome.last);
    response.set_finding_count(static_cast<std::uint32_t>(outcome.findings.size()));
    add_some(outcome.findings, wire::most_findings_told, [&](const event::Finding& finding) {
        v1::ActFinding& out = *response.add_findings();
        out.set_fact(finding.fact);
        out.set_problem(std::string{event::word_of(finding.problem)});
        out.set_place(clipped(finding.fault.place));
        out.set_message(clipped(finding.fault.message));
        out.set_cure(clipped(finding.fault.cure));
    });
    const event::Effects& effects = outcome.effects;
    add_some(effects.facts, wire::most_effects_told,
             [&](FactNumber fact) { response.add_facts_undone(fact); });
    add_some(effects.matches, wire::most_effects_told,
             [&](const std::string& match) { response.add_matches_changed(match); });
    add_some(effects.places, wire::most_effects_told,
             [&](const std::string& place) { response.add_places_changed(place); });
    return response;
}

v1::TournamentEntryBytes to_message(const tournament::KeptFact& fact, bool with_words) {
    v1::TournamentEntryBytes message;
    message.set_data(*fact.bytes);
    if (with_words && fact.beside) {
        message.mutable_beside()->set_salt(fact.beside->salt);
        message.mutable_beside()->set_text(fact.beside->text);
    }
    return message;
}

ActWords words_of(const v1::ActRequest& request) {
    if (request.facts().empty()) return {"act", "no fact", request.author()};
    const int more = request.facts_size() - 1;
    const std::string kind = kind_of(request.facts(0).fact());
    return {"act", id_text(request.facts(0).fact_id()),
            fmt::format("{}: {}{}", request.author(), kind,
                        more == 0 ? "" : fmt::format(" and {} more", more))};
}

ActWords words_of(const v1::EraseWordsRequest& request) {
    std::string facts;
    for (const FactNumber fact : request.facts()) {
        // Longer than the audit keeps.
        if (facts.size() > most_facts_named) break;
        facts += fmt::format("{}{}", facts.empty() ? "" : ", ", fact);
    }
    return {"erase-words", "facts " + facts, request.author()};
}

std::string nothing_done(const v1::ActResponse& response) {
    if (response.fate() == v1::ActResponse::FATE_HAD)
        return fmt::format("it stands in the record already, from fact {} on", response.first());
    if (response.fate() == v1::ActResponse::FATE_OVERTAKEN)
        return fmt::format("overtaken by facts {} to {}: nothing was kept", response.first(),
                           response.last());
    return {};
}

}  // namespace courthand::server::service
