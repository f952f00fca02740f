// Names of persons go for good: by hand, or when they have been kept for as long as the venue says.
// The facts that list the persons stay, and so does the chain: names stand beside them.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "courthand/event/values.h"
#include "server/tournament/fact_store.h"

namespace courthand::server::tournament {

/// Days after the last day of an event for which names are kept unless the venue says otherwise:
/// as long as protests and questions of the next season come. Common practice, no source.
inline constexpr std::uint32_t usual_name_days = 90;

/// Whose names.
struct NamesWanted {
    std::optional<std::uint16_t> person;  ///< nothing: of all persons
};

struct ErasedNames {
    std::size_t count = 0;  ///< names, and other words, that were there and are gone
};

/// Erases the words beside every fact about such a person (courthand/event/about.h): the name, and
/// reasons and notes in which it may stand.
[[nodiscard]] Result<ErasedNames> erase_names(FactStore& store, TournamentId tournament,
                                              const NamesWanted& wanted);

/// True when the event has ended more than `days` days before `today`. An event without a last day
/// has not ended.
[[nodiscard]] bool names_are_due(event::Date last_day, event::Date today,
                                 std::uint32_t days) noexcept;

/// The last day of the event as its record says it now; none: the record does not say.
[[nodiscard]] Result<event::Date> last_day(FactStore& store, TournamentId tournament);

/// Erases the names when they are due.
[[nodiscard]] Result<ErasedNames> erase_names_due(FactStore& store, TournamentId tournament,
                                                  event::Date today, std::uint32_t days);

}  // namespace courthand::server::tournament
