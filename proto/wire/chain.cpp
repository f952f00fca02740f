#include "wire/chain.h"

#include <fmt/format.h>

#include <utility>

namespace courthand::wire {

Chain::Chain(const Uuid& match_id) : match_id_{match_id}, head_{0, sha256(match_id.to_bytes())} {}

Chain::Chain(const Uuid& match_id, const Head& head, std::uint32_t epoch)
    : match_id_{match_id}, head_{head}, epoch_{epoch} {}

ChainFault Chain::fault(ChainFault::Kind kind, std::uint32_t seq, std::string message) const {
    return {kind, walked_, seq, std::move(message)};
}

std::optional<ChainFault> Chain::append(std::string_view bytes) {
    const std::optional<v1::Entry> entry = parse_entry(bytes);
    if (!entry)
        return fault(
            ChainFault::Kind::unreadable, 0,
            fmt::format("the {} bytes after entry {} are no entry", bytes.size(), head_.seq));
    return append(header_of(*entry), sha256(bytes));
}

std::optional<ChainFault> Chain::append(const EntryHeader& entry, const Hash& hash) {
    if (auto broken = broken_link(entry)) return broken;
    head_ = {entry.seq, hash};
    epoch_ = entry.epoch;
    ++walked_;
    return std::nullopt;
}

std::optional<ChainFault> Chain::broken_link(const EntryHeader& entry) const {
    using Kind = ChainFault::Kind;
    if (entry.match_id != match_id_)
        return fault(Kind::other_match, entry.seq,
                     fmt::format("entry {} belongs to another match than {}", entry.seq,
                                 match_id_.to_text()));
    if (entry.seq != head_.seq + 1)
        return fault(Kind::gap, entry.seq,
                     fmt::format("entry {} follows entry {}; entry {} is expected", entry.seq,
                                 head_.seq, head_.seq + 1));
    if (entry.prev_hash != head_.hash)
        return fault(Kind::other_parent, entry.seq,
                     fmt::format("entry {} was written after other bytes than those kept as entry "
                                 "{}: one of the two was changed",
                                 entry.seq, head_.seq));
    if (entry.epoch < epoch_)
        return fault(Kind::epoch_back, entry.seq,
                     fmt::format("entry {} has writer epoch {} after epoch {}", entry.seq,
                                 entry.epoch, epoch_));
    return std::nullopt;
}

std::optional<ChainFault> verify(const Uuid& match_id, std::span<const std::string> entries) {
    Chain chain{match_id};
    for (const std::string& bytes : entries)
        if (auto fault = chain.append(bytes)) return fault;
    return std::nullopt;
}

}  // namespace courthand::wire
