// The thread that keeps the pages true: it looks when the record of the event or the board has
// changed, a few times a second at most, makes what is new, and shows it at the door and in a
// folder.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "server/domain/fault_shield.h"
#include "server/publish/folder.h"
#include "server/publish/site.h"
#include "server/publish/web_door.h"
#include "server/tournament/record_keeper.h"
#include "server/venue/board.h"

namespace courthand::server::publish {

class Publisher {
  public:
    /// Looks this long after the one before, at least, however much changes.
    static constexpr std::chrono::milliseconds looks_apart{250};
    /// Looks again by itself when the folder could not be written.
    static constexpr std::chrono::seconds tries_again{5};
    /// Where the pages go; either may be missing.
    struct Ways {
        std::unique_ptr<WebDoor> door;
        std::optional<Folder> folder;
    };
    /// Told when the folder cannot be written, and when it can again.
    using Report = std::function<void(const Status&)>;

    /// What the pages are made of; outlives this.
    struct Sources {
        TournamentId tournament;
        tournament::RecordKeeper& record;
        venue::Board& board;
    };
    Publisher(const Sources& sources, Ways ways, Report report);
    ~Publisher();
    Publisher(const Publisher&) = delete;
    Publisher& operator=(const Publisher&) = delete;

    [[nodiscard]] const WebDoor* door() const noexcept { return ways_.door.get(); }

  private:
    void wake();
    void run();
    /// True when nothing is left to be done until something changes.
    bool look();
    /// As it is now.
    [[nodiscard]] const HallView& hall();
    bool write(const Files& files);

    tournament::RecordKeeper& record_;
    venue::Board& board_;
    Ways ways_;
    Report report_;
    FaultShield shield_{"publisher"};

    // Of the thread alone.
    SiteMaker maker_;
    HallView hall_;
    std::map<std::uint32_t, CourtNow> courts_;
    std::optional<venue::BoardVersion> board_seen_;
    StatusCode written_ = StatusCode::ok;

    std::mutex mutex_;
    std::condition_variable woken_;
    bool wanted_ = true;
    bool stop_ = false;
    std::uint64_t record_listener_ = 0;
    std::uint64_t board_listener_ = 0;
    std::thread thread_;
};

}  // namespace courthand::server::publish
