// The opening that the replay tests share: two teams, line-ups in and checked, A serves.
#pragma once

#include <string>

namespace courthand {

/// Entries 1 to 9; the next one is entry 10.
inline const std::string opening =
    "profile international-2021\n"
    "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
    "team B \"Mill Lane\" players 31-38 41 captain 33\n"
    "toss serve A left A\n"
    "set 1\n"
    "lineup A 1 2 3 4 5 6 liberos 21 22\n"
    "lineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\n"
    "checked B\n";

}  // namespace courthand
