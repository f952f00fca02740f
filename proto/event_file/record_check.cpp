#include "event_file/record_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace courthand::event_file {
namespace {

constexpr const char* take_the_original =
    "compare with another copy of the record: the database it came from, or an earlier export";

}  // namespace

RecordCheck::RecordCheck(const wire::Uuid& record, std::string noun, std::string whose)
    : record_{record}, noun_{std::move(noun)}, whose_{std::move(whose)} {
    head_.hash = wire::sha256(record.to_bytes());
}

std::string RecordCheck::named(std::uint32_t number) const {
    return fmt::format("{} {}{}", noun_, number, whose_);
}

void RecordCheck::fault(std::uint32_t line, std::string message, std::string cure) {
    if (faults_.size() < most_faults)
        faults_.push_back({line, std::move(message), std::move(cure)});
}

void RecordCheck::take(const Entry& entry) {
    check_bytes(entry);
    lines_.emplace(entry.number, entry.line);
    if (entry.number == wanted_)
        check_link(entry);
    else if (jumps_.size() < most_faults)
        jumps_.push_back({entry.line, wanted_, entry.number});
    wanted_ = entry.number + 1;
    head_ = {entry.number, entry.stated};
}

void RecordCheck::check_bytes(const Entry& entry) {
    if (entry.found != entry.stated)
        return fault(
            entry.line,
            fmt::format("{} was changed: its bytes are not those of its hash", named(entry.number)),
            take_the_original);
    if (!entry.header)
        return fault(entry.line,
                     fmt::format("{} cannot be read: {}", named(entry.number), entry.unreadable),
                     "if a newer program has written the file, check it with that one");
    if (entry.header->match_id != record_)
        fault(entry.line,
              fmt::format("{} belongs to another record, {}", named(entry.number),
                          entry.header->match_id.to_text()),
              take_the_original);
    if (entry.header->seq != entry.number)
        fault(entry.line,
              fmt::format("{} says of itself that it is {} {}", named(entry.number), noun_,
                          entry.header->seq),
              take_the_original);
    if (entry.header->epoch < epoch_)
        fault(entry.line,
              fmt::format("{} has writer epoch {} after epoch {}", named(entry.number),
                          entry.header->epoch, epoch_),
              take_the_original);
    epoch_ = std::max(epoch_, entry.header->epoch);
}

void RecordCheck::check_link(const Entry& entry) {
    if (!entry.header || entry.found != entry.stated || entry.header->prev_hash == head_.hash)
        return;
    const std::string before =
        head_.seq == 0 ? std::string{"the id of the record"} : named(head_.seq);
    fault(entry.line,
          fmt::format("{} was written after other bytes than those of {}: one of the two was "
                      "changed",
                      named(entry.number), before),
          take_the_original);
}

Fault RecordCheck::told(const Jump& jump) const {
    const auto elsewhere = lines_.find(jump.wanted);
    const auto first = lines_.find(jump.came);
    if (first != lines_.end() && first->second < jump.line)
        return {jump.line,
                fmt::format("{} is there twice, first on line {}", named(jump.came), first->second),
                take_the_original};
    if (elsewhere != lines_.end())
        return {jump.line,
                fmt::format("{} stands where {} is expected, which stands on line {}: the order "
                            "was changed",
                            named(jump.came), named(jump.wanted), elsewhere->second),
                "put the lines back into the order of their numbers"};
    const std::string missing =
        jump.came > jump.wanted + 1
            ? fmt::format("{} to {} are missing", named(jump.wanted), jump.came - 1)
            : fmt::format("{} is missing", named(jump.wanted));
    return {jump.line, fmt::format("{} before {}", missing, named(jump.came)), take_the_original};
}

std::vector<Fault> RecordCheck::faults() const {
    std::vector<Fault> all = faults_;
    for (const Jump& jump : jumps_) all.push_back(told(jump));
    return all;
}

}  // namespace courthand::event_file
