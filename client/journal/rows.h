// The rows of a journal as values, each with a seal by which a damaged one is found out.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace courthand::client {

/// What has become of an entry on its way to the server.
enum class EntryStanding : std::uint8_t {
    waiting,       ///< the server does not have it, as far as we know
    acknowledged,  ///< part of the server's record
    on_branch,     ///< kept by the server beside the record; a person must choose
    refused,       ///< the server did not take it; offered again now and then
};

[[nodiscard]] std::string_view word(EntryStanding standing) noexcept;
/// An unknown word means waiting: sending once more does no harm.
[[nodiscard]] EntryStanding standing_of(std::string_view word) noexcept;

struct JournalEntry {
    std::string match_id;  ///< UUID text
    std::uint32_t epoch = 0;
    std::uint32_t seq = 0;  ///< from 1, no gap
    std::string entry_id;   ///< UUID text
    std::string prev_hash;  ///< 32 bytes; of the first entry: the hash of the match id
    std::string hash;       ///< SHA-256 of `bytes`
    std::string bytes;      ///< exactly as hashed, sent and exported
    EntryStanding standing = EntryStanding::waiting;
};

/// The signature of an entry by the device that made it, when that is another one: with it this
/// device may hand the entry on.
struct KeptSignature {
    std::string match_id;
    std::uint32_t seq = 0;
    std::string hash;       ///< of the entry that is signed, 32 bytes
    std::string signature;  ///< DER, up to `most_signature_bytes`
};

/// A match as the server described it; the bytes are read by client/session.
struct StoredMatch {
    std::string match_id;
    std::string sheet;
};

/// A row must fit into one page of the file, so that one bad page costs only its own rows.
inline constexpr std::size_t most_entry_bytes = 4096;
inline constexpr std::size_t most_sheet_bytes = 7000;
inline constexpr std::size_t most_setting_bytes = 4000;
/// The longest signature the wire format allows.
inline constexpr std::size_t most_signature_bytes = 80;

/// Seals: a hash of all that never changes in a row, kept in the row.
[[nodiscard]] std::int64_t seal(const JournalEntry& entry);
[[nodiscard]] std::int64_t seal(const KeptSignature& signature);
[[nodiscard]] std::int64_t seal(const StoredMatch& match);
[[nodiscard]] std::int64_t setting_seal(std::string_view name, std::string_view value);

}  // namespace courthand::client
