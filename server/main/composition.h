// The composition root: makes every part of the server and holds them in the order in which they
// depend on each other. What is declared later is destroyed first.
#pragma once

#include "server/audit/audit_trail.h"
#include "server/auth/authority.h"
#include "server/auth/device_register.h"
#include "server/desk/desk_store.h"
#include "server/desk/event_opening.h"
#include "server/domain/ingest.h"
#include "server/domain/match_keeper.h"
#include "server/domain/presence.h"
#include "server/domain/refusals.h"
#include "server/domain/work_queue.h"
#include "server/feed/follower.h"
#include "server/feed/hub.h"
#include "server/main/event_log.h"
#include "server/main/server_identity.h"
#include "server/main/stores.h"
#include "server/service/court_rights.h"
#include "server/service/response_stamp.h"
#include "server/service/stream_registry.h"
#include "server/service/sync_parts.h"
#include "server/service/venue_area.h"
#include "server/tournament/match_opener.h"
#include "server/tournament/record_keeper.h"
#include "server/tournament/result_closer.h"
#include "server/venue/venue_keeper.h"

namespace courthand::server {

/// Threads that turn news into messages for the watchers; they never wait for the database.
inline constexpr std::size_t hub_threads = 2;

/// Everything of one tournament.
class Composition {
  public:
    /// What it stands on outlives it.
    struct Basis {
        Stores stores;
        Tournament tournament;
        ServerName name;
        const auth::Authority& authority;
        /// By which alerts wait and the board says when a device was heard.
        venue::VenueKeeper::Clock clock = alerts::system_now;
        /// How long a signed record stands before its result goes out.
        std::chrono::seconds signed_stand = tournament::ResultCloser::usual_stand;
    };
    /// `report`: the store cannot be read, or can be again.
    Composition(Basis basis_, Follower::Report report);
    ~Composition() { stop(); }
    Composition(const Composition&) = delete;
    Composition& operator=(const Composition&) = delete;

    /// Says what a script says to a tournament of which nothing was said yet.
    [[nodiscard]] Status open_event(const desk::EventScriptRead& script);
    /// Reads and folds everything that is stored, then follows. On failure it may be called again.
    [[nodiscard]] Status start();
    /// Ends the threads that serve; nothing may call any more.
    void stop();

    [[nodiscard]] service::SyncParts sync_parts();

    Basis basis;
    EventLog event_log;
    MatchKeeper keeper;
    Presence presence;
    Hub hub{hub_threads};
    tournament::RecordKeeper record;
    desk::DeskStore desk;
    service::ResponseStamp stamp;
    audit::AuditTrail audit;
    service::CourtRights rights;
    Refusals refusals;
    service::StreamRegistry streams;
    service::VenueArea venue;
    Waking waking;
    Follower follower;
    Ingest ingest;
    WorkQueue work;
    tournament::MatchOpener opener;
    tournament::ResultCloser closer;

  private:
    /// Moves what earlier programs have kept elsewhere into the record.
    [[nodiscard]] Status prepare();

    void note_look(const Status& status);
    void note_closed(MatchId match, const Status& status);

    StatusCode looked_ = StatusCode::ok;  ///< of the thread of the opener
    StatusCode closed_ = StatusCode::ok;  ///< of the thread of the closer
    bool prepared_ = false;
    bool venue_started_ = false;
};

}  // namespace courthand::server
