// The record of the tournament as this server knows it, and the one place where a desk's act comes
// into it. What an act means is decided by the core (courthand/event); this decides whether it
// still means what the person saw.
//
// Thread-safe. Acts wait for each other and for the database; whoever only looks waits for nobody.
#pragma once

#include <cstdint>
#include <memory>
#include <mutex>
#include <string>
#include <unordered_map>
#include <vector>

#include "courthand/event/effects.h"
#include "courthand/event/finding.h"
#include "courthand/event/state.h"
#include "server/tournament/fact_store.h"

namespace courthand::server::tournament {

/// One thing that a person does: facts that stand or fall together.
struct Act {
    struct Said {
        FactId id;  ///< made by the desk, the same on each retry
        event::Said said;
    };
    DeviceId device;     ///< of the certificate
    std::string author;  ///< the function of the person, "desk 2"
    std::int64_t device_time_us = 0;
    FactNumber seen = 0;  ///< the last fact that the person's screen showed
    std::vector<Said> facts;
};

/// What became of an act, or would become of it.
struct Outcome {
    enum class Fate : std::uint8_t {
        kept,
        had,        ///< it stands in the record already, as `first` to `last`
        overtaken,  ///< what came after `seen` changes what it would do; nothing was kept
    };
    Fate fate = Fate::kept;
    FactNumber first = 0;  ///< numbers of its facts; when overtaken, of those that came between
    FactNumber last = 0;
    std::vector<event::Finding> findings;  ///< what of it has no effect, and why
    event::Effects effects;                ///< what it changes beside that
};

class RecordKeeper {
  public:
    /// So often another server may come first before an act is given up as `exhausted`.
    static constexpr int most_tries = 8;

    /// `store` outlives this.
    RecordKeeper(TournamentId tournament, FactStore& store);

    /// Reads what the store has beyond what is known here. `schema_newer` when a fact is of a kind
    /// that this program does not know: then nothing after it counts here.
    [[nodiscard]] Status catch_up();

    /// Keeps the act, or says why not.
    [[nodiscard]] Result<Outcome> act(const Act& act);
    /// The same without keeping anything.
    [[nodiscard]] Result<Outcome> preview(const Act& act);

    /// As it is now; never changes.
    [[nodiscard]] std::shared_ptr<const event::TournamentState> state() const;

  private:
    using State = event::TournamentState;

    /// `known_` was read before; answers when nothing needs to be kept for it.
    [[nodiscard]] std::optional<Result<Outcome>> settled(const Act& act) const;
    [[nodiscard]] Result<Outcome> decide(const Act& act) const;
    [[nodiscard]] Status read_on();
    [[nodiscard]] Status take(const std::vector<KeptFact>& facts);
    void show(std::shared_ptr<const State> state);

    const TournamentId tournament_;
    FactStore& store_;

    mutable std::mutex acting_mutex_;  ///< one act, or one look into the store, at a time
    std::unordered_map<Uuid, FactNumber> numbers_;  ///< by id; guarded by acting_mutex_
    FactHead head_;                                 ///< guarded by acting_mutex_

    mutable std::mutex shown_mutex_;  ///< held for the copy of a pointer
    std::shared_ptr<const State> shown_ = std::make_shared<const State>();
};

}  // namespace courthand::server::tournament
