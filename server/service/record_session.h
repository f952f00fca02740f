// One watch of the tournament's record: what to send next. Knows no network.
//
// Not thread-safe: its stream calls it from one thread at a time. It keeps a position and at most
// one page of facts. Those are read from the store, so that a watcher who is far behind costs no
// memory; when there is something to read, the keeper of the record says.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "courthand/v1/tournament_service.pb.h"
#include "server/service/tournament_message.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::service {

class RecordSession {
  public:
    /// What it reads of outlives it.
    struct Parts {
        TournamentId tournament;
        const tournament::RecordKeeper& record;
        tournament::FactStore& store;
    };
    RecordSession(RecordWish wish, Parts parts);

    enum class Next : std::uint8_t {
        message,     ///< send it, then ask again
        wait,        ///< nothing now; ask again when the record has changed
        read_store,  ///< call `read_store` where one may wait, then ask again
    };
    /// Fills `out` when there is one to send; of its header only whether it is wanted.
    [[nodiscard]] Next next(v1::WatchRecordResponse& out);
    /// Reads one page; a failure is that of the store.
    [[nodiscard]] Status read_store();
    /// Says how far the record is; only when `next` said `wait`.
    [[nodiscard]] v1::WatchRecordResponse sign_of_life() const;

  private:
    struct Page {
        bool anew = false;
        bool more = false;  ///< the store has further ones
        std::vector<tournament::KeptFact> facts;
    };
    /// False: the record has another fact where this watch has its last one, or none.
    [[nodiscard]] Result<bool> read_after(Page& page);
    [[nodiscard]] bool tells_erased(const tournament::KnownRecord& known) const;
    void fill_facts(v1::WatchRecordResponse& out);
    void fill_erased(const tournament::KnownRecord& known, v1::WatchRecordResponse& out);

    RecordWish wish_;
    Parts parts_;
    tournament::FactHead sent_;  ///< the last fact that the client has
    std::optional<Page> page_;   ///< read, to be sent next
    bool first_ = true;          ///< nothing was sent yet
    bool more_ = true;           ///< the store may have further facts
    std::uint64_t looked_ = 0;   ///< what the keeper knew when the store was read last
    // Of what the keeper knows to be erased.
    std::uint64_t reading_ = 0;
    std::size_t told_ = 0;  ///< so many of them
};

}  // namespace courthand::server::service
