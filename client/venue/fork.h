// A forked record: what the record has from the fork on, and what another device sent beside it.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "venue/board.h"

namespace courthand::venue {

/// The server's code of the alert.
inline constexpr std::string_view forked_code = "record-forked";

/// An entry of one side; without content when a newer program wrote it.
struct ForkEntry {
    EntryNumber number = 0;
    std::uint32_t epoch = 0;     ///< goes up by one each time another device goes on
    std::string device;          ///< its name; empty: not known
    std::optional<Moment> made;  ///< by that device's clock
    Moment stored{};             ///< by the server's
    std::optional<Record> content;
    friend bool operator==(const ForkEntry&, const ForkEntry&) = default;
};

struct Fork {
    std::vector<ForkEntry> record;  ///< by number, from the first one of the branch on
    std::vector<ForkEntry> branch;  ///< by number; empty: it has become the record
    int record_more = 0;            ///< further ones, which are not here
    int branch_more = 0;
    std::string failed;  ///< not empty: why nothing came
};

enum class ForkChoice : std::uint8_t {
    record_stands,
    enter_again,  ///< by hand, at the table
};

using ForkAnswer = std::function<void(const Fork&)>;

}  // namespace courthand::venue
