#include "server/publish/publisher.h"

#include <algorithm>
#include <utility>

#include "server/publish/match_rows.h"

namespace courthand::server::publish {

Publisher::Publisher(const Sources& sources, Ways ways, Report report)
    : record_{sources.record},
      board_{sources.board},
      ways_{std::move(ways)},
      report_{std::move(report)} {
    hall_.tournament = to_text(sources.tournament);
    // Whoever asks first is served a page.
    (void)look();
    record_listener_ = record_.listen([this] { wake(); });
    board_listener_ = board_.listen([this] { wake(); });
    thread_ = std::thread{[this] { run(); }};
}

Publisher::~Publisher() {
    record_.stop_listening(record_listener_);
    board_.stop_listening(board_listener_);
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    woken_.notify_all();
    thread_.join();
}

void Publisher::wake() {
    {
        const std::scoped_lock lock{mutex_};
        wanted_ = true;
    }
    woken_.notify_one();
}

void Publisher::run() {
    using Clock = std::chrono::steady_clock;
    auto beat_at = Clock::now() + std::chrono::seconds{WebDoor::beat_seconds};
    auto again_at = Clock::time_point::max();
    std::unique_lock lock{mutex_};
    while (true) {
        woken_.wait_until(lock, std::min(beat_at, again_at), [this] { return wanted_ || stop_; });
        if (stop_) return;
        if (Clock::now() >= again_at) wanted_ = true;
        if (Clock::now() >= beat_at) {
            beat_at = Clock::now() + std::chrono::seconds{WebDoor::beat_seconds};
            if (ways_.door) ways_.door->beat();
        }
        if (!std::exchange(wanted_, false)) continue;
        lock.unlock();
        const auto next = Clock::now() + looks_apart;
        bool done = false;
        shield_.run([&] { done = look(); });
        again_at = done ? Clock::time_point::max() : Clock::now() + tries_again;
        lock.lock();
        woken_.wait_until(lock, next, [this] { return stop_; });
    }
}

const HallView& Publisher::hall() {
    const tournament::KnownRecord known = record_.known();
    if (known.version != hall_.version || !hall_.event) {
        hall_.event = known.state;
        hall_.version = known.version;
        hall_.order = in_order(*known.state);
        for (const event::MatchRef ref : hall_.order)
            if (const auto& place = known.state->match(ref).placement)
                hall_.placed.try_emplace(place->fact, std::chrono::system_clock::now());
    }
    venue::BoardNews news = board_.news(board_seen_);
    if (news.snapshot) courts_.clear();
    for (const std::uint32_t court : news.removed_courts) courts_.erase(court);
    for (const v1::CourtCard& card : news.cards)
        courts_.insert_or_assign(card.court(), court_now(card));
    board_seen_ = news.version;
    hall_.courts.clear();
    for (const auto& [court, now] : courts_) hall_.courts.push_back(now);
    return hall_;
}

bool Publisher::look() {
    const SiteMaker::Made made = maker_.make(hall());
    if (ways_.door) ways_.door->show(made);
    return !ways_.folder || write(*made.files);
}

bool Publisher::write(const Files& files) {
    const Status status = ways_.folder->write(files);
    if (status.code != written_) report_(status);
    written_ = status.code;
    return status.ok();
}

}  // namespace courthand::server::publish
