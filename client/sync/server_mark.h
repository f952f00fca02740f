// Which server and which database a device has heard last, from the header of an answer.
#pragma once

#include <cstdint>
#include <string>

#include "courthand/v1/common.pb.h"

namespace courthand::client {

struct ServerMark {
    std::string server_id;
    std::uint64_t incarnation = 0;
    std::string generation;  ///< of the database; empty: the server does not tell
    std::string version;     ///< of the server's program; empty: it does not tell
    friend bool operator==(const ServerMark&, const ServerMark&) = default;

    [[nodiscard]] static ServerMark of(const v1::ResponseHeader& header);
    /// False: the header said nothing.
    [[nodiscard]] bool told() const noexcept {
        return !server_id.empty() || incarnation != 0 || !generation.empty();
    }
    /// What was acknowledged under one mark may be gone under the other.
    [[nodiscard]] bool may_have_forgotten(const ServerMark& earlier) const noexcept {
        return server_id != earlier.server_id || incarnation != earlier.incarnation ||
               generation != earlier.generation;
    }
    /// For a setting of the journal, and back. Unreadable bytes give a mark that told nothing.
    [[nodiscard]] std::string to_bytes() const;
    [[nodiscard]] static ServerMark from_bytes(const std::string& bytes);
};

}  // namespace courthand::client
