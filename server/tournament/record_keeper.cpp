#include "server/tournament/record_keeper.h"

#include <fmt/format.h>

#include <iterator>
#include <utility>

#include "courthand/event/act.h"
#include "courthand/event/fold.h"
#include "server/tournament/confirmable.h"
#include "server/tournament/record_draft.h"
#include "server/tournament/sealed_act.h"

namespace courthand::server::tournament {

namespace {

std::vector<event::Fact> facts_of(const Act& act) {
    std::vector<event::Fact> facts;
    for (const Act::Said& said : act.facts) facts.push_back(said.said.fact);
    return facts;
}

std::vector<event::Finding> objections(const event::TournamentState& state, const Act& act) {
    std::vector<event::Said> said;
    for (const Act::Said& one : act.facts) said.push_back(one.said);
    return event::objections(state, said);
}

Status ahead(const Act& act, FactNumber last) {
    return Status::failed(
        StatusCode::invalid,
        fmt::format("the act was decided at fact {}, and the record has {}", act.seen, last),
        "read the record anew: the database may have been put back");
}

/// What forbids the act. A fact without effect does so only where all of it is wanted.
const event::Finding* refusing(const Act& act, const Outcome& outcome) {
    for (const event::Finding& finding : outcome.findings)
        if (act.whole || event::forbids(finding.problem)) return &finding;
    return nullptr;
}

Status to_status(const event::Finding& finding) {
    const auto code =
        finding.problem == event::Problem::too_many ? StatusCode::exhausted : StatusCode::invalid;
    return Status::failed(code, fmt::format("{}: {}", finding.fault.place, finding.fault.message),
                          finding.fault.cure);
}

}  // namespace

RecordKeeper::RecordKeeper(TournamentId tournament, FactStore& store)
    : tournament_{tournament}, store_{store} {}

KnownRecord RecordKeeper::known() const {
    const std::scoped_lock lock{shown_mutex_};
    return shown_;
}

std::shared_ptr<const event::TournamentState> RecordKeeper::state() const {
    const std::scoped_lock lock{shown_mutex_};
    return shown_.state;
}

std::shared_ptr<const KnownRecord::Words> RecordKeeper::words() const {
    const std::scoped_lock lock{shown_mutex_};
    return shown_.words;
}

std::uint64_t RecordKeeper::listen(std::function<void()> changed) {
    const std::scoped_lock lock{listeners_mutex_};
    listeners_[next_listener_] = std::move(changed);
    return next_listener_++;
}

void RecordKeeper::stop_listening(std::uint64_t number) {
    const std::scoped_lock lock{listeners_mutex_};
    listeners_.erase(number);
}

void RecordKeeper::show(KnownRecord next) {
    next.version = shown_.version + 1;
    {
        // What was shown before is dropped after the lock: it is large.
        const std::scoped_lock lock{shown_mutex_};
        std::swap(shown_, next);
    }
    // Under the lock of the listeners: once `stop_listening` returns, its listener is not called.
    const std::scoped_lock lock{listeners_mutex_};
    for (const auto& [number, listener] : listeners_) listener();
}

Status RecordKeeper::catch_up() {
    const std::scoped_lock lock{acting_mutex_};
    return read_on();
}

Status RecordKeeper::read_anew() {
    const std::scoped_lock lock{acting_mutex_};
    return read_all();
}

void RecordKeeper::words_erased(std::span<const FactNumber> facts) {
    const std::scoped_lock lock{acting_mutex_};
    forget_words(facts);
}

Status RecordKeeper::read_on() {
    if (must_read_all_) return read_all();
    RecordDraft draft{tournament_, shown_};
    Status stored = fill(draft);
    if (draft.went_back()) return read_all();
    if (stored.ok()) stored = draft.fault();
    take(std::move(draft));
    return stored;
}

Status RecordKeeper::read_all() {
    must_read_all_ = true;
    for (int tried = 0; tried < most_tries; ++tried) {
        KnownRecord nothing;
        nothing.reading = shown_.reading + 1;
        RecordDraft draft{tournament_, std::move(nothing)};
        if (Status stored = fill(draft); !stored.ok()) return stored;
        if (draft.went_back()) continue;
        Status fault = draft.fault();
        must_read_all_ = false;
        numbers_.clear();
        take(std::move(draft));
        return fault;
    }
    return Status::failed(StatusCode::exhausted, "the record changes while it is read",
                          "try again in a moment");
}

Status RecordKeeper::fill(RecordDraft& draft) {
    for (;;) {
        const FactNumber last = draft.head().number;
        // The last one is read once more: another in its place tells that the database went back.
        const auto page = store_.read(tournament_, last == 0 ? 0 : last - 1, most_facts_per_page);
        if (!page.ok()) return page.status();
        const bool more = draft.add_page(*page) && page->size() == most_facts_per_page;
        if (!more || !draft.fault().ok()) return Status::fine();
    }
}

void RecordKeeper::take(RecordDraft draft) {
    for (const auto& [id, number] : draft.numbers()) numbers_.emplace(id.value, number);
    KnownRecord next = draft.finish();
    // Also an empty record in the place of another.
    if (next.head != shown_.head || next.reading != shown_.reading) show(std::move(next));
}

void RecordKeeper::forget_words(std::span<const FactNumber> facts) {
    auto words = std::make_shared<KnownRecord::Words>(*shown_.words);
    auto erased = std::make_shared<KnownRecord::Erased>(*shown_.erased);
    for (const FactNumber fact : facts)
        if (words->erase(fact) != 0) erased->push_back(fact);
    if (erased->size() == shown_.erased->size()) return;
    KnownRecord next = shown_;
    next.words = std::move(words);
    next.erased = std::move(erased);
    show(std::move(next));
}

std::optional<Result<Outcome>> RecordKeeper::settled(const Act& act) const {
    const KnownRecord::State& known = *shown_.state;
    Outcome outcome;
    outcome.fate = Outcome::Fate::had;
    std::size_t had = 0;
    for (const Act::Said& said : act.facts) {
        const auto found = numbers_.find(said.id.value);
        if (found == numbers_.end()) continue;
        if (known.facts[found->second - 1] != said.said.fact) return id_taken();
        if (++had == 1) outcome.first = found->second;
        outcome.last = found->second;
    }
    if (had != 0 && had != act.facts.size()) return id_taken();
    if (had != 0) return outcome;
    if (act.seen > known.last()) return ahead(act, known.last());
    return std::nullopt;
}

Result<Outcome> RecordKeeper::decide(const Act& act) const {
    const KnownRecord::State& now = *shown_.state;
    const auto facts = facts_of(act);
    event::Meaning means = event::meaning_of(now, facts);
    Outcome outcome;
    outcome.first = now.last() + 1;
    outcome.last = now.last() + static_cast<FactNumber>(facts.size());
    if (act.seen < now.last()) {
        const auto then = event::fold(std::span{now.facts}.first(act.seen));
        if (event::overtaken(then, now, facts, means)) {
            outcome.fate = Outcome::Fate::overtaken;
            outcome.first = act.seen + 1;
            outcome.last = now.last();
        }
    }
    outcome.findings = objections(now, act);
    std::move(means.findings.begin(), means.findings.end(), std::back_inserter(outcome.findings));
    outcome.effects = std::move(means.effects);
    return outcome;
}

Result<Outcome> RecordKeeper::preview(const Act& act) {
    const std::scoped_lock lock{acting_mutex_};
    if (const Status status = read_on(); !status.ok()) return status;
    if (auto answer = settled(act)) return std::move(*answer);
    return decide(act);
}

Result<Outcome> RecordKeeper::act(const Act& act) {
    const std::scoped_lock lock{acting_mutex_};
    for (int tried = 0; tried < most_tries; ++tried) {
        if (const Status status = read_on(); !status.ok()) return status;
        if (auto answer = settled(act)) return std::move(*answer);
        auto outcome = decide(act);
        if (!outcome.ok() || outcome->fate != Outcome::Fate::kept) return outcome;
        if (const event::Finding* const finding = refusing(act, *outcome))
            return to_status(*finding);
        auto facts = seal(tournament_, shown_.head, act);
        if (!facts.ok()) return facts.status();
        const auto kept = store_.append(tournament_, shown_.head, *facts, ends_under(act));
        if (!kept.ok()) return kept.status();
        if (kept->fate == FactAppend::Fate::outwritten) return written_since(act, kept->match);
        // Another server came first, with other acts or with this one: the record says.
        if (kept->fate != FactAppend::Fate::appended) continue;
        RecordDraft draft{tournament_, shown_};
        for (KeptFact& fact : *facts) fact.stored_at = kept->stored_at;
        draft.add(*facts);
        take(std::move(draft));
        return outcome;
    }
    return Status::failed(StatusCode::exhausted, "other servers keep acting first",
                          "try again in a moment");
}

Result<std::size_t> RecordKeeper::erase_words(std::span<const FactNumber> facts) {
    const std::scoped_lock lock{acting_mutex_};
    auto erased = store_.erase_beside(tournament_, facts);
    // Also when nobody knows whether it was done: the words are not wanted any more.
    if (erased.ok() || !erased.status().definite()) forget_words(facts);
    return erased;
}

}  // namespace courthand::server::tournament
