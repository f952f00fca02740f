#include "server/domain/folded_match.h"

#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

#include "courthand/rules/judge.h"
#include "courthand/rules/profile.h"
#include "server/domain/fault_log.h"
#include "server/domain/record_start.h"
#include "wire/fact_convert.h"
#include "wire/fold_record.h"

namespace courthand::server {

/// Without a profile nothing can be folded; the bytes are kept all the same.
struct FoldedMatch::Fold {
    std::optional<wire::RecordFold> fold;
    MatchRecord record;
    std::map<EntryNumber, TeamWords> words;  ///< of the team lists
    Signatures signatures;
};

namespace {

bool same_description(const StoredMatch& stored, const LiveMatch& live) {
    const MatchPlan& a = stored.plan;
    const MatchPlan& b = live.plan;
    return a.name == b.name && a.number == b.number && a.court == b.court && a.first == b.first &&
           a.second == b.second && a.profile == b.profile && a.status == b.status &&
           a.format == b.format && a.scheduled_at == b.scheduled_at &&
           stored.head.epoch == live.head.epoch && stored.head.grant == live.head.grant &&
           stored.head.writer == live.head.writer && stored.asked == live.asked &&
           stored.branches == live.branches;
}

TeamWords words_of(const v1::FactText& text) {
    return {text.team_name(), text.club(), text.colour()};
}

TeamWords words_of(const std::string* bytes) {
    if (bytes == nullptr) return {};
    const auto entry = wire::parse_entry(*bytes);
    const v1::Fact* fact = entry ? wire::fact_of(*entry) : nullptr;
    return fact == nullptr ? TeamWords{} : words_of(fact->text());
}

}  // namespace

FoldedMatch::FoldedMatch(const StoredMatch& match) {
    live_.key = match.plan.key;
    live_.head.hash = start_hash(match.plan.key.match);
    live_.plan = match.plan;
    describe(match);
    open_fold();
}

FoldedMatch::FoldedMatch(LiveMatch live) : live_{std::move(live)} {}

FoldedMatch::~FoldedMatch() = default;
FoldedMatch::FoldedMatch(FoldedMatch&&) noexcept = default;
FoldedMatch& FoldedMatch::operator=(FoldedMatch&&) noexcept = default;

bool FoldedMatch::describe(const StoredMatch& match) {
    const bool changed = !same_description(match, live_);
    // The end of the record comes from the entries that were folded, not from the row.
    const EntryNumber last = live_.head.last;
    const Hash hash = live_.head.hash;
    live_.plan = match.plan;
    live_.head = match.head;
    live_.head.last = last;
    live_.head.hash = hash;
    live_.asked = match.asked;
    live_.branches = match.branches;
    return changed;
}

void FoldedMatch::add_branch(std::uint32_t branch) {
    const auto at = std::lower_bound(live_.branches.begin(), live_.branches.end(), branch);
    if (at == live_.branches.end() || *at != branch) live_.branches.insert(at, branch);
}

void FoldedMatch::rest() {
    live_.record.reset();
    fold_.reset();
}

void FoldedMatch::go_on(FoldedMatch&& folded) {
    assert(folded.live_.head.last == live_.head.last);
    fold_ = std::move(folded.fold_);
    live_.record = std::move(folded.live_.record);
}

void FoldedMatch::give_up_at(EntryNumber missing) {
    live_.unreadable = "entry " + std::to_string(missing) +
                       " of the record is not in the database; put it back from a backup";
}

void FoldedMatch::give_up_by_own_fault() {
    met_own_fault_ = true;
    if (!live_.unreadable.empty()) return;
    live_.unreadable = "the server met a fault of its own behind entry " +
                       std::to_string(live_.head.last) +
                       "; all entries are kept, look at its log and bring it to another version";
}

void FoldedMatch::open_fold() {
    fold_ = std::make_shared<Fold>();
    live_.record = {fold_, &fold_->record};
    live_.profile = find_profile(live_.plan.profile);
    if (live_.profile == nullptr) {
        live_.unreadable = "rule profile " + live_.plan.profile + " is not known here";
        return;
    }
    live_.unreadable.clear();
    fold_->fold.emplace(wire::Uuid{live_.key.match.value.bytes}, live_.profile->rules);
}

FoldedMatch::Appended FoldedMatch::append(const NewEntry& entry) {
    assert(entry.number == live_.head.last + 1 && !rests());
    MatchRecord& record = fold_->record;
    // What may throw comes first: either the entry is in the record or nothing has happened.
    record.bytes.push_back(entry.bytes);
    live_.head.last = entry.number;
    live_.head.hash = entry.hash;
    live_.last_entry_at = entry.stored_at;
    assert(record.bytes.size() == live_.head.last);
    if (!fold_->fold || !live_.unreadable.empty()) return {};
    try {
        return fold_entry(entry);
    } catch (...) {
        log_current_exception("the fold of match " + to_text(live_.key.match));
        show_folded(live_.head.last - 1);
        give_up_by_own_fault();
        Appended appended;
        appended.threw = true;
        return appended;
    }
}

FoldedMatch::Appended FoldedMatch::fold_entry(const NewEntry& entry) {
    Appended appended;
    MatchRecord& record = fold_->record;
    wire::RecordFold& fold = *fold_->fold;
    const std::size_t before = fold.verdicts().size();
    if (const auto fault = entry.read ? fold.add(*entry.read) : fold.add(*entry.bytes)) {
        live_.unreadable = fault->message();
        return appended;
    }
    show_folded(entry.number);
    const Fact* const fact = std::get_if<Fact>(&fold.records().back());
    if (entry.read && fact != nullptr && std::holds_alternative<Roster>(*fact))
        fold_->words.insert_or_assign(entry.number, words_of(entry.read->text()));
    live_.state = fold.state();
    live_.standing = standing(live_.profile->rules, live_.state);
    fold_->signatures.take(fold.records().back());
    const bool was_closed = live_.closed();
    live_.signed_by = signed_result(live_.state, fold_->signatures);
    if (!live_.closed())
        live_.closed_at = {};
    else if (!was_closed)
        live_.closed_at = entry.stored_at;
    appended.corrected = fold.refolded();
    if (appended.corrected) {
        live_.words = {};
        live_.protested = false;
        note_counting(effective(record.records).entries);
        return appended;
    }
    const Entry added{entry.number, std::get<Fact>(record.records.back())};
    note_counting({&added, 1});
    const auto& verdicts = fold.verdicts();
    for (std::size_t i = before; i < verdicts.size(); ++i)
        appended.raised.push_back({verdicts[i].at, verdicts[i].verdict});
    return appended;
}

// What the fold holds may have moved in memory, also when it threw.
void FoldedMatch::show_folded(EntryNumber last) {
    const wire::FactFold& facts = fold_->fold->facts();
    MatchRecord& record = fold_->record;
    const std::span<const Record> records = facts.records();
    record.records = records.first(std::min<std::size_t>(records.size(), last));
    record.steps = facts.steps();
    record.verdicts = facts.verdicts();
}

TeamWords FoldedMatch::words_in(EntryNumber entry) const {
    const auto known = fold_->words.find(entry);
    return known != fold_->words.end() ? known->second : words_of(fold_->record.bytes_of(entry));
}

void FoldedMatch::note_counting(std::span<const Entry> entries) {
    for (const Entry& entry : entries) {
        if (const auto* roster = std::get_if<Roster>(&entry.fact))
            live_.words[roster->team] = words_in(entry.number);
        live_.protested = live_.protested || std::holds_alternative<Protest>(entry.fact);
    }
}

}  // namespace courthand::server
