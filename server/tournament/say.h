// Saying to the record what it does not have yet, also while others speak.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {

/// Who says something: a device of the venue in its function, or the server itself.
struct Speaker {
    DeviceId device;
    std::string author;  ///< "desk"
};
/// What follows from what others said, or was stored by an earlier program.
[[nodiscard]] Speaker this_server();

/// New ids for facts that were said nowhere before.
[[nodiscard]] std::vector<Act::Said> newly_said(std::vector<event::Said> facts);

/// What is missing in the record as it is; `most_facts_per_append` facts at most, and none when
/// nothing is. It is asked again after each part, and whenever another came first.
using Missing = std::function<Result<std::vector<Act::Said>>(const KnownRecord&)>;

/// So many parts are more than a record can hold of.
inline constexpr int most_parts = 64;

/// Says all that is missing; answers the record that has it. Each part is kept whole, or nothing of
/// it: `invalid` with the reason when something in it would have no effect, `exhausted` for what
/// the bounds of the record do not allow. What was said before a part that failed stays said.
[[nodiscard]] Result<KnownRecord> say(RecordKeeper& record, const Speaker& speaker,
                                      const Missing& missing);

}  // namespace courthand::server::tournament
