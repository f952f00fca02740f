// The record of the tournament as this server knows it, and the one place where a desk's act comes
// into it. What an act means is decided by the core (courthand/event); this decides whether it
// still means what the person saw.
//
// Thread-safe. Acts wait for each other and for the database; whoever only looks waits for nobody.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

#include "courthand/event/effects.h"
#include "courthand/event/finding.h"
#include "courthand/event/state.h"
#include "server/tournament/fact_store.h"
#include "server/tournament/known_record.h"

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
    /// Of a program that goes on from here: when something in it would have no effect nothing is
    /// kept. A person is told and may say it all the same.
    bool whole = false;
};

class RecordDraft;

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

    /// Reads what the store has beyond what is known here; all of it anew when the store does not
    /// have any more what is known here, because the database was put back. Fails with
    /// `schema_newer` when a fact is of a kind that this program does not know, and with `internal`
    /// when one does not follow the one before: then nothing after it counts here.
    [[nodiscard]] Status catch_up();
    /// Reads all of it anew. What is known stays until that is done.
    [[nodiscard]] Status read_anew();
    /// Another server has erased the words beside these facts.
    void words_erased(std::span<const FactNumber> facts);

    /// Keeps the act, or says why not.
    [[nodiscard]] Result<Outcome> act(const Act& act);
    /// The same without keeping anything.
    [[nodiscard]] Result<Outcome> preview(const Act& act);
    /// Takes the words beside these facts away for good; answers how many had any.
    [[nodiscard]] Result<std::size_t> erase_words(std::span<const FactNumber> facts);

    /// As it is now.
    [[nodiscard]] KnownRecord known() const;
    [[nodiscard]] std::shared_ptr<const event::TournamentState> state() const;
    [[nodiscard]] std::shared_ptr<const KnownRecord::Words> words() const;

    /// `changed` is called after each change of what is known, on the thread that made it: it must
    /// not block, nor call this but for what is known. The number stops it; then it does not run.
    std::uint64_t listen(std::function<void()> changed);
    void stop_listening(std::uint64_t number);

  private:
    /// Answers when nothing needs to be kept for the act.
    [[nodiscard]] std::optional<Result<Outcome>> settled(const Act& act) const;
    [[nodiscard]] Result<Outcome> decide(const Act& act) const;
    // These need acting_mutex_.
    [[nodiscard]] Status read_on();
    [[nodiscard]] Status read_all();
    /// Its status is that of the store.
    [[nodiscard]] Status fill(RecordDraft& draft);
    void take(RecordDraft draft);
    void forget_words(std::span<const FactNumber> facts);
    void show(KnownRecord next);

    const TournamentId tournament_;
    FactStore& store_;

    mutable std::mutex acting_mutex_;  ///< one act, or one look into the store, at a time
    std::unordered_map<Uuid, FactNumber> numbers_;  ///< by id; guarded by acting_mutex_
    bool must_read_all_ = false;                    ///< guarded by acting_mutex_

    mutable std::mutex shown_mutex_;  ///< held for the copy of a few pointers
    KnownRecord shown_;               ///< written under acting_mutex_ alone

    std::mutex listeners_mutex_;
    std::uint64_t next_listener_ = 1;
    std::map<std::uint64_t, std::function<void()>> listeners_;
};

}  // namespace courthand::server::tournament
