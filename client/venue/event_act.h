// Acts of a desk, made so that a repeated one is kept once.
#pragma once

#include <vector>

#include "venue/event_book.h"

namespace courthand::venue {

/// An act with new ids, decided on a screen that showed the record up to `seen`.
[[nodiscard]] EventAct new_act(event::FactNumber seen, std::vector<event::Said> facts);

/// What of an act the core reads.
[[nodiscard]] std::vector<event::Fact> facts_of(const EventAct& act);

}  // namespace courthand::venue
