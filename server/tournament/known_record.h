// The record of the tournament at one moment, as a server knows it.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "courthand/event/state.h"
#include "server/tournament/fact_store.h"

namespace courthand::server::tournament {

/// All of it belongs together. Never changes; the next one is another.
struct KnownRecord {
    using State = event::TournamentState;
    /// By the fact beside which they stand: reasons, notes, and names of persons.
    using Words = std::map<FactNumber, std::string>;
    /// Facts that were sealed with words and have none any more, in the order in which this server
    /// learned of it.
    using Erased = std::vector<FactNumber>;

    /// Of each fact, by its number less one.
    using Ids = std::vector<FactId>;

    std::shared_ptr<const State> state = std::make_shared<const State>();
    std::shared_ptr<const Ids> ids = std::make_shared<const Ids>();
    std::shared_ptr<const Words> words = std::make_shared<const Words>();
    std::shared_ptr<const Erased> erased = std::make_shared<const Erased>();
    FactHead head;
    /// When it was said, by the store's clock, that signatures confirm; as long as they do.
    ServerTime signatures_since{};
    std::uint64_t version = 0;  ///< one more whenever any of these has changed
    std::uint64_t reading = 0;  ///< one more whenever all was read anew, and `erased` begun anew
};

}  // namespace courthand::server::tournament
