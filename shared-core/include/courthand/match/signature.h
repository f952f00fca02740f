// A signature in a record: whose it is. What it stands for, match/signatures.h says.
#pragma once

#include <cstdint>

namespace courthand {

/// Who signs a match, by function. The captain and the coach of a team sign its list before the
/// match; after it the scorer, the captains, the assistant scorer and the referees sign the record
/// (FIVB Official Volleyball Rules 2021-2024, rules 5.1.3, 5.2.2, 23.3.3, 24.3.3, 27.2.1.1,
/// 27.2.3.3 and 28.2).
enum class Signer : std::uint8_t {
    captain_a,
    captain_b,
    coach_a,
    coach_b,
    scorer,
    assistant_scorer,
    second_referee,
    first_referee,
};

/// Somebody signs what is recorded so far.
struct Signature {
    Signer by{};
    friend constexpr bool operator==(const Signature&, const Signature&) = default;
};

}  // namespace courthand
