// Opens an empty tournament from an event script (shared-core/event_script): its divisions, courts,
// teams, draws, brackets and plan, as if a desk had said them line by line.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/event/fact.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::desk {

/// What a script says, where, and which event it opens.
struct EventScriptRead {
    /// Where a fact stands in the file, both from 1.
    struct Place {
        std::uint32_t line = 0;
        std::uint32_t column = 0;
    };
    std::vector<event::Said> facts;
    std::vector<Place> places;  ///< one for each fact
    std::string file_name;
    /// Its name and days; nothing: it does not say.
    std::optional<event::TournamentOpened> opened;
};

/// `invalid` with line and column of the first mistake. `file_name` is for the message.
[[nodiscard]] Result<EventScriptRead> read_event_script(std::string_view text,
                                                        const std::string& file_name);

/// Says the facts to the record of a tournament of which nothing was said yet. Begun before and cut
/// off, also at another server, it goes on with the rest; a tournament of the same name and days
/// that began otherwise stays as it is. `invalid` when the record holds another event, be it that
/// of another year, with names and days of both and the cure; when a fact would have no effect or
/// is objected to (courthand/event/act.h), or when the script was changed since it was begun: with
/// file, line and column, reason and cure.
[[nodiscard]] Status open_event(tournament::RecordKeeper& record, TournamentId tournament,
                                const EventScriptRead& script);

}  // namespace courthand::server::desk
