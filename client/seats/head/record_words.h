// Entries of a record told in words, for evidence and replay lists.
#pragma once

#include <QString>
#include <string>

#include "courthand/match/entry.h"
#include "courthand/match/team.h"

namespace courthand::seats {

[[nodiscard]] QString fact_words(const Fact& fact, const PerTeam<std::string>& names);
[[nodiscard]] QString record_words(const Record& record, const PerTeam<std::string>& names);

}  // namespace courthand::seats
