#include "event_file/event_writer.h"

#include <cassert>
#include <utility>

#include "courthand/event/fold.h"
#include "wire/event_entry.h"

namespace courthand::event_file {

EventWriter::EventWriter(Sink sink, const wire::Uuid& tournament, std::string_view name)
    : sink_{std::move(sink)} {
    write(HeadLine{version, tournament, std::string{name}});
    heads_.push_back({tournament, {0, wire::sha256(tournament.to_bytes())}, {}});
}

void EventWriter::write(const Line& line) {
    const std::string text = written(line) + '\n';
    hash_.add(text);
    ++lines_;
    sink_(text);
}

void EventWriter::fact(std::string bytes, const std::optional<Beside>& words) {
    assert(heads_.size() == 1);
    FactLine line;
    line.number = heads_.front().head.seq + 1;
    line.hash = wire::sha256(bytes);
    const auto read = wire::read_event_entry(bytes);
    const auto* entry = std::get_if<wire::ReadEventEntry>(&read);
    if (entry != nullptr) facts_.push_back(entry->fact());
    if (words)
        line.beside = *words;
    else if (entry != nullptr && entry->beside())
        line.beside.state = Beside::State::erased;
    line.bytes = std::move(bytes);
    heads_.front().head = {line.number, line.hash};
    write(line);
}

void EventWriter::match(const v1::Match& plan) {
    end_branches();
    const wire::Uuid id = wire::Uuid::from_bytes(plan.match_id()).value_or(wire::Uuid{});
    heads_.push_back({id, {0, wire::sha256(id.to_bytes())}, {}});
    write(MatchLine{plan});
}

void EventWriter::entry(std::uint32_t number, std::string bytes, std::string signature) {
    assert(heads_.size() > 1);
    RecordLine& record = heads_.back();
    EntryLine line{record.record, number, wire::sha256(bytes), std::move(bytes),
                   std::move(signature)};
    record.head = {number, line.hash};
    write(line);
}

void EventWriter::branch_entry(std::uint32_t branch, std::uint32_t number, std::string bytes,
                               std::string signature) {
    assert(heads_.size() > 1);
    BranchLine line{heads_.back().record, branch,           number,
                    wire::sha256(bytes),  std::move(bytes), std::move(signature)};
    beside_.push_back(line.hash);
    write(line);
}

void EventWriter::end_branches() {
    heads_.back().beside = beside_record(beside_);
    beside_.clear();
}

void EventWriter::finish() {
    end_branches();
    // Once for all: a fact that takes back another would fold everything anew.
    state_ = event::fold(facts_);
    const event::Summary summary = event::summary(state_);
    for (const event::Drawn& draw : summary.draws) write(draw);
    for (const event::PoolPlaces& pool : summary.pools) write(pool);
    for (const event::FinalPlaces& finals : summary.finals) write(finals);
    for (const RecordLine& record : heads_) write(record);
    sink_(written(EndLine{lines_, hash_.end()}) + '\n');
}

}  // namespace courthand::event_file
