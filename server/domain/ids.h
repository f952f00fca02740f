// Names of things on the server: 16-byte identifiers (UUIDs) that cannot be mixed up.
//
// Plain values, safe to copy between threads. The text form is the usual lower-case one with
// hyphens; the wire form is decided in service/.
#pragma once

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace courthand::server {

/// Sixteen bytes, compared and hashed as bytes.
struct Uuid {
    std::array<std::uint8_t, 16> bytes{};

    [[nodiscard]] constexpr bool nil() const noexcept {
        for (const std::uint8_t byte : bytes)
            if (byte != 0) return false;
        return true;
    }
    friend constexpr auto operator<=>(const Uuid&, const Uuid&) = default;
};

/// "0190…-…" with hyphens, 36 characters.
[[nodiscard]] std::string to_text(const Uuid& uuid);
/// Reads 36 characters with hyphens or 32 without; nothing when it is not a UUID.
[[nodiscard]] std::optional<Uuid> uuid_from_text(std::string_view text);
/// Exactly sixteen raw bytes; nothing otherwise.
[[nodiscard]] std::optional<Uuid> uuid_from_bytes(std::string_view bytes);
[[nodiscard]] std::string to_bytes(const Uuid& uuid);
/// A new random identifier (version 7: time first, so that keys of one day lie together).
[[nodiscard]] Uuid new_uuid();

/// One identifier type for each kind of thing; no conversion between kinds.
template <class Tag>
struct Id {
    Uuid value{};

    [[nodiscard]] constexpr bool nil() const noexcept { return value.nil(); }
    friend constexpr auto operator<=>(const Id&, const Id&) = default;
};

using TournamentId = Id<struct TournamentTag>;
using MatchId = Id<struct MatchTag>;
using EntryId = Id<struct EntryTag>;
using DeviceId = Id<struct DeviceTag>;
using GrantId = Id<struct GrantTag>;
using TeamId = Id<struct TeamTag>;

template <class Tag>
[[nodiscard]] std::string to_text(const Id<Tag>& id) {
    return to_text(id.value);
}

/// A match and the tournament it belongs to; no query crosses the tournament.
struct MatchKey {
    TournamentId tournament;
    MatchId match;
    friend constexpr auto operator<=>(const MatchKey&, const MatchKey&) = default;
};

/// Position of a row in the feed of one tournament: 1, 2, 3 … in the order of commit.
using FeedPosition = std::uint64_t;

/// Number of a writer's term at one match: 1, 2, 3 …
using Epoch = std::uint32_t;

/// SHA-256 of one entry's bytes chained to its predecessor; all zero before the first entry.
using Hash = std::array<std::uint8_t, 32>;

}  // namespace courthand::server

template <>
struct std::hash<courthand::server::Uuid> {
    std::size_t operator()(const courthand::server::Uuid& uuid) const noexcept {
        // FNV-1a over all bytes: the first bytes of a version 7 id are nearly equal on one day.
        std::size_t h = 0xcbf29ce484222325U;
        for (const std::uint8_t byte : uuid.bytes) h = (h ^ byte) * 0x100000001b3U;
        return h;
    }
};
template <class Tag>
struct std::hash<courthand::server::Id<Tag>> {
    std::size_t operator()(const courthand::server::Id<Tag>& id) const noexcept {
        return std::hash<courthand::server::Uuid>{}(id.value);
    }
};
template <>
struct std::hash<courthand::server::MatchKey> {
    std::size_t operator()(const courthand::server::MatchKey& key) const noexcept {
        const std::hash<courthand::server::Uuid> h;
        return h(key.tournament.value) * 31 + h(key.match.value);
    }
};
