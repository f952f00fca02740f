// A match as the device keeps it: the server's own message without the entries, so that nothing the
// server said is lost on the way, and what a seat needs of it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "client/journal/rows.h"
#include "client/session/device.h"
#include "client/session/match_session.h"
#include "courthand/v1/sync.pb.h"

namespace courthand::client {

/// Who may write the match, as the server said last. It may be another device than this one.
struct Writer {
    std::uint32_t epoch = 0;  ///< 0: not granted; a table that begins takes 1
    std::string grant_id;     ///< 16 bytes; empty when the table began by itself
    std::string device_id;    ///< 16 bytes: who holds it
    friend bool operator==(const Writer&, const Writer&) = default;

    /// `device` as 16 bytes.
    [[nodiscard]] bool held_by(const std::string& device) const noexcept {
        return epoch > 0 && !device.empty() && device_id == device;
    }
    [[nodiscard]] bool held_by_other(const std::string& device) const noexcept {
        return epoch > 0 && !device_id.empty() && device_id != device;
    }
};

struct StoredSheet {
    MatchSheet sheet;
    Writer writer;
    std::string asked_by;      ///< device that asks to take over, 16 bytes; empty: none
    v1::Match match;           ///< as the server describes it
    bool opened_here = false;  ///< by this table or another one: the server may not know the match
    bool practice = false;     ///< never sent
};

/// The id of a device as the wire carries it, 16 bytes; empty when it has none.
[[nodiscard]] std::string id_bytes(const Device& device);

/// What is kept of an answer of the server.
[[nodiscard]] StoredMatch keep(const v1::FetchMatchResponse& answer);
/// The same sheet without the names of players; nothing when it has none.
[[nodiscard]] std::optional<StoredMatch> without_names(const StoredMatch& stored);
/// Reads what was kept; otherwise a sentence that says what is wrong.
[[nodiscard]] std::variant<StoredSheet, std::string> read_sheet(const StoredMatch& stored);

/// A match that this table opens by itself: to practise when the device is not enrolled, else to be
/// told to the server with its first entries.
[[nodiscard]] StoredMatch open_here(const Device& device, std::uint16_t court,
                                    const std::string& profile, const PerTeam<std::string>& names);

}  // namespace courthand::client
