// The words that travel beside a fact, put where the wire format keeps them.
#pragma once

#include <string_view>

#include "client/session/match_session.h"
#include "courthand/v1/fact.pb.h"

namespace courthand::client {

/// Free words of a person: a cause beside an injury, a signature, otherwise a remark. Empty words
/// leave the fact as it is.
void add_words(const Fact& fact, std::string_view words, v1::Fact& out);
/// Team name and colour, beside a team list. Not the names of players: an entry is never changed,
/// and a person's name must be able to go. It stands in the sheet of the match alone.
void add_team(const Roster& roster, const MatchSheet& sheet, v1::Fact& out);

}  // namespace courthand::client
