// The beginning of the small Harbour Cup: two days, one division, its six teams in the order of
// their seeds. Tests say the rest in lines of the event script.
#pragma once

#include <string>

namespace courthand::testkit {

inline std::string six_teams() {
    std::string script =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 format best-of 3\n";
    for (const char* team :
         {"Harbour Lights", "Mill Lane", "Saltmarsh", "Quayside", "Ropewalk", "Lantern Hill"})
        script += std::string{"team \""} + team + "\" in U16\n";
    return script;
}

}  // namespace courthand::testkit
