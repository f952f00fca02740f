// Between the facts of a tournament and their messages, by the rows of event/fact_fields.h.
//
// By reflection: a tournament is a few thousand facts, and a kind or field that tournament.proto
// does not have is found by a test of every kind. `to_proto` never fails; `from_proto` accepts what
// is within the bounds of its fields and names the field that it cannot read.
#pragma once

#include <variant>

#include "courthand/event/fact.h"
#include "courthand/v1/tournament.pb.h"
#include "wire/message_limits.h"

namespace courthand::wire {

void to_proto(const event::Fact& fact, v1::TournamentFact& out);

[[nodiscard]] std::variant<event::Fact, Unreadable> from_proto(const v1::TournamentFact& fact);

}  // namespace courthand::wire
