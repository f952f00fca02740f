#include "server/feed/follower.h"

namespace courthand::server {

Follower::Follower(TournamentId tournament, Parts parts, Report report)
    : tournament_{tournament}, parts_{parts}, report_{std::move(report)} {}

Follower::~Follower() {
    {
        const std::lock_guard lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    if (thread_.joinable()) thread_.join();
}

Status Follower::rebuild() {
    if (const Status loaded = load_matches(); !loaded.ok()) return loaded;
    if (const Status read = catch_up(); !read.ok()) return read;
    // Once more, for what the desk changed meanwhile; later changes come with the feed.
    if (const Status loaded = load_matches(); !loaded.ok()) return loaded;
    parts_.keeper.rebuilt();
    return Status::fine();
}

Status Follower::load_matches() {
    auto matches = parts_.store.matches(tournament_);
    if (!matches.ok()) return matches.status();
    for (const StoredMatch& match : *matches) parts_.keeper.load(match, position_);
    return Status::fine();
}

void Follower::start() {
    thread_ = std::thread{[this] { run(); }};
}

void Follower::wake() {
    {
        const std::lock_guard lock{mutex_};
        woken_ = true;
    }
    wake_.notify_one();
}

void Follower::run() {
    auto next_tick = std::chrono::steady_clock::now();
    while (true) {
        wait();
        {
            const std::lock_guard lock{mutex_};
            if (stop_) return;
        }
        say(catch_up());
        for (const DeviceSeen& device : parts_.presence.take()) parts_.keeper.seen(device);
        if (const auto now = std::chrono::steady_clock::now(); now >= next_tick) {
            next_tick = now + looks_every;
            parts_.hub.tick();
        }
    }
}

void Follower::wait() {
    std::unique_lock lock{mutex_};
    wake_.wait_for(lock, looks_every, [this] { return woken_ || stop_; });
    woken_ = false;
}

Status Follower::catch_up() {
    while (true) {
        FeedQuery query;
        query.tournament = tournament_;
        query.after = position_;
        auto page = parts_.store.read_feed(query);
        if (!page.ok()) return page.status();
        if (const Status status = take(*page); !status.ok()) return status;
        if (page->items.size() < query.most) return Status::fine();
    }
}

Status Follower::take(const FeedPage& page) {
    std::size_t taken = 0;
    Status status;
    for (const FeedItem& item : page.items) {
        if (parts_.keeper.needs_load(item)) {
            auto match = parts_.store.match({tournament_, item.match});
            if (!match.ok()) {
                status = match.status();
                break;
            }
            parts_.keeper.load(*match, item.position);
        }
        parts_.keeper.take(item);
        position_ = item.position;
        ++taken;
    }
    const std::span<const FeedItem> shown{page.items.data(), taken};
    parts_.hub.publish(shown, position_);
    return status;
}

void Follower::say(const Status& status) {
    if (status.ok() && !failing_) return;
    failing_ = !status.ok();
    report_(status);
}

}  // namespace courthand::server
