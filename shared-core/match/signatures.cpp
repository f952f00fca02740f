#include "courthand/match/signatures.h"

#include <algorithm>
#include <set>
#include <utility>
#include <variant>

namespace courthand {

namespace {

/// Says nothing of what happened in the match: who has signed has signed it all the same.
bool changes_nothing(const Fact& fact) {
    return std::holds_alternative<Note>(fact) || std::holds_alternative<Protest>(fact) ||
           std::holds_alternative<Signature>(fact);
}

constexpr std::size_t index(Signer signer) noexcept {
    return static_cast<std::size_t>(signer);
}

}  // namespace

std::vector<Signer> missing_to_close(SignerSet signed_by) {
    std::vector<Signer> missing;
    for (const Signer signer : closing_signers)
        if (!signed_by.has(signer)) missing.push_back(signer);
    return missing;
}

SignerSet turned(SignerSet signers) noexcept {
    constexpr std::array pairs{std::pair{Signer::captain_a, Signer::captain_b},
                               std::pair{Signer::coach_a, Signer::coach_b}};
    SignerSet out = signers;
    for (const auto& [one, other] : pairs) {
        out.remove(one);
        out.remove(other);
        if (signers.has(one)) out.add(other);
        if (signers.has(other)) out.add(one);
    }
    return out;
}

Signatures::Signatures(std::span<const Record> records) {
    for (const Record& record : records) take(record);
}

void Signatures::take(const Record& record) {
    ++last_;
    if (const auto* const fact = std::get_if<Fact>(&record)) return take_fact(*fact);
    if (const auto* const strike = std::get_if<Strike>(&record)) return take_strike(strike->target);
    if (const auto* const insert = std::get_if<Insert>(&record)) return take_changed(insert->fact);
    const Amend& amend = std::get<Amend>(record);
    take_away(lists_, amend.target);
    lists_from(amend.target);
    // What it said before, it says no more.
    take_start(amend.target);
    take_changed(amend.fact);
}

void Signatures::take_fact(const Fact& fact) {
    if (const auto* const signature = std::get_if<Signature>(&fact)) return sign(signature->by);
    if (!changes_nothing(fact)) record_ = {};
    if (const auto* const roster = std::get_if<Roster>(&fact)) list_changed(roster->team);
    note_start(fact);
}

/// A fact that an entry inserts or puts in the place of another.
void Signatures::take_changed(const Fact& fact) {
    record_ = {};
    if (const auto* const roster = std::get_if<Roster>(&fact)) list_changed(roster->team);
    note_start(fact);
}

void Signatures::note_start(const Fact& fact) {
    if (!std::holds_alternative<SetStarted>(fact)) return;
    starts_.push_back(last_);
    begun_ = true;
}

/// A set that was begun by mistake is taken back, or such a taking back is.
void Signatures::take_start(EntryNumber target) {
    const auto is_start = [&](EntryNumber entry) {
        return std::find(starts_.begin(), starts_.end(), entry) != starts_.end();
    };
    const bool of_strike = std::any_of(strikes_.begin(), strikes_.end(),
                                       [&](const Struck& one) { return one.by == target; });
    if (!of_strike && !is_start(target)) return;
    strikes_.push_back({last_, target});
    // A strike may itself be struck, so the last word is found from the end.
    std::set<EntryNumber> struck;
    for (auto one = strikes_.rbegin(); one != strikes_.rend(); ++one)
        if (!struck.contains(one->by)) struck.insert(one->target);
    begun_ = std::any_of(starts_.begin(), starts_.end(),
                         [&](EntryNumber entry) { return !struck.contains(entry); });
}

void Signatures::take_strike(EntryNumber target) {
    take_start(target);
    const bool was_signature = take_away(record_, target);
    const bool of_list = take_away(lists_, target);
    if (was_signature || of_list) return;
    record_ = {};
    lists_from(target);
}

void Signatures::sign(Signer by) {
    if (record_[index(by)] == 0) record_[index(by)] = last_;
    const bool of_list =
        std::find(list_signers.begin(), list_signers.end(), by) != list_signers.end();
    if (!begun_ && of_list && lists_[index(by)] == 0) lists_[index(by)] = last_;
}

void Signatures::list_changed(Team team) noexcept {
    list_[team] = last_;
    const bool a = team == Team::A;
    lists_[index(a ? Signer::captain_a : Signer::captain_b)] = 0;
    lists_[index(a ? Signer::coach_a : Signer::coach_b)] = 0;
}

/// The entry that holds a list, or brought it last, was changed.
void Signatures::lists_from(EntryNumber target) noexcept {
    for (const Team team : {Team::A, Team::B})
        if (target != 0 && list_[team] == target) list_changed(team);
}

SignerSet Signatures::set_of(const Given& given) noexcept {
    SignerSet set;
    for (std::size_t i = 0; i < given.size(); ++i)
        if (given[i] != 0) set.add(static_cast<Signer>(i));
    return set;
}

bool Signatures::take_away(Given& given, EntryNumber entry) noexcept {
    const auto found = entry == 0 ? given.end() : std::find(given.begin(), given.end(), entry);
    if (found == given.end()) return false;
    *found = 0;
    return true;
}

}  // namespace courthand
