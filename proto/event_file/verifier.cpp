#include "event_file/verifier.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "courthand/event/fold.h"
#include "wire/event_entry.h"

namespace courthand::event_file {
namespace {

constexpr const char* take_the_original =
    "compare with another copy of the record: the database it came from, or an earlier export";
constexpr const char* export_again = "take the file as it was exported, or export the event again";

/// An entry of a record as `RecordCheck` wants it.
template <class Read>
RecordCheck::Entry entry_of(std::uint32_t line, std::uint32_t number, const wire::Hash& stated,
                            const std::string& bytes,
                            const std::variant<Read, wire::Unreadable>& read) {
    RecordCheck::Entry entry{line, number, stated, wire::sha256(bytes), {}, {}};
    if (const auto* why = std::get_if<wire::Unreadable>(&read))
        entry.unreadable = why->text();
    else
        entry.header = std::get<Read>(read).header();
    return entry;
}

}  // namespace

std::string beside_words(const Verdict& verdict) {
    return verdict.beside == 0 ? std::string{}
                               : fmt::format(", and {} on branches", verdict.beside);
}

Verifier::Verifier() = default;
Verifier::~Verifier() = default;

void Verifier::fault(std::uint32_t line, std::string message, std::string cure) {
    if (verdict_.is == Verdict::Is::whole) verdict_.is = Verdict::Is::changed;
    verdict_.faults.push_back({line, std::move(message), std::move(cure)});
}

void Verifier::unreadable(Fault why) {
    verdict_.is = Verdict::Is::unreadable;
    verdict_.faults.push_back(std::move(why));
}

void Verifier::take(std::string_view text) {
    stopped_ = stopped_ || verdict_.faults.size() >= most_faults;
    if (stopped_) return;
    ++line_;
    auto read = read_line(text, line_);
    if (auto* why = std::get_if<Fault>(&read)) {
        stopped_ = line_ == 1;
        if (stopped_) why->message = "this is no event file: " + why->message;
        unreadable(std::move(*why));
    } else if (const Line& line = std::get<Line>(read); begun(line)) {
        if (ended_) fault(line_, "this line stands behind the end of the file", export_again);
        std::visit([&](const auto& kind) { take(kind); }, line);
    }
    hash_.add(text);
    hash_.add("\n");
}

bool Verifier::begun(const Line& line) {
    if (facts_ || std::holds_alternative<HeadLine>(line)) return true;
    stopped_ = true;
    unreadable({line_, "this is no event file: its first line does not say which event it is",
                export_again});
    return false;
}

void Verifier::take(const HeadLine& line) {
    if (line.version != version) {
        stopped_ = true;
        unreadable({line_,
                    fmt::format("the file has version {}, and this program knows version {}",
                                line.version, version),
                    "check it with the program that wrote it, or a newer one"});
        return;
    }
    if (facts_) return fault(line_, "the head of the file is there twice", export_again);
    verdict_.tournament = line.tournament;
    verdict_.name = line.name;
    facts_ = std::make_unique<RecordCheck>(line.tournament, "fact", "");
}

void Verifier::take(const FactLine& line) {
    if (!matches_.empty())
        fault(line_, fmt::format("fact {} stands behind a match", line.number),
              "put the facts before the matches");
    if (fact_hashes_.size() == event::most_facts)
        return fault(line_, fmt::format("there are more than {} facts", event::most_facts),
                     take_the_original);
    const auto read = wire::read_event_entry(line.bytes);
    facts_->take(entry_of(line_, line.number, line.hash, line.bytes, read));
    fact_hashes_.push_back(line.hash);
    const auto* entry = std::get_if<wire::ReadEventEntry>(&read);
    if (entry == nullptr) return;
    check_beside(line, entry->beside());
    said_.push_back(entry->fact());
    const auto* result = std::get_if<event::ResultConfirmed>(&entry->fact());
    if (result && event::is_from_record(result->from))
        wanted_ends_[{wire::Uuid{result->record.bytes}, result->head.bytes}] = line.number;
}

void Verifier::check_beside(const FactLine& line, const std::optional<wire::Hash>& sealed) {
    const auto wrong = [&](std::string what) {
        fault(line_, fmt::format("fact {}: {}", line.number, what), take_the_original);
    };
    if (line.beside.state == Beside::State::words) {
        v1::BesideWords words;
        words.set_salt(line.beside.salt);
        words.set_text(line.beside.text);
        if (!sealed || wire::beside_hash(words) != *sealed)
            wrong("the words beside it were changed: it was sealed with others");
    } else if (line.beside.state == Beside::State::none) {
        if (sealed) wrong("the words beside it are missing and are not marked as erased");
    } else if (!sealed) {
        wrong("no words stood beside it, so that none can be erased");
    }
}

void Verifier::take(const MatchLine& line) {
    const auto id = wire::Uuid::from_bytes(line.plan.match_id()).value_or(wire::Uuid{});
    if (const auto why = wire::limit_broken(line.plan))
        fault(line_, fmt::format("match {}: {}", id.to_text(), why->text()), take_the_original);
    matches_.push_back(std::make_unique<MatchCheck>(MatchCheck{
        RecordCheck{id, "entry", fmt::format(" of match {}", id.to_text())}, BranchCheck{id}}));
    ++verdict_.matches;
}

void Verifier::take(const EntryLine& line) {
    if (matches_.empty() || matches_.back()->record.record() != line.match)
        return fault(line_,
                     fmt::format("entry {} of match {} does not stand behind its match",
                                 line.number, line.match.to_text()),
                     "put it back behind the line of its match and the entries before it");
    matches_.back()->record.take(
        entry_of(line_, line.number, line.hash, line.bytes, wire::read_entry(line.bytes)));
    matches_.back()->branches.recorded(line.hash);
    wanted_ends_.erase({line.match, line.hash});
    ++verdict_.entries;
}

void Verifier::take(const BranchLine& line) {
    if (matches_.empty() || matches_.back()->record.record() != line.match)
        return fault(
            line_,
            fmt::format("entry {} on branch {} of match {} does not stand behind its match",
                        line.number, line.branch, line.match.to_text()),
            "put it back behind the line of its match and the entries of its record");
    matches_.back()->branches.take(line_, line);
    ++verdict_.beside;
}

void Verifier::take(const event::Drawn& line) {
    draws_.push_back({line_, line});
}
void Verifier::take(const event::PoolPlaces& line) {
    pools_.push_back({line_, line});
}
void Verifier::take(const event::FinalPlaces& line) {
    finals_.push_back({line_, line});
}

void Verifier::take(const RecordLine& line) {
    if (!heads_.emplace(line.record, Placed<RecordLine>{line_, line}).second)
        fault(line_, fmt::format("the end of record {} is there twice", line.record.to_text()),
              export_again);
}

void Verifier::take(const EndLine& line) {
    ended_ = true;
    verdict_.end = line.hash;
    if (line.lines != line_ - 1)
        fault(line_,
              fmt::format("{} lines stand before the end, and {} were written", line_ - 1,
                          line.lines),
              export_again);
    else if (RunningHash& before = hash_; before.end() != line.hash)
        fault(line_,
              "the lines before this one are not those that were written: where no record or place "
              "is at fault, the plan of a match, words beside a fact or a signature was changed",
              "compare with another export of the event");
}

// --- once all was read --------------------------------------------------------------------------

bool Verifier::facts_hold() const {
    return facts_->faults().empty();
}

void Verifier::check_head(const RecordCheck& record, const BesideRecord& beside,
                          const std::string& whose) {
    const auto stated = heads_.find(record.record());
    if (stated == heads_.end())
        return fault(0, fmt::format("the end of {} is not told", whose), export_again);
    const Placed<RecordLine> end = stated->second;
    heads_.erase(stated);
    if (const wire::Head& told = end.said.head; told != record.head())
        fault(end.line,
              record.head().seq < told.seq
                  ? fmt::format("{} ends with entry {} here, and it had {}", whose,
                                record.head().seq, told.seq)
                  : fmt::format("{} does not end with the hash that is told here", whose),
              take_the_original);
    if (const BesideRecord& told = end.said.beside; told != beside)
        fault(end.line,
              beside.entries != told.entries
                  ? fmt::format("{} entries lie on branches of {} here, and there were {}",
                                beside.entries, whose, told.entries)
                  : fmt::format("the entries on branches of {} are others, or in another order",
                                whose),
              take_the_original);
}

void Verifier::check_heads() {
    check_head(*facts_, {}, "the record of the tournament");
    for (const auto& match : matches_)
        check_head(match->record, match->branches.told(),
                   fmt::format("the record of match {}", match->record.record().to_text()));
    for (const auto& [record, end] : heads_)
        fault(end.line, fmt::format("record {} is told of and is not there", record.to_text()),
              take_the_original);
}

void Verifier::check_results() {
    for (const auto& [end, number] : wanted_ends_) {
        if (!state_.counts[number - 1]) continue;
        const auto& result = std::get<event::ResultConfirmed>(state_.facts[number - 1]);
        fault(0,
              fmt::format("fact {}: the result of {} rests on an entry of record {} that is not in "
                          "the file",
                          number, result.match, end.first.to_text()),
              take_the_original);
    }
}

template <class Said, class Name>
void Verifier::compare(const std::vector<Placed<Said>>& stated, const std::vector<Said>& found,
                       Name name, std::string_view what) {
    std::vector<bool> met(stated.size(), false);
    for (const Said& one : found) {
        const auto same = std::find_if(stated.begin(), stated.end(), [&](const auto& placed) {
            return name(placed.said) == name(one);
        });
        if (same == stated.end()) {
            fault(0, fmt::format("{} {} is not told", what, name(one)), export_again);
            continue;
        }
        met[static_cast<std::size_t>(same - stated.begin())] = true;
        if (same->said != one)
            fault(same->line,
                  fmt::format("{} {} is wrong: the facts of the event give another one", what,
                              name(one)),
                  fmt::format("the right one is: {}", written(one)));
    }
    for (std::size_t i = 0; i < stated.size(); ++i)
        if (!met[i])
            fault(stated[i].line,
                  fmt::format("{} {} is told, and the facts give none, or it is there twice", what,
                              name(stated[i].said)),
                  export_again);
}

void Verifier::check_summary() {
    const event::Summary found = event::summary(state_);
    compare(
        draws_, found.draws, [](const auto& draw) { return draw.division; }, "the draw of");
    compare(
        pools_, found.pools,
        [](const auto& pool) { return fmt::format("{} in {}", pool.pool, pool.division); },
        "the order of pool");
    compare(
        finals_, found.finals, [](const auto& finals) { return finals.division; },
        "the list of final places of");
}

Verdict Verifier::finish() {
    if (line_ == 0) unreadable({0, "this is no event file: it is empty", export_again});
    if (facts_ && !stopped_) {
        std::vector<Fault> records = facts_->faults();
        for (const auto& match : matches_) {
            for (const auto& more : {match->record.faults(), match->branches.faults()})
                records.insert(records.end(), more.begin(), more.end());
        }
        for (Fault& one : records) fault(one.line, std::move(one.message), std::move(one.cure));
        check_heads();
        // Of a record that does not hold, what follows from it is of no use.
        if (facts_hold() && verdict_.is != Verdict::Is::unreadable) {
            // Once for all: a fact that takes back another would fold everything anew.
            state_ = event::fold(said_);
            check_results();
            check_summary();
        }
        if (!ended_)
            fault(0, "the file has no end: it was cut off", "copy it again, or export the event");
        verdict_.head = facts_->head();
    }
    std::stable_sort(verdict_.faults.begin(), verdict_.faults.end(),
                     [](const Fault& a, const Fault& b) { return a.line < b.line; });
    if (verdict_.faults.size() > most_faults) verdict_.faults.resize(most_faults);
    return std::move(verdict_);
}

std::optional<std::uint32_t> Verifier::fact_of_hash(std::string_view hex) const {
    for (std::size_t i = 0; i < fact_hashes_.size(); ++i)
        if (wire::to_hex(fact_hashes_[i]).starts_with(hex))
            return static_cast<std::uint32_t>(i + 1);
    return std::nullopt;
}

void take_lines(std::istream& file, Verifier& verifier) {
    // Room for a line that is too long by one byte, and for the end of the text.
    std::string room(most_line_bytes + 2, '\0');
    while (file.getline(room.data(), static_cast<std::streamsize>(room.size())) ||
           file.gcount() > 0) {
        // What stands there may hold a zero byte: its length is what was read, less the line end.
        const auto size = static_cast<std::size_t>(file.gcount()) - (file.good() ? 1 : 0);
        verifier.take(std::string_view{room}.substr(0, size));
        if (file.fail() && !file.eof()) return;
    }
}

Verdict verify(std::istream& file) {
    Verifier verifier;
    take_lines(file, verifier);
    return verifier.finish();
}

}  // namespace courthand::event_file
