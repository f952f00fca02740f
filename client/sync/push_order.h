// One push: which waiting entries go together, and what the answer means for the journal.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "client/journal/journal.h"
#include "client/session/stored_sheet.h"
#include "courthand/v1/sync.pb.h"

namespace courthand::client {

/// The oldest entries of one match that share a writer epoch, as a request. `waiting` must not be
/// empty; entries of a later epoch are removed from it.
[[nodiscard]] v1::PushRequest push_order(const StoredSheet& sheet,
                                         std::vector<JournalEntry>& waiting);

/// What an answer says of the entries that were sent.
struct PushOutcome {
    std::vector<Journal::Settled> settled;
    bool gap = false;  ///< the server misses an earlier entry; `head` says which it has
    std::uint32_t head = 0;
    std::string problem;  ///< a sentence, when an entry was refused or the answer is odd
};
[[nodiscard]] PushOutcome read_answer(const std::vector<JournalEntry>& sent,
                                      const v1::PushResponse& answer);

}  // namespace courthand::client
