#include "recorder.h"

#include <algorithm>

#include "courthand/rules/judge.h"

namespace courthand::client {

namespace {

bool raises(const Verdict& verdict) {
    return verdict.phase == Phase::armed || verdict.phase == Phase::open;
}

/// Which entries are struck; a strike may itself be struck, so the last word is found from the end.
std::vector<bool> struck_in(std::span<const Record> records) {
    std::vector<bool> struck(records.size(), false);
    for (std::size_t i = records.size(); i-- > 0;) {
        const auto* strike = std::get_if<Strike>(&records[i]);
        if (strike != nullptr && !struck[i] && strike->target >= 1 && strike->target <= i)
            struck[strike->target - 1] = true;
    }
    return struck;
}

const Fact* fact_of(const Record& record) {
    if (const auto* insert = std::get_if<Insert>(&record)) return &insert->fact;
    if (const auto* amend = std::get_if<Amend>(&record)) return &amend->fact;
    return std::get_if<Fact>(&record);
}

/// A person at this table wrote it, as far as the record can tell: a ruling may be the head
/// official's, and an opening is the program's.
bool of_the_table(const Record& record) {
    const Fact* fact = fact_of(record);
    return fact != nullptr && !std::holds_alternative<Ruling>(*fact) &&
           !std::holds_alternative<MatchOpened>(*fact);
}

Record record_of(const Correction& correction) {
    return std::visit([](const auto& what) { return Record{what}; }, correction);
}

std::vector<Record> with(std::span<const Record> records, std::span<const Correction> corrections) {
    std::vector<Record> all{records.begin(), records.end()};
    for (const Correction& correction : corrections) all.push_back(record_of(correction));
    return all;
}

}  // namespace

Outcome Recorder::write(const std::vector<Record>& what, const std::string& text) {
    Outcome outcome;
    problem_.clear();
    const RecordResult result = session_.record(what, text);
    if (result.error) {
        problem_ = QString::fromStdString(*result.error);
        outcome.saved = false;
        return outcome;
    }
    outcome.needs_look = std::any_of(result.verdicts.begin(), result.verdicts.end(), raises);
    // They have the last numbers of the record.
    Act act;
    EntryNumber number = result.seq - static_cast<EntryNumber>(what.size());
    for (const Record& record : what) {
        if (const Fact* fact = fact_of(record)) act.words = wording_.fact(*fact);
        act.entries.push_back({++number, record});
    }
    outcome.words = act.words;
    keep(std::move(act));
    return outcome;
}

void Recorder::keep(Act act) {
    if (act.entries.empty()) return;
    if (acts_.size() == most_acts) acts_.erase(acts_.begin());
    acts_.push_back(std::move(act));
}

Outcome Recorder::perform(const std::vector<Fact>& facts, const QString& text) {
    return write({facts.begin(), facts.end()}, text.left(longest_text).toStdString());
}

Outcome Recorder::correct(const std::vector<Correction>& corrections, const QString& words) {
    std::vector<Record> what;
    for (const Correction& correction : corrections) what.push_back(record_of(correction));
    Outcome outcome = write(what, {});
    if (!outcome.saved || what.empty()) return outcome;
    acts_.back().words = outcome.words = words;
    return outcome;
}

Outcome Recorder::insert(EntryNumber after, const Fact& fact) {
    return correct({Insert{after, fact}}, wording_.fact(fact));
}

Outcome Recorder::amend(EntryNumber target, const Fact& fact) {
    return correct({Amend{target, fact}}, wording_.fact(fact));
}

Outcome Recorder::strike(EntryNumber target) {
    const auto records = session_.written();
    const Fact* fact =
        target >= 1 && target <= records.size() ? fact_of(records[target - 1]) : nullptr;
    return correct({Strike{target}}, fact == nullptr ? QString() : wording_.fact(*fact));
}

std::vector<VerdictChange> Recorder::changes_by(const Correction& correction) const {
    const auto records = session_.written();
    return verdict_changes(session_.rules(), records, with(records, {&correction, 1}));
}

MatchState Recorder::state_after(std::span<const Correction> corrections) const {
    return fold(session_.rules(), effective(with(session_.written(), corrections)).entries);
}

bool Recorder::stands(const Act& act, const std::vector<bool>& struck) const {
    const auto records = session_.written();
    return std::all_of(act.entries.begin(), act.entries.end(), [&](const Written& entry) {
        return entry.number >= 1 && entry.number <= records.size() && !struck[entry.number - 1] &&
               records[entry.number - 1] == entry.record;
    });
}

std::optional<Act> Recorder::next_undo() const {
    const auto records = session_.written();
    const std::vector<bool> struck = struck_in(records);
    for (auto act = acts_.rbegin(); act != acts_.rend(); ++act)
        if (stands(*act, struck)) return *act;
    // After a restart the record alone says what was written, one entry after the other.
    for (std::size_t i = records.size(); i-- > 0;)
        if (!struck[i] && of_the_table(records[i]))
            return Act{{{static_cast<EntryNumber>(i + 1), records[i]}},
                       wording_.fact(*fact_of(records[i]))};
    return std::nullopt;
}

MatchState Recorder::state_without(const Act& act) const {
    std::vector<Correction> strikes;
    for (const Written& entry : act.entries) strikes.emplace_back(Strike{entry.number});
    return state_after(strikes);
}

Outcome Recorder::undo() {
    Outcome outcome;
    problem_.clear();
    std::optional<Act> act = next_undo();
    if (!act) {
        problem_ = QCoreApplication::translate("Recorder", "There is nothing to undo.");
        outcome.saved = false;
        return outcome;
    }
    const auto is_this = [&act](const Act& other) {
        return other.entries.front().number == act->entries.front().number;
    };
    const auto kept = std::find_if(acts_.begin(), acts_.end(), is_this);
    // Anything later in the list is no longer in the record.
    if (kept != acts_.end()) acts_.erase(kept, acts_.end());
    std::vector<Record> strikes;
    for (auto entry = act->entries.rbegin(); entry != act->entries.rend(); ++entry)
        strikes.emplace_back(Strike{entry->number});
    const RecordResult result = session_.record(strikes, {});
    if (result.error) {
        problem_ = QString::fromStdString(*result.error);
        outcome.saved = false;
    }
    outcome.words = act->words;
    if (!outcome.saved) keep(*std::move(act));
    return outcome;
}

std::vector<Explanation> Recorder::causes_of_wrong_server(Team team, EntryNumber found_at) const {
    return explanations_of_wrong_server(session_.rules(), entries(), team, found_at);
}

std::vector<LateFault> Recorder::late_faults(EntryNumber found_at) const {
    return courthand::late_faults(session_.rules(), entries(), found_at);
}

std::vector<Entry> Recorder::entries() const {
    return effective(session_.written()).entries;
}

EntryNumber Recorder::last_entry() const {
    const std::vector<Entry> all = entries();
    return all.empty() ? 0 : all.back().number;
}

}  // namespace courthand::client
