// The match with which tests of the server begin, up to its first service.
#pragma once

#include <string>

namespace courthand::server::testing {

/// Two teams, line-ups, both checked; set 1 may begin.
inline const std::string ready_to_serve =
    "# common practice, no source: a match ready to serve\n"
    "profile international-2025\n"
    "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
    "team B \"Mill Lane\" players 31-38 41 captain 33\n"
    "toss serve A left A\n"
    "set 1\n"
    "lineup A 1 2 3 4 5 6 liberos 21 22\n"
    "lineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\n"
    "checked B\n";

}  // namespace courthand::server::testing
