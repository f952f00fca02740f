// One line of a match record, and the correction of earlier lines.
//
// Nothing in a record is ever deleted. An entry is a fact, or one of three corrections that name an
// earlier entry by its number. `effective` resolves the corrections to the list of facts that now
// count; `fold` (rules/fold.h) turns that list into a state.
#pragma once

#include <cstdint>
#include <span>
#include <variant>
#include <vector>

#include "courthand/match/fact.h"

namespace courthand {

/// Number of an entry in its match record: 1, 2, 3 … with no gap. 0 names no entry.
using EntryNumber = std::uint32_t;

/// A record longer than this is refused by readers: three times the longest plausible match.
inline constexpr std::size_t most_entries = 6000;

/// Entry `target` no longer counts. Striking a correction undoes that correction.
struct Strike {
    EntryNumber target = 0;
    friend constexpr bool operator==(const Strike&, const Strike&) = default;
};

/// A forgotten fact counts right after entry `after`.
struct Insert {
    EntryNumber after = 0;
    Fact fact{};
    friend constexpr bool operator==(const Insert&, const Insert&) = default;
};

/// `fact` counts in the place of the fact of entry `target`.
struct Amend {
    EntryNumber target = 0;
    Fact fact{};
    friend constexpr bool operator==(const Amend&, const Amend&) = default;
};

using Record = std::variant<Fact, Strike, Insert, Amend>;

/// A fact that counts, with the number of the entry that says so.
struct Entry {
    EntryNumber number = 0;
    Fact fact{};
    friend constexpr bool operator==(const Entry&, const Entry&) = default;
};

/// A correction that names no earlier entry, or itself, changes nothing and is listed here.
struct Effective {
    std::vector<Entry> entries;  ///< in the order in which they count
    std::vector<EntryNumber> without_effect;
};

/// Resolves corrections. `records[i]` is entry number i + 1.
[[nodiscard]] Effective effective(std::span<const Record> records);

}  // namespace courthand
