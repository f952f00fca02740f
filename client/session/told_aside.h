// Entries that were set aside for the server's record: the person is told of them once, also when
// the program ended before it could.
#pragma once

#include <cstddef>
#include <string_view>

#include "client/journal/journal.h"
#include "client/session/match_session.h"

namespace courthand::client {

/// Settings that say, for each match, up to which entry set aside the person was told.
inline constexpr std::string_view told_aside_prefix = "aside-told/";
/// Entries set aside that are told of at once; more than a long match has.
inline constexpr std::size_t most_told_aside = 2000;

/// Puts what nobody was told of yet into the news (news.h). Where the journal cannot keep that, it
/// comes up again with the next call. Throws as reading the journal does.
void tell_set_aside(Journal& journal, const MatchSheet& sheet);

}  // namespace courthand::client
