#include "venue/memory_event.h"

#include <algorithm>
#include <iterator>
#include <span>
#include <utility>

#include "courthand/event/act.h"
#include "courthand/event/fold.h"
#include "venue/event_act.h"
#include "wire/uuid.h"

namespace courthand::venue {

namespace {

using Fate = ActOutcome::Fate;

ActOutcome failed(std::string problem) {
    ActOutcome outcome;
    outcome.problem = std::move(problem);
    return outcome;
}

}  // namespace

MemoryEvent::MemoryEvent(const std::vector<event::Said>& facts) {
    book_.whole = true;
    fold_in(facts);
}

void MemoryEvent::fold_in(const std::vector<event::Said>& facts, const std::vector<Id>& ids) {
    auto state = std::make_shared<event::TournamentState>(*book_.state);
    auto words = std::make_shared<EventBook::Words>(*book_.words);
    auto known = std::make_shared<EventBook::Ids>(*book_.ids);
    for (std::size_t i = 0; i < facts.size(); ++i) {
        event::fold_in(*state, facts[i].fact);
        if (!facts[i].words.empty()) words->emplace(state->last(), facts[i].words);
        const auto id = i < ids.size() ? wire::Uuid::from_text(ids[i]) : std::nullopt;
        known->push_back(id.value_or(wire::Uuid{}).bytes());
    }
    book_.ids = std::move(known);
    book_.state = std::move(state);
    book_.words = std::move(words);
}

void MemoryEvent::tell() const {
    if (listener_.book) listener_.book(book_);
}

void MemoryEvent::start(Listener listener) {
    const std::scoped_lock lock{mutex_};
    listener_ = std::move(listener);
    if (listener_.link) listener_.link({LinkState::live, {}});
    tell();
}

void MemoryEvent::stop() {
    const std::scoped_lock lock{mutex_};
    listener_ = {};
}

std::optional<ActOutcome> MemoryEvent::settled(const EventAct& act) const {
    if (!problem_.empty()) return failed(problem_);
    if (act.facts.empty() || act.ids.size() != act.facts.size())
        return failed("The act has no facts, or not an id for each; make it with new_act.");
    const event::TournamentState& state = *book_.state;
    std::size_t had = 0;
    for (std::size_t i = 0; i < act.ids.size(); ++i) {
        const auto found = numbers_.find(act.ids[i]);
        if (found == numbers_.end()) continue;
        if (state.facts[found->second - 1] != act.facts[i].fact)
            return failed("The id of this fact stands for another one.");
        ++had;
    }
    if (had != 0 && had != act.ids.size())
        return failed("The id of this fact stands for another one.");
    ActOutcome outcome;
    outcome.fate = Fate::had;
    if (had != 0) return outcome;
    if (act.seen > state.last()) return failed("The act was decided on another record.");
    return std::nullopt;
}

ActOutcome MemoryEvent::decide(const EventAct& act) const {
    const event::TournamentState& now = *book_.state;
    const auto facts = facts_of(act);
    event::Meaning means = event::meaning_of(now, facts);
    ActOutcome outcome;
    outcome.fate = Fate::kept;
    if (act.seen < now.last()) {
        const auto then = event::fold(std::span{now.facts}.first(act.seen));
        if (event::overtaken(then, now, facts, means)) outcome.fate = Fate::overtaken;
    }
    if (overtakes_) outcome.fate = Fate::overtaken;
    outcome.findings = event::objections(now, act.facts);
    std::move(means.findings.begin(), means.findings.end(), std::back_inserter(outcome.findings));
    outcome.effects = std::move(means.effects);
    return outcome;
}

void MemoryEvent::preview(const EventAct& act, ActAnswer answer) {
    ActOutcome outcome;
    {
        const std::scoped_lock lock{mutex_};
        const auto before = std::exchange(overtakes_, std::nullopt);
        auto told = settled(act);
        outcome = told ? *std::move(told) : decide(act);
        overtakes_ = before;
        problem_.clear();
    }
    answer(outcome);
}

ActOutcome MemoryEvent::do_act(const EventAct& act) {
    if (overtakes_) fold_in(*overtakes_);
    auto told = settled(act);
    ActOutcome outcome = told ? *std::move(told) : decide(act);
    overtakes_.reset();
    problem_.clear();
    if (outcome.fate != Fate::kept) return outcome;
    for (const event::Finding& finding : outcome.findings)
        if (event::forbids(finding.problem))
            return failed(finding.fault.place + ": " + finding.fault.message + ". " +
                          finding.fault.cure);
    const event::FactNumber first = book_.state->last() + 1;
    for (std::size_t i = 0; i < act.ids.size(); ++i)
        numbers_[act.ids[i]] = first + static_cast<event::FactNumber>(i);
    kept_.push_back(act);
    fold_in(act.facts, act.ids);
    return outcome;
}

void MemoryEvent::act(const EventAct& act, ActAnswer answer) {
    ActOutcome outcome;
    {
        const std::scoped_lock lock{mutex_};
        const auto before = book_.state;
        outcome = do_act(act);
        if (book_.state != before) tell();
    }
    answer(outcome);
}

void MemoryEvent::erase_words(const std::vector<event::FactNumber>& facts, Answer answer) {
    Outcome outcome;
    {
        const std::scoped_lock lock{mutex_};
        if (!problem_.empty()) {
            outcome = Outcome::refused(std::exchange(problem_, {}));
        } else {
            auto words = std::make_shared<EventBook::Words>(*book_.words);
            for (const event::FactNumber fact : facts) words->erase(fact);
            book_.words = std::move(words);
            tell();
        }
    }
    answer(outcome);
}

void MemoryEvent::say(const std::vector<event::Said>& facts) {
    const std::scoped_lock lock{mutex_};
    fold_in(facts);
    tell();
}

void MemoryEvent::show(const Link& link) {
    const std::scoped_lock lock{mutex_};
    if (listener_.link) listener_.link(link);
}

void MemoryEvent::show_whole(bool whole) {
    const std::scoped_lock lock{mutex_};
    book_.whole = whole;
    tell();
}

void MemoryEvent::fail_next(std::string problem) {
    const std::scoped_lock lock{mutex_};
    problem_ = std::move(problem);
}

void MemoryEvent::overtake_next(std::vector<event::Said> by_facts) {
    const std::scoped_lock lock{mutex_};
    overtakes_ = std::move(by_facts);
}

EventBook MemoryEvent::book() const {
    const std::scoped_lock lock{mutex_};
    return book_;
}

std::vector<EventAct> MemoryEvent::kept() const {
    const std::scoped_lock lock{mutex_};
    return kept_;
}

}  // namespace courthand::venue
