// Ids that every server makes alike, so that what two of them do at once is done once.
#pragma once

#include <string_view>

#include "server/domain/ids.h"

namespace courthand::server::tournament {

/// The name-based UUID (version 5, RFC 4122 section 4.3) of a name within a space.
[[nodiscard]] Uuid derived_id(const Uuid& space, std::string_view name);

}  // namespace courthand::server::tournament
