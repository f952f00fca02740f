// Entries that a server could not take and that a table still holds, for the people who can help:
// of this server at once, of the others as far as they were learnt of. Thread-safe.
#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "server/store/match_store.h"

namespace courthand::server {

class Refusals {
  public:
    /// More than any venue has at once; further ones are not shown, their tables still say so.
    static constexpr std::size_t most = 1000;
    /// Matches of one device that are shown at once; the oldest gives way, so that one device that
    /// is refused everywhere hides nobody else.
    static constexpr std::size_t most_of_a_device = 8;

    struct Refusal {
        MatchId match;
        DeviceId device;
        std::uint32_t court = 0;  ///< of the device; 0: none
        EntryNumber number = 0;   ///< first entry that was refused; 0: not readable
        Cause cause = Cause::none;
        std::string message;
        ServerTime since{};
        EntryId entry{};  ///< nil: not readable
        Hash hash{};      ///< of the entry
        friend bool operator==(const Refusal&, const Refusal&) = default;
    };

    /// The first refusal of a device at a match is kept until its entries are taken. Another cause,
    /// or an earlier entry, takes its place and keeps its time.
    void refused(const Refusal& refusal);
    /// The server has taken everything the device sent of the match.
    void taken(MatchId match, DeviceId device);
    [[nodiscard]] std::vector<Refusal> now() const;

    // Between the servers of a venue.
    using Place = std::pair<MatchId, DeviceId>;
    /// Nothing: it is no more.
    using Changes = std::map<Place, std::optional<Refusal>>;
    /// What changed here and is not told yet: at most one change for each that was shown.
    [[nodiscard]] Changes untold() const;
    /// These changes were told, and this is what all servers together have. What has changed here
    /// meanwhile stays as it is.
    void learn(const Changes& told, const std::vector<Refusal>& all);

  private:
    void make_room_for(DeviceId device);

    mutable std::mutex mutex_;
    std::map<Place, Refusal> refusals_;
    Changes untold_;
};

}  // namespace courthand::server
