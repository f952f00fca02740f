// Checks one record, of the tournament or of a match, entry by entry as the file has them, and says
// of each fault which entry it is: changed, missing, out of order, or there twice.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "event_file/lines.h"

namespace courthand::event_file {

class RecordCheck {
  public:
    /// What its entries are called ("fact", "entry"), and whose they are (" of match …", or "").
    RecordCheck(const wire::Uuid& record, std::string noun, std::string whose);

    /// An entry as it stands in the file. `header`: what its bytes say of themselves; nothing when
    /// they cannot be read.
    struct Entry {
        std::uint32_t line = 0;
        std::uint32_t number = 0;
        wire::Hash stated{};
        wire::Hash found{};
        std::optional<wire::EntryHeader> header;
        std::string unreadable;  ///< why, without a header
    };
    void take(const Entry& entry);

    /// What is wrong once every entry was taken.
    [[nodiscard]] std::vector<Fault> faults() const;
    /// The entry that stands last.
    [[nodiscard]] const wire::Head& head() const noexcept { return head_; }
    [[nodiscard]] const wire::Uuid& record() const noexcept { return record_; }

  private:
    struct Jump {
        std::uint32_t line = 0;
        std::uint32_t wanted = 0;
        std::uint32_t came = 0;
    };
    [[nodiscard]] std::string named(std::uint32_t number) const;
    void fault(std::uint32_t line, std::string message, std::string cure);
    void check_bytes(const Entry& entry);
    void check_link(const Entry& entry);
    [[nodiscard]] Fault told(const Jump& jump) const;

    wire::Uuid record_;
    std::string noun_;
    std::string whose_;
    wire::Head head_;
    std::uint32_t wanted_ = 1;
    std::uint32_t epoch_ = 0;
    std::map<std::uint32_t, std::uint32_t> lines_;  ///< by number, where it stands first
    std::vector<Jump> jumps_;
    std::vector<Fault> faults_;
};

/// More is not listed: whoever mends a file starts with the first.
inline constexpr std::size_t most_faults = 100;

}  // namespace courthand::event_file
