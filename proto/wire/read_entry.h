// An entry that was read once: its exact bytes, their hash, and what they say. Whoever has one
// needs neither to parse nor to hash the bytes again. Made by `read_entry` from bytes and by `seal`
// for a new entry; the parts always belong together.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>

#include "courthand/match/entry.h"
#include "courthand/v1/entry.pb.h"
#include "courthand/v1/fact.pb.h"
#include "wire/message_limits.h"
#include "wire/sha256.h"
#include "wire/uuid.h"

namespace courthand::wire {

/// What an entry says of itself. An id or a hash that is not of its length is none: zeros.
struct EntryHeader {
    Uuid match_id;
    std::uint32_t epoch = 0;
    std::uint32_t seq = 0;
    Uuid entry_id;
    Uuid device_id;
    std::int64_t device_time_us = 0;
    Hash prev_hash{};
};

[[nodiscard]] EntryHeader header_of(const v1::Entry& entry);

/// The last entry of a record: what the next one builds on.
struct Head {
    std::uint32_t seq = 0;  ///< 0: the record is empty
    Hash hash{};            ///< of the last entry's bytes; of an empty record, of the match id
    friend bool operator==(const Head&, const Head&) = default;
};

class ReadEntry {
  public:
    [[nodiscard]] const std::string& bytes() const noexcept { return *bytes_; }
    /// For those who keep the bytes beyond this value.
    [[nodiscard]] const std::shared_ptr<const std::string>& shared_bytes() const noexcept {
        return bytes_;
    }
    [[nodiscard]] const Hash& hash() const noexcept { return hash_; }
    [[nodiscard]] const EntryHeader& header() const noexcept { return header_; }
    [[nodiscard]] const Record& record() const noexcept { return record_; }
    /// The words beside the fact; of a strike, none.
    [[nodiscard]] const v1::FactText& text() const noexcept {
        return text_ ? *text_ : v1::FactText::default_instance();
    }
    /// Of the record that ends with this entry.
    [[nodiscard]] Head head() const noexcept { return {header_.seq, hash_}; }

  private:
    friend std::variant<ReadEntry, Unreadable> read_entry(std::string bytes);
    friend std::variant<ReadEntry, Unreadable> read_arriving_entry(std::string bytes);
    friend std::variant<ReadEntry, Unreadable> seal(v1::Entry entry, const Head& head,
                                                    Hasher& hasher);

    /// `hash` is of `bytes`, `record` and `entry` are what they hold; its text is moved from.
    ReadEntry(std::string bytes, const Hash& hash, v1::Entry&& entry, const Record& record);

    std::shared_ptr<const std::string> bytes_;
    Hash hash_;
    EntryHeader header_;
    Record record_;
    std::optional<v1::FactText> text_;  ///< none when nothing was said, as with nearly every entry
};

/// An entry that was kept: its fact must be one that this version knows.
[[nodiscard]] std::variant<ReadEntry, Unreadable> read_entry(std::string bytes);

/// An entry that arrives: also its ids, hash and texts must be within their limits.
[[nodiscard]] std::variant<ReadEntry, Unreadable> read_arriving_entry(std::string bytes);

/// Gives `entry` its number and prev_hash and serializes it: from then on its bytes are what is
/// stored, sent and hashed. Everything else must be set; what is missing or out of bounds comes
/// back as an error and nothing has happened.
[[nodiscard]] std::variant<ReadEntry, Unreadable> seal(v1::Entry entry, const Head& head,
                                                       Hasher& hasher);

/// Head of a record without entries.
[[nodiscard]] Head genesis(const Uuid& match_id, Hasher& hasher);

/// The entry in the bytes, or nothing: they are empty, too many, or no entry.
[[nodiscard]] std::optional<v1::Entry> parse_entry(std::string_view bytes);

}  // namespace courthand::wire
