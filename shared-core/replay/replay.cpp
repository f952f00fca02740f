#include "courthand/replay/replay.h"

#include <algorithm>
#include <span>

namespace courthand {

namespace {

bool about_changes(const Expectation& expected) noexcept {
    return expected.kind == Expectation::Kind::appeared ||
           expected.kind == Expectation::Kind::vanished ||
           expected.kind == Expectation::Kind::changed;
}

}  // namespace

bool ScriptReplay::next() {
    if (next_ == script_.lines.size()) return false;
    const ScriptLine& line = script_.lines[next_++];
    found_.clear();
    if (const auto* const expected = std::get_if<Expectation>(&line.content))
        found_ = about_changes(*expected) ? mismatch(*expected, changes_)
                                          : mismatch(*expected, rules_, state_, raised_);
    else
        take(std::get<Record>(line.content));
    return true;
}

void ScriptReplay::take(const Record& record) {
    records_.push_back(record);
    without_effect_ = false;
    changes_.clear();
    if (const auto* const fact = std::get_if<Fact>(&record))
        apply(rules_, state_, Entry{entry(), *fact}, raised_);
    else
        fold_again();
}

void ScriptReplay::fold_again() {
    const Effective now = effective(records_);
    const auto& ineffective = now.without_effect;
    without_effect_ =
        std::find(ineffective.begin(), ineffective.end(), entry()) != ineffective.end();
    // An amended fact keeps the number of the entry in whose place it counts.
    const auto* const amend = std::get_if<Amend>(&records_.back());
    const EntryNumber shown = amend != nullptr ? amend->target : entry();
    state_ = MatchState{};
    VerdictList own;
    for (const Entry& one : now.entries) {
        apply(rules_, state_, one, raised_);
        if (one.number == shown) own = raised_;
    }
    raised_ = own;
    const std::span all{records_};
    changes_ = verdict_changes(rules_, all.first(all.size() - 1), all);
}

std::vector<Failure> failures(const Rules& rules, const Script& script) {
    std::vector<Failure> all;
    ScriptReplay replay{rules, script};
    while (replay.next())
        if (!replay.found().empty())
            all.push_back({replay.line().line,
                           script_line(std::get<Expectation>(replay.line().content)),
                           replay.found()});
    return all;
}

}  // namespace courthand
