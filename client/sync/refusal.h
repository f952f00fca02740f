// Why the server did not take an entry, kept in the journal until it does.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "client/journal/journal.h"
#include "client/sync/server_mark.h"
#include "courthand/v1/sync.pb.h"

namespace courthand::client {

/// The first entry of a match that was refused, and by which server.
struct Refusal {
    v1::PushResult result;
    ServerMark server;
    /// The server does not know the match: not yet, or not any more.
    [[nodiscard]] bool of_unknown_match() const {
        return result.cause() == v1::PushResult::CAUSE_UNKNOWN_MATCH;
    }
};

/// A setting of the journal that keeps it.
[[nodiscard]] std::pair<std::string, std::string> kept(const std::string& match_id,
                                                       const Refusal& refusal);
/// What is kept for a match; nothing when none was, or it is dealt with.
[[nodiscard]] std::optional<Refusal> kept_refusal(const Journal& journal,
                                                  const std::string& match_id);
/// A sentence for the person at the table: which entry, why, and what to do.
[[nodiscard]] std::string words_of(const Refusal& refusal);

}  // namespace courthand::client
