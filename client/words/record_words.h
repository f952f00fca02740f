// Entries of a record told in words: what was recorded, at the table, in evidence and in replays.
#pragma once

#include <QString>

#include "courthand/match/entry.h"
#include "courthand/match/team.h"

namespace courthand::client {

/// "captain of Mill Lane", "first referee".
[[nodiscard]] QString signer_words(Signer signer, const PerTeam<QString>& names);
[[nodiscard]] QString fact_words(const Fact& fact, const PerTeam<QString>& names);
[[nodiscard]] QString record_words(const Record& record, const PerTeam<QString>& names);

}  // namespace courthand::client
