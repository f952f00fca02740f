#include "wire/fold_record.h"

#include <fmt/format.h>

#include <utility>

#include "courthand/rules/judge.h"
#include "wire/fact_convert.h"
#include "wire/work_done.h"

namespace courthand::wire {

void FactFold::add(const Record& record) {
    records_.push_back(record);
    const Fact* fact = std::get_if<Fact>(&records_.back());
    refolded_ = fact == nullptr;
    if (refolded_)
        fold_again();
    else
        judge_next({static_cast<EntryNumber>(records_.size()), *fact});
}

void FactFold::fold_again() {
    Effective counting = effective(records_);
    state_ = {};
    steps_.clear();
    verdicts_.clear();
    without_effect_ = std::move(counting.without_effect);
    for (const Entry& entry : counting.entries) judge_next(entry);
}

void FactFold::judge_next(const Entry& entry) {
    count_judged();
    const SetState& set = state_.set;
    steps_.push_back({entry.number, set.number, set.score, set.rallies});
    VerdictList raised;
    apply(*rules_, state_, entry, raised);
    for (const Verdict& verdict : raised) verdicts_.push_back({entry.number, verdict});
}

RecordFold::RecordFold(const Uuid& match_id, const Rules& rules)
    : chain_{match_id}, facts_{rules} {}

RecordFault RecordFold::unreadable(const std::string& why) const {
    ChainFault fault;
    fault.index = records().size();
    fault.seq = static_cast<std::uint32_t>(records().size() + 1);
    fault.message = fmt::format("entry {}: {}", fault.seq, why);
    return {fault};
}

std::optional<RecordFault> RecordFold::add(std::string_view bytes) {
    const std::optional<v1::Entry> entry = parse_entry(bytes);
    if (!entry) return unreadable("the bytes are no entry");
    const std::variant<Record, Unreadable> record = from_proto(*entry);
    if (const auto* why = std::get_if<Unreadable>(&record)) return unreadable(why->text());
    return take(header_of(*entry), sha256(bytes), std::get<Record>(record));
}

std::optional<RecordFault> RecordFold::add(const ReadEntry& entry) {
    return take(entry.header(), entry.hash(), entry.record());
}

std::optional<RecordFault> RecordFold::take(const EntryHeader& header, const Hash& hash,
                                            const Record& record) {
    if (records().size() == most_entries)
        return unreadable(fmt::format("a record holds at most {} entries", most_entries));
    if (auto fault = chain_.append(header, hash)) return RecordFault{std::move(*fault)};
    last_device_ = header.device_id;
    facts_.add(record);
    return std::nullopt;
}

FoldedRecord fold_record(const Uuid& match_id, const Rules& rules,
                         std::span<const std::string> entries) {
    RecordFold fold{match_id, rules};
    FoldedRecord folded;
    for (const std::string& bytes : entries) {
        folded.fault = fold.add(bytes);
        if (folded.fault) break;
    }
    folded.state = fold.state();
    folded.verdicts = fold.verdicts();
    folded.without_effect = fold.without_effect();
    folded.head = fold.head();
    return folded;
}

}  // namespace courthand::wire
