// A team list as the server reads it, for the page on which a person imports one.
#pragma once

namespace courthand::venue {

/// Three players of one team, the captain, one more and a libero; its coach, and an official.
inline constexpr const char* roster_example =
    "team,number,name,captain,libero,club,colour,division,role,last pool\n"
    "Tern Bay,4,,yes,,Tern Bay,1f3a5f,U16,,C\n"
    "Tern Bay,7,,,,Tern Bay,1f3a5f,U16,,C\n"
    "Tern Bay,21,,,yes,Tern Bay,1f3a5f,U16,,C\n"
    "Tern Bay,,,,,Tern Bay,1f3a5f,U16,coach,C\n"
    ",,,,,,,,official,\n";

}  // namespace courthand::venue
