// What a seat knows of the tournament's record, and what came of an act in it.
#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "courthand/event/effects.h"
#include "courthand/event/finding.h"
#include "courthand/event/state.h"
#include "venue/board.h"

namespace courthand::venue {

/// The record as far as it has come. Never changes; the next one is another.
struct EventBook {
    using Words = std::map<event::FactNumber, std::string>;
    using FactId = std::array<std::uint8_t, 16>;
    using Ids = std::vector<FactId>;

    std::shared_ptr<const event::TournamentState> state =
        std::make_shared<const event::TournamentState>();
    /// Reasons, notes and names of persons by the fact beside which they stand. A head seat has
    /// none.
    std::shared_ptr<const Words> words = std::make_shared<const Words>();
    /// Of the facts by number less one; all zero: this seat has not seen it.
    std::shared_ptr<const Ids> ids = std::make_shared<const Ids>();
    bool whole = false;  ///< false: more of the record is on its way
};

/// One thing that a person does: facts that stand or fall together.
struct EventAct {
    std::vector<Id> ids;  ///< of the facts, made once by the seat, the same on each retry
    std::vector<event::Said> facts;
    event::FactNumber seen = 0;  ///< the last fact that the screen showed
};

/// What became of an act, or would become of it.
struct ActOutcome {
    enum class Fate : std::uint8_t {
        kept,
        had,        ///< it stands in the record already
        overtaken,  ///< what came between changes what it would do: look again; nothing was kept
        failed,     ///< `problem` says why; nothing was kept, or nobody knows: the same act again
    };
    Fate fate = Fate::failed;
    std::vector<event::Finding> findings;  ///< what of it has no effect, and why
    event::Effects effects;                ///< what it changes beside that
    std::string problem;
};

}  // namespace courthand::venue
