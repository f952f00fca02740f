// How a match is named to a person who may have another one before them.
#pragma once

#include <string>

#include "client/session/match_session.h"

namespace courthand::client {

/// "Harbour Lights - Mill Lane, match 12"; without a number when the desk gave none.
[[nodiscard]] std::string match_words(const MatchSheet& sheet);

}  // namespace courthand::client
