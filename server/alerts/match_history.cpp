#include "server/alerts/match_history.h"

#include <algorithm>

#include "courthand/rules/profile.h"

namespace courthand::server::alerts {

VerdictKey key_of(const Verdict& verdict) {
    return {verdict.entry, verdict.reason, verdict.team};
}

void LastReplacements::add(const ReplacementMade& one) {
    if (count == made.size())
        std::rotate(made.begin(), made.begin() + 1, made.end());
    else
        ++count;
    made[count - 1] = one;
}

bool shown_on_the_board(const Verdict& verdict) {
    const auto kind = kind_of(verdict.reason);
    if (!kind) return false;
    if (verdict.phase == Phase::open) return true;
    return verdict.phase == Phase::armed && row_of(*kind).while_armed == Layer::alert;
}

void MatchHistory::follow(const LiveMatch& match) {
    if (!match.profile || !match.record) return;
    const std::span<const Record> records = match.record->records;
    if (taken_ == 0) {
        for (const Entry& entry : effective(records).entries) take(match, entry);
    } else {
        // No correction among them: after one a new history is used.
        for (std::size_t i = taken_; i < records.size(); ++i)
            take(match, {static_cast<EntryNumber>(i + 1), std::get<Fact>(records[i])});
    }
    taken_ = records.size();
}

// `entry` is the next fact that counts: its step and its verdicts are the next ones, too.
void MatchHistory::take(const LiveMatch& match, const Entry& entry) {
    const MatchRecord& record = *match.record;
    // A fold that threw has lost them; the match is given up.
    if (steps_taken_ >= record.steps.size()) return;
    note(entry, record.steps[steps_taken_++]);
    const bool last = steps_taken_ == record.steps.size();
    const Score score = last ? match.state.set.score : record.steps[steps_taken_].score;
    for (; verdicts_taken_ < record.verdicts.size() &&
           record.verdicts[verdicts_taken_].at == entry.number;
         ++verdicts_taken_)
        note(record.verdicts[verdicts_taken_].verdict, score, record);
}

std::string MatchHistory::raw(EntryNumber entry) const {
    const auto found = past_.raw.find(entry);
    return found == past_.raw.end() || !found->second ? std::string{} : *found->second;
}

// The score is that of the moment at which the entry was made.
void MatchHistory::note(const Entry& entry, const wire::FactStep& before) {
    if (const auto* replaced = std::get_if<LiberoReplacement>(&entry.fact)) {
        past_.replacements[replaced->team].add({entry.number, replaced->in, replaced->out,
                                                before.score,
                                                static_cast<std::uint16_t>(before.rallies + 1)});
    }
    if (const auto* redesignated = std::get_if<Redesignation>(&entry.fact))
        past_.redesignations.push_back({entry.number, *redesignated, before.set, before.score});
    if (std::holds_alternative<SetStarted>(entry.fact)) past_.replacements = {};
}

void MatchHistory::note(const Verdict& verdict, const Score& score, const MatchRecord& record) {
    past_.before.try_emplace(key_of(verdict), verdict.before);
    const auto known = past_.verdicts.find(key_of(verdict));
    if (known == past_.verdicts.end()) {
        const bool accepted = verdict.phase == Phase::accepted;
        if (!shown_on_the_board(verdict) && !(accepted && kind_of(verdict.reason))) return;
        past_.verdicts[key_of(verdict)] = {verdict, score, past_.replacements[verdict.team],
                                           accepted ? Outcome::accepted : Outcome::stands};
        if (verdict.entry >= 1 && verdict.entry <= record.bytes.size())
            past_.raw[verdict.entry] = record.bytes[verdict.entry - 1];
        return;
    }
    Course& course = known->second;
    const bool was_armed = course.first_open.phase == Phase::armed;
    if (verdict.phase == Phase::accepted) course.outcome = Outcome::accepted;
    if (verdict.phase == Phase::overruled) course.outcome = Outcome::overruled;
    if (verdict.phase == Phase::open && was_armed) {
        course.first_open = verdict;
        course.replacements = past_.replacements[verdict.team];
    }
    // The team put it right before it counted: nothing has happened.
    if (verdict.phase == Phase::cleared && was_armed) past_.verdicts.erase(known);
}

}  // namespace courthand::server::alerts
