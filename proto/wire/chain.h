// The hash chain of one match: numbers without a gap, each entry holding the hash of the one
// before.
//
// A chain shows that nothing was changed, left out or put in another order since it was written. It
// does not show who wrote it: that is the matter of device certificates and of the signed record.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "wire/read_entry.h"
#include "wire/uuid.h"

namespace courthand::wire {

/// The first link that does not hold.
struct ChainFault {
    enum class Kind : std::uint8_t {
        unreadable,    ///< the bytes are no entry
        other_match,   ///< the entry belongs to another match
        gap,           ///< its number is not the next one
        other_parent,  ///< its prev_hash is not the hash of the entry before
        epoch_back,    ///< its writer epoch is lower than that of the entry before
    };
    Kind kind = Kind::unreadable;
    std::size_t index = 0;  ///< of the bad entry in the span, from 0
    std::uint32_t seq = 0;  ///< its number as it says itself; 0 when unreadable
    std::string message;    ///< for people, names the place
};

/// Walks along a chain. Not thread-safe.
class Chain {
  public:
    /// An empty record of a match.
    explicit Chain(const Uuid& match_id);
    /// A record whose first `head.seq` entries were checked before.
    Chain(const Uuid& match_id, const Head& head, std::uint32_t epoch);

    /// Checks the next entry and moves the head to it, or says why not and moves nothing.
    [[nodiscard]] std::optional<ChainFault> append(std::string_view bytes);
    /// The same for an entry that was read: what it says of itself, and the hash of its bytes.
    [[nodiscard]] std::optional<ChainFault> append(const EntryHeader& entry, const Hash& hash);

    [[nodiscard]] const Head& head() const noexcept { return head_; }
    [[nodiscard]] std::uint32_t epoch() const noexcept { return epoch_; }

  private:
    /// What keeps this entry from being the next one.
    [[nodiscard]] std::optional<ChainFault> broken_link(const EntryHeader& entry) const;
    [[nodiscard]] ChainFault fault(ChainFault::Kind kind, std::uint32_t seq,
                                   std::string message) const;

    Uuid match_id_;
    Head head_;
    std::uint32_t epoch_ = 0;
    std::size_t walked_ = 0;
};

/// Checks a whole record from its first entry; the first fault, or nothing.
[[nodiscard]] std::optional<ChainFault> verify(const Uuid& match_id,
                                               std::span<const std::string> entries);

}  // namespace courthand::wire
