#include "server/tournament/record_keeper.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <variant>

#include "courthand/event/fact_fields.h"
#include "courthand/event/fold.h"
#include "server/tournament/sealed_act.h"
#include "wire/event_entry.h"

namespace courthand::server::tournament {

namespace {

using event::TournamentState;

/// What the facts of an act do to a state.
struct Meaning {
    std::vector<event::Finding> findings;
    event::Effects effects;
};

Meaning meaning(const TournamentState& before, const Act& act) {
    TournamentState after = before;
    for (const Act::Said& said : act.facts) event::fold_in(after, said.said.fact);
    Meaning found;
    std::copy_if(after.findings.begin(), after.findings.end(), std::back_inserter(found.findings),
                 [&](const event::Finding& finding) { return finding.fact > before.last(); });
    found.effects = event::difference(before, after);
    return found;
}

/// The same to a person: the findings speak of other numbers where other facts came between.
bool same(const Meaning& one, const Meaning& other) {
    const auto alike = [](const event::Finding& x, const event::Finding& y) {
        return x.problem == y.problem && x.fault == y.fault;
    };
    return one.effects == other.effects &&
           std::equal(one.findings.begin(), one.findings.end(), other.findings.begin(),
                      other.findings.end(), alike);
}

bool share_one(const std::vector<std::string>& these, const std::vector<std::string>& those) {
    return std::any_of(these.begin(), these.end(), [&](const std::string& one) {
        return std::find(those.begin(), those.end(), one) != those.end();
    });
}

/// Two facts of one kind about one thing: the second would write over the first. A note writes over
/// nothing.
bool about_the_same(const event::Fact& one, const event::Fact& other) {
    if (one.index() != other.index() || std::holds_alternative<event::NoteWritten>(one))
        return false;
    return std::visit(
        [&](const auto& fact) {
            using Kind = std::decay_t<decltype(fact)>;
            // The first field of a row says what the fact is about.
            const auto subject = std::get<0>(event::described<Kind>.fields).member;
            return fact.*subject == std::get<Kind>(other).*subject;
        },
        one);
}

/// Has what the act is about become another thing since the person looked?
bool overtaken(const TournamentState& then, const TournamentState& now, const Act& act,
               const Meaning& means) {
    for (const event::Fact& came : std::span{now.facts}.subspan(then.last()))
        for (const Act::Said& said : act.facts)
            if (about_the_same(said.said.fact, came)) return true;
    const event::Effects changed = event::difference(then, now);
    return share_one(changed.matches, means.effects.matches) ||
           share_one(changed.places, means.effects.places) || !same(meaning(then, act), means);
}

Status ahead(const Act& act, FactNumber last) {
    return Status::failed(
        StatusCode::invalid,
        fmt::format("the act was decided at fact {}, and the record has {}", act.seen, last),
        "read the record anew: the database may have been put back");
}

}  // namespace

RecordKeeper::RecordKeeper(TournamentId tournament, FactStore& store)
    : tournament_{tournament}, store_{store} {}

std::shared_ptr<const TournamentState> RecordKeeper::state() const {
    const std::scoped_lock lock{shown_mutex_};
    return shown_;
}

void RecordKeeper::show(std::shared_ptr<const TournamentState> state) {
    const std::scoped_lock lock{shown_mutex_};
    shown_ = std::move(state);
}

Status RecordKeeper::catch_up() {
    const std::scoped_lock lock{acting_mutex_};
    return read_on();
}

Status RecordKeeper::read_on() {
    for (;;) {
        const auto page = store_.read(tournament_, head_.number, most_facts_per_page);
        if (!page.ok()) return page.status();
        if (page->empty()) return Status::fine();
        if (Status status = take(*page); !status.ok()) return status;
    }
}

Status RecordKeeper::take(const std::vector<KeptFact>& facts) {
    auto next = std::make_shared<TournamentState>(*state());
    Status status;
    for (const KeptFact& fact : facts) {
        const auto read = wire::read_event_entry(*fact.bytes);
        const auto* entry = std::get_if<wire::ReadEventEntry>(&read);
        if (entry == nullptr) {
            status = Status::failed(
                StatusCode::schema_newer,
                fmt::format("fact {} of the tournament's record cannot be read", fact.number),
                "a newer program wrote it: update this server");
            break;
        }
        event::fold_in(*next, entry->fact());
        numbers_.emplace(fact.id.value, fact.number);
        head_ = {fact.number, fact.hash};
    }
    show(std::move(next));
    return status;
}

std::optional<Result<Outcome>> RecordKeeper::settled(const Act& act) const {
    const auto known = state();
    Outcome had;
    had.fate = Outcome::Fate::had;
    for (const Act::Said& said : act.facts) {
        const auto found = numbers_.find(said.id.value);
        if (found == numbers_.end()) continue;
        if (known->facts[found->second - 1] != said.said.fact) return id_taken();
        if (had.first == 0) had.first = found->second;
        had.last = found->second;
    }
    if (had.first != 0) return had;
    if (act.seen > known->last()) return ahead(act, known->last());
    return std::nullopt;
}

Result<Outcome> RecordKeeper::decide(const Act& act) const {
    const auto now = state();
    Meaning means = meaning(*now, act);
    Outcome outcome;
    outcome.first = now->last() + 1;
    outcome.last = now->last() + static_cast<FactNumber>(act.facts.size());
    if (act.seen < now->last()) {
        const auto then = event::fold(std::span{now->facts}.first(act.seen));
        if (overtaken(then, *now, act, means)) {
            outcome.fate = Outcome::Fate::overtaken;
            outcome.first = act.seen + 1;
            outcome.last = now->last();
        }
    }
    outcome.findings = std::move(means.findings);
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
        const auto facts = seal(tournament_, head_, act);
        if (!facts.ok()) return facts.status();
        const auto kept = store_.append(tournament_, head_, *facts);
        if (!kept.ok()) return kept.status();
        if (kept->fate == FactAppend::Fate::behind) continue;
        // Also what a cut connection had kept before: the record says where it stands.
        if (const Status status = read_on(); !status.ok()) return status;
        return kept->fate == FactAppend::Fate::appended ? outcome : *settled(act);
    }
    return Status::failed(StatusCode::exhausted, "other servers keep acting first",
                          "try again in a moment");
}

}  // namespace courthand::server::tournament
