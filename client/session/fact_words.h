// The words that travel beside a fact, put where the wire format keeps them.
#pragma once

#include <string_view>

#include "client/session/match_session.h"
#include "courthand/v1/fact.pb.h"

namespace courthand::client {

/// Free words of a person: a cause beside an injury, a signature, otherwise a remark. Empty words
/// leave the fact as it is.
void add_words(const Fact& fact, std::string_view words, v1::Fact& out);
/// Team name, colour and the names of the players, beside a team list.
void add_names(const Roster& roster, const MatchSheet& sheet, v1::Fact& out);

}  // namespace courthand::client
