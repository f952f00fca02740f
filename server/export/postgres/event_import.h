// Brings an event file into a database that does not have the tournament yet. The file is checked
// first (event_file/verifier.h); then everything is kept in one transaction, so that there is all
// of it or nothing, and an import that was interrupted is simply run again.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "event_file/verifier.h"
#include "server/domain/ids.h"
#include "server/store/status.h"

namespace courthand::server::postgres {
class Database;
}

namespace courthand::server::exports {

struct Imported {
    bool had = false;  ///< the database had the very same event already
    TournamentId tournament;
    event_file::Verdict verdict;
};

/// `invalid`: the file does not hold; the message names the first fault, `faults` all of them.
/// `already_exists`: the database has a tournament that is not this one, or another course of it.
[[nodiscard]] Result<Imported> import_event(const std::filesystem::path& file,
                                            postgres::Database& database,
                                            std::vector<event_file::Fault>& faults);

}  // namespace courthand::server::exports
