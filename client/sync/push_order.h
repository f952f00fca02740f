// One push: which waiting entries go together, and what the answer means for the journal.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "client/journal/journal.h"
#include "client/session/stored_sheet.h"
#include "courthand/v1/sync.pb.h"

namespace courthand::client {

/// The signature of one entry; empty: it has none.
using SignatureOf = std::function<std::string(const JournalEntry& entry)>;

/// The oldest entries of one match that share a writer epoch, as a request. `waiting` must not be
/// empty; entries of a later epoch are removed from it. `self` is this device's id, 16 bytes.
[[nodiscard]] v1::PushRequest push_order(const StoredSheet& sheet, const std::string& self,
                                         std::vector<JournalEntry>& waiting,
                                         const SignatureOf& signature);

/// What an answer says of the entries that were sent.
struct PushOutcome {
    std::vector<Journal::Settled> settled;
    bool gap = false;  ///< the server misses an earlier entry; `head` says which it has
    std::uint32_t head = 0;
    std::optional<v1::PushResult> refused;  ///< the first entry that the server did not take
    std::string problem;                    ///< a sentence, when the answer is odd
};
[[nodiscard]] PushOutcome read_answer(const std::vector<JournalEntry>& sent,
                                      const v1::PushResponse& answer);

}  // namespace courthand::client
