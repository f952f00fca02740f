#include "server/tournament/record_draft.h"

#include <fmt/format.h>

#include <utility>
#include <variant>

#include "courthand/event/fold.h"
#include "server/tournament/sealed_act.h"
#include "wire/event_entry.h"

namespace courthand::server::tournament {

namespace {

// Every entry of a tournament is of the one epoch that there is.
constexpr std::uint32_t only_epoch = 1;

template <class Value>
Value& own(std::shared_ptr<Value>& mine, const std::shared_ptr<const Value>& known) {
    if (mine == nullptr) mine = std::make_shared<Value>(*known);
    return *mine;
}

Status damaged(FactNumber number, const std::string& why) {
    return Status::failed(
        StatusCode::internal,
        fmt::format("fact {} of the tournament's record does not stand where it should: {}", number,
                    why),
        "the database was changed by hand or is damaged: put it back from a backup");
}

}  // namespace

RecordDraft::RecordDraft(TournamentId tournament, KnownRecord known)
    : known_{std::move(known)},
      chain_{wire::Uuid{tournament.value.bytes}, wire_head(tournament, known_.head), only_epoch} {}

bool RecordDraft::add_page(std::span<const KeptFact> page) {
    if (known_.head.number != 0) {
        went_back_ = page.empty() || page.front().number != known_.head.number ||
                     page.front().hash != known_.head.hash;
        if (went_back_) return false;
        page = page.subspan(1);
    }
    add(page);
    return !page.empty();
}

void RecordDraft::add(std::span<const KeptFact> facts) {
    for (const KeptFact& fact : facts) {
        if (!fault_.ok()) return;
        fault_ = add(fact);
    }
}

Status RecordDraft::add(const KeptFact& fact) {
    const auto read = wire::read_event_entry(*fact.bytes);
    const auto* entry = std::get_if<wire::ReadEventEntry>(&read);
    if (entry == nullptr)
        return Status::failed(
            StatusCode::schema_newer,
            fmt::format("fact {} of the tournament's record cannot be read", fact.number),
            "a newer program wrote it: update this server");
    if (const auto broken = chain_.append(entry->header(), entry->hash()))
        return damaged(fact.number, broken->message);
    if (entry->hash() != fact.hash) return damaged(fact.number, "its hash is another one");
    fold_in(entry->fact(), fact.stored_at);
    add_words(fact, entry->beside().has_value());
    own(ids_, known_.ids).push_back(fact.id);
    numbers_.emplace_back(fact.id, fact.number);
    known_.head = {fact.number, fact.hash};
    return Status::fine();
}

void RecordDraft::fold_in(const event::Fact& said, ServerTime at) {
    KnownRecord::State& state = own(state_, known_.state);
    const event::Confirmer before = state.confirmer;
    event::fold_in(state, said);
    // Also by a taking back.
    if (state.confirmer != before) known_.signatures_since = at;
}

void RecordDraft::add_words(const KeptFact& fact, bool sealed) {
    if (fact.beside)
        own(words_, known_.words).emplace(fact.number, fact.beside->text);
    else if (sealed)
        own(erased_, known_.erased).push_back(fact.number);
}

KnownRecord RecordDraft::finish() {
    if (state_) known_.state = std::move(state_);
    if (ids_) known_.ids = std::move(ids_);
    if (words_) known_.words = std::move(words_);
    if (erased_) known_.erased = std::move(erased_);
    return std::move(known_);
}

}  // namespace courthand::server::tournament
