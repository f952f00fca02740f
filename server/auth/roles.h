// Which seat may make which call: one table for the whole server.
#pragma once

#include <span>
#include <string_view>

#include "server/auth/caller.h"

namespace courthand::server::auth {

/// What a call asks of its caller. `anyone` needs no certificate.
struct Role {
    std::string_view method;  ///< "/courthand.v1.Sync/Push"
    bool anyone = false;
    bool table = false;
    bool desk = false;
    bool head = false;
};

/// All rows. A call without a row is refused to everybody.
[[nodiscard]] std::span<const Role> roles() noexcept;
[[nodiscard]] const Role* role_of(std::string_view method) noexcept;
[[nodiscard]] bool allows(const Role& role, Seat seat) noexcept;

}  // namespace courthand::server::auth
