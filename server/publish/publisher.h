// The thread that keeps the pages true: it looks when the record of the event or the board has
// changed, a few times a second at most, makes what is new, and shows it at the door and in a
// folder.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>

#include "server/publish/folder.h"
#include "server/publish/site.h"
#include "server/publish/web_door.h"
#include "server/tournament/looking_thread.h"
#include "server/tournament/record_keeper.h"
#include "server/venue/board.h"

namespace courthand::server::publish {

class Publisher {
  public:
    /// Looks this long after the one before, at least, however much changes.
    static constexpr std::chrono::milliseconds looks_apart{250};
    /// Looks again by itself when the folder could not be written.
    static constexpr std::chrono::seconds tries_again{5};
    /// The line to the readers is kept alive this often.
    static constexpr std::chrono::seconds beat{WebDoor::beat_seconds};
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
    using Clock = std::chrono::steady_clock;

    /// Always done: it looks again by itself at the next beat, or when the folder is due again.
    bool look();
    void beat_when_due();
    /// As it is now.
    [[nodiscard]] const HallView& hall();
    void write(const Files& files);

    tournament::RecordKeeper& record_;
    venue::Board& board_;
    Ways ways_;
    Report report_;

    // Of the thread alone.
    SiteMaker maker_;
    HallView hall_;
    std::map<std::uint32_t, CourtNow> courts_;
    std::optional<venue::BoardVersion> board_seen_;
    StatusCode written_ = StatusCode::ok;
    Clock::time_point beat_at_ = Clock::now();

    std::uint64_t record_listener_ = 0;
    std::uint64_t board_listener_ = 0;
    tournament::LookingThread thread_{
        "publisher", [this] { return look(); }, {beat, tries_again, looks_apart}};
};

}  // namespace courthand::server::publish
