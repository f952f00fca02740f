// Between the values of the rules core and the messages of the wire.
//
// `to_proto` never fails. `from_proto` is the test for an unreadable entry: it accepts exactly what
// the core can represent and names the field that it cannot read. Rules are not judged here.
#pragma once

#include <variant>

#include "courthand/match/entry.h"
#include "courthand/match/fact.h"
#include "courthand/v1/common.pb.h"
#include "courthand/v1/entry.pb.h"
#include "courthand/v1/fact.pb.h"
#include "wire/message_limits.h"

namespace courthand::wire {

/// Sets the body of `entry` and leaves its other fields alone. A text that the body had is lost.
void to_proto(const Record& record, v1::Entry& entry);
void to_proto(const Fact& fact, v1::Fact& out);
void to_proto(const MatchFormat& format, v1::MatchFormat& out);
void to_proto(const Six& six, v1::Six& out);
void to_proto(Score score, v1::Score& out);
[[nodiscard]] v1::TeamLetter to_proto(Team team) noexcept;

[[nodiscard]] std::variant<Record, Unreadable> from_proto(const v1::Entry& entry);
[[nodiscard]] std::variant<Fact, Unreadable> from_proto(const v1::Fact& fact);
[[nodiscard]] std::variant<MatchFormat, Unreadable> from_proto(const v1::MatchFormat& format);

/// The fact that an entry states, inserts or amends; null for a strike or an empty body.
[[nodiscard]] const v1::Fact* fact_of(const v1::Entry& entry) noexcept;
[[nodiscard]] v1::Fact* mutable_fact_of(v1::Entry& entry) noexcept;

}  // namespace courthand::wire
