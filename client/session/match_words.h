// How a match is named to a person who may have another one before them.
#pragma once

#include <string>

#include "client/session/match_session.h"

namespace courthand::client {

/// "C1" by the record of the tournament; "match 12" by the desk's number while that record has no
/// such match; empty when it was opened at a table.
[[nodiscard]] std::string match_called(const MatchSheet& sheet);
/// "Harbour Lights - Mill Lane, C1".
[[nodiscard]] std::string match_words(const MatchSheet& sheet);

}  // namespace courthand::client
