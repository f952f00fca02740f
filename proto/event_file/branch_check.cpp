#include "event_file/branch_check.h"

#include <fmt/format.h>

#include <variant>

#include "event_file/record_check.h"

namespace courthand::event_file {

void BranchCheck::fault(std::uint32_t line, const BranchLine& entry, const std::string& what) {
    if (faults_.size() >= most_faults) return;
    faults_.push_back({line,
                       fmt::format("entry {} on branch {} of match {} {}", entry.number,
                                   entry.branch, match_.to_text(), what),
                       "compare with another copy of the record: the database it came from, or an "
                       "earlier export"});
}

void BranchCheck::take(std::uint32_t line, const BranchLine& entry) {
    hashes_.push_back(entry.hash);
    if (!seen_.insert(entry.hash).second)
        fault(line, entry, "is there twice, in the record or on a branch");
    if (wire::sha256(entry.bytes) != entry.hash)
        return fault(line, entry, "was changed: its bytes are not those of its hash");
    const auto read = wire::read_entry(entry.bytes);
    if (const auto* why = std::get_if<wire::Unreadable>(&read))
        return fault(line, entry, "cannot be read: " + why->text());
    check_header(line, entry, std::get<wire::ReadEntry>(read).header());
}

void BranchCheck::check_header(std::uint32_t line, const BranchLine& entry,
                               const wire::EntryHeader& header) {
    if (header.match_id != match_)
        fault(line, entry, "belongs to another record, " + header.match_id.to_text());
    if (header.seq != entry.number)
        fault(line, entry, fmt::format("says of itself that it is entry {}", header.seq));
    const std::pair writer{header.device_id, header.epoch};
    const auto [known, first] = writers_.emplace(entry.branch, writer);
    if (!first && known->second != writer)
        fault(line, entry, "is of another device or epoch than its branch");
}

}  // namespace courthand::event_file
