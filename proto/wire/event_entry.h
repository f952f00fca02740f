// One entry of the record of a tournament: its exact bytes, their hash, and what they say. Made by
// `read_event_entry` from bytes and by `seal_event` for a new one, as for a match
// (wire/read_entry.h); the same `Chain` walks along both, since their headers are alike.
#pragma once

#include <memory>
#include <string>
#include <variant>

#include "courthand/event/fact.h"
#include "courthand/v1/tournament.pb.h"
#include "wire/read_entry.h"

namespace courthand::wire {

/// One entry: 64 sources of the longest names, three to an entrant, are under 13 KiB.
inline constexpr std::size_t most_event_entry_bytes = 16 * 1024;
inline constexpr std::size_t salt_bytes = 16;

class ReadEventEntry {
  public:
    [[nodiscard]] const std::string& bytes() const noexcept { return *bytes_; }
    [[nodiscard]] const std::shared_ptr<const std::string>& shared_bytes() const noexcept {
        return bytes_;
    }
    [[nodiscard]] const Hash& hash() const noexcept { return hash_; }
    /// As of a match: its match id is the tournament's, its epoch is 1.
    [[nodiscard]] const EntryHeader& header() const noexcept { return header_; }
    [[nodiscard]] const std::string& author() const noexcept { return author_; }
    /// Hash of the words beside the entry; none: there are none.
    [[nodiscard]] const std::optional<Hash>& beside() const noexcept { return beside_; }
    [[nodiscard]] const event::Fact& fact() const noexcept { return fact_; }
    /// Of the record that ends with this entry.
    [[nodiscard]] Head head() const noexcept { return {header_.seq, hash_}; }

  private:
    friend std::variant<ReadEventEntry, Unreadable> read_event_entry(std::string bytes);
    friend std::variant<ReadEventEntry, Unreadable> seal_event(v1::TournamentEntry entry,
                                                               const Head& head, Hasher& hasher);
    ReadEventEntry(std::string bytes, const Hash& hash, const v1::TournamentEntry& entry,
                   event::Fact fact);

    std::shared_ptr<const std::string> bytes_;
    Hash hash_;
    EntryHeader header_;
    std::string author_;
    std::optional<Hash> beside_;
    event::Fact fact_;
};

/// An entry that was kept or arrives: within its limits, and with a fact that this version knows.
[[nodiscard]] std::variant<ReadEventEntry, Unreadable> read_event_entry(std::string bytes);

/// Gives `entry` its number and prev_hash and serializes it. Everything else must be set; what is
/// missing or out of bounds comes back as an error and nothing has happened.
[[nodiscard]] std::variant<ReadEventEntry, Unreadable> seal_event(v1::TournamentEntry entry,
                                                                  const Head& head, Hasher& hasher);

/// The first bound that an entry breaks: ids, hashes, author. The fact is checked by `from_proto`.
[[nodiscard]] std::optional<Unreadable> limit_broken(const v1::TournamentEntry& entry);

/// Hash of words beside an entry: of the salt, then of the text.
[[nodiscard]] Hash beside_hash(const v1::BesideWords& words);

/// Whether words belong to an entry. Erased ones are no words and belong to any.
[[nodiscard]] std::optional<Unreadable> beside_broken(const ReadEventEntry& entry,
                                                      const v1::TournamentEntryBytes& kept);

}  // namespace courthand::wire
