// Acts of a desk as messages, and what the server says became of them.
#pragma once

#include <string>

#include "courthand/v1/tournament_service.pb.h"
#include "venue/event_book.h"

namespace courthand::venue {

/// `author`: the function of the person, "desk 2".
[[nodiscard]] v1::ActRequest act_request(const EventAct& act, const std::string& author,
                                         bool preview);
/// Why a request is not worth sending, in words; empty: it is.
[[nodiscard]] std::string not_sendable(const EventAct& act, const v1::ActRequest& request);

/// A finding of a kind that this program does not know comes as `unknown_fact`; its words say what
/// it is.
[[nodiscard]] ActOutcome outcome_of(const v1::ActResponse& response);
/// One that has failed.
[[nodiscard]] ActOutcome failed_act(std::string problem);

}  // namespace courthand::venue
