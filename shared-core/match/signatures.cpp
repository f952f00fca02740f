#include "courthand/match/signatures.h"

#include <algorithm>
#include <map>
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

bool begins_set(const Fact& fact) {
    return std::holds_alternative<SetStarted>(fact);
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
    if (const auto* const insert = std::get_if<Insert>(&record)) {
        if (insert->after == 0 || holds_fact(insert->after))
            note_start(insert->fact);
        else
            without_fact_.push_back(last_);
        return take_changed(insert->fact);
    }
    const Amend& amend = std::get<Amend>(record);
    take_away(lists_, amend.target);
    lists_from(amend.target);
    without_fact_.push_back(last_);
    changes_.push_back({last_, amend.target, begins_set(amend.fact) ? Says::begun : Says::other});
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
}

/// An earlier entry, and not a correction without one.
bool Signatures::holds_fact(EntryNumber entry) const {
    return entry != 0 && entry < last_ &&
           !std::binary_search(without_fact_.begin(), without_fact_.end(), entry);
}

void Signatures::note_start(const Fact& fact) {
    if (begins_set(fact)) starts_.push_back(last_);
}

/// As `effective` has it: what is struck says nothing, whatever it was amended to; a strike may
/// itself be struck, so the last word is found from the end; the latest amendment counts.
bool Signatures::begun() const {
    std::set<EntryNumber> struck;
    for (auto one = changes_.rbegin(); one != changes_.rend(); ++one) {
        const bool strikes = one->says == Says::nothing && one->target < one->by;
        if (strikes && !struck.contains(one->by)) struck.insert(one->target);
    }
    std::map<EntryNumber, Says> says;
    for (const EntryNumber entry : starts_) says[entry] = Says::begun;
    for (const Change& one : changes_)
        if (one.says != Says::nothing && one.target < one.by && holds_fact(one.target) &&
            !struck.contains(one.by))
            says[one.target] = one.says;
    return std::any_of(says.begin(), says.end(), [&](const auto& entry) {
        return entry.second == Says::begun && !struck.contains(entry.first);
    });
}

void Signatures::take_strike(EntryNumber target) {
    without_fact_.push_back(last_);
    changes_.push_back({last_, target, Says::nothing});
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
    if (of_list && lists_[index(by)] == 0 && !begun()) lists_[index(by)] = last_;
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
