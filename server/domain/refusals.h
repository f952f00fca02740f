// Entries that the server could not take and that a table still holds, for the people who can help.
// In memory only: the table sends them again, so after a restart they are refused again. Thread-safe.
#pragma once

#include <cstdint>
#include <map>
#include <mutex>
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
    };

    /// The first refusal of a device at a match is kept until its entries are taken.
    void refused(const Refusal& refusal);
    /// The server has taken everything the device sent of the match.
    void taken(MatchId match, DeviceId device);
    [[nodiscard]] std::vector<Refusal> now() const;

  private:
    using Place = std::pair<MatchId, DeviceId>;
    void make_room_for(DeviceId device);

    mutable std::mutex mutex_;
    std::map<Place, Refusal> refusals_;
};

}  // namespace courthand::server
