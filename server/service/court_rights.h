// Which matches a device may see and write: desk and head official all of them, a table those of
// its own court and those it has written before, so that a match that was moved away can still be
// handed over. Thread-safe.
#pragma once

#include <cstdint>
#include <map>
#include <mutex>
#include <optional>
#include <utility>

#include "server/auth/caller.h"
#include "server/domain/match_keeper.h"
#include "server/domain/steady_clock.h"
#include "server/store/match_store.h"

namespace courthand::server::service {

enum class Reach : std::uint8_t {
    granted,
    other_court,
    unknown_match,
    not_decided,  ///< only the store can tell
};

class CourtRights {
  public:
    /// Matches that tables of one court may open by themselves, in all: ten times what a court
    /// plays in a long tournament.
    static constexpr std::size_t most_opened_per_court = 200;
    /// What is remembered besides the fold; more is asked of the store again.
    static constexpr std::size_t most_remembered = 4096;
    /// A "no" of the store is good for this long.
    static constexpr std::chrono::seconds no_lasts{2};

    CourtRights(TournamentId tournament, const MatchKeeper& keeper, MatchStore& store,
                SteadyNow now = steady_now)
        : tournament_{tournament}, keeper_{keeper}, store_{store}, now_{std::move(now)} {}

    /// From memory; never waits. Never `other_court` or `unknown_match` of a table's match: what a
    /// moment ago was another court's may be its own now.
    [[nodiscard]] Reach reach(const auth::Caller& who, MatchId match) const;
    /// Asks the store where memory does not tell; never `not_decided`. May wait.
    [[nodiscard]] Result<Reach> settled_reach(const auth::Caller& who, MatchId match);
    /// May the table open this match, which is not known? Remembers it when it may.
    [[nodiscard]] Status open(const auth::Caller& who, const MatchPlan& plan);

  private:
    [[nodiscard]] Result<bool> wrote(DeviceId device, MatchId match);

    using Pair = std::pair<MatchId, DeviceId>;
    struct Said {
        bool wrote = false;
        SteadyTime until;  ///< of a "no"
    };

    TournamentId tournament_;
    const MatchKeeper& keeper_;
    MatchStore& store_;
    SteadyNow now_;
    mutable std::mutex mutex_;
    std::map<MatchId, std::uint32_t> opened_;  ///< court of matches the fold does not have yet
    std::map<Pair, Said> said_;
};

/// What a device is told that reaches for another court's match.
[[nodiscard]] Status another_court(const auth::Caller& who);

}  // namespace courthand::server::service
