// Opens an empty tournament from an event script (shared-core/event_script): its divisions, courts,
// teams, draws, brackets and plan, as if a desk had said them line by line.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "courthand/event/fact.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::desk {

/// What a script says, and the name of its tournament.
struct EventScriptRead {
    std::vector<event::Said> facts;
    std::string name;  ///< empty: it names none
};

/// `invalid` with line and column of the first mistake. `file_name` is for the message.
[[nodiscard]] Result<EventScriptRead> read_event_script(std::string_view text,
                                                        const std::string& file_name);

/// Says the facts to the record of a tournament of which nothing was said yet. Begun before and cut
/// off, also at another server, it goes on with the rest; a tournament that began otherwise stays
/// as it is. `invalid` when a fact would have no effect, with the reason.
[[nodiscard]] Status open_event(tournament::RecordKeeper& record, TournamentId tournament,
                                const std::vector<event::Said>& facts);

}  // namespace courthand::server::desk
