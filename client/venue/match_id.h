// Ids that a desk makes itself, so that a repeated request makes one match and not two.
#pragma once

#include "venue/board.h"

namespace courthand::venue {

/// A new id, greater than every one made before by this program.
[[nodiscard]] Id new_match_id();

}  // namespace courthand::venue
