#include "server/feed/hub.h"

#include <algorithm>

#include "server/domain/fault_log.h"

namespace courthand::server {

Hub::Hub(std::size_t threads) {
    for (std::size_t i = 0; i < threads; ++i) threads_.emplace_back([this] { run(); });
}

Hub::~Hub() {
    {
        const std::scoped_lock lock{watchers_mutex_};
        stop_ = true;
    }
    ready_.notify_all();
    for (std::thread& thread : threads_) thread.join();
}

Hub::Taken Hub::take(FeedPosition after, Era era, const Interest& interest) const {
    const std::shared_lock lock{window_mutex_};
    Taken taken;
    if (era != era_) {
        taken.where = Taken::Where::anew;
        return taken;
    }
    if (nothing_since(after, interest)) {
        taken.head = std::max(head_, after);
        return taken;
    }
    if (after < before_window_) {
        taken.where = Taken::Where::behind;
        return taken;
    }
    const auto* const match = std::get_if<MatchId>(&interest);
    const bool only_record = std::holds_alternative<Record>(interest);
    const auto wanted = [&](const FeedItem& one) {
        if (only_record) return one.kind == FeedItem::Kind::tournament;
        return match == nullptr || one.match == *match;
    };
    auto item = std::upper_bound(
        window_.begin(), window_.end(), after,
        [](FeedPosition position, const FeedItem& i) { return position < i.position; });
    for (; item != window_.end() && taken.items.size() < most_taken; ++item)
        if (wanted(*item)) taken.items.push_back(*item);
    taken.head = item == window_.end() ? std::max(head_, after) : taken.items.back().position;
    return taken;
}

// So that a watcher of one match does not look at the news of all the others.
bool Hub::nothing_since(FeedPosition after, const Interest& interest) const {
    if (after < known_after_) return false;
    if (const auto* match = std::get_if<MatchId>(&interest)) {
        const auto last = last_of_match_.find(*match);
        return last == last_of_match_.end() || last->second <= after;
    }
    if (const auto* court = std::get_if<Court>(&interest)) {
        const auto last = last_of_court_.find(court->number);
        return last == last_of_court_.end() || last->second <= after;
    }
    if (std::holds_alternative<Record>(interest)) return last_of_record_ <= after;
    return std::holds_alternative<Nothing>(interest);
}

FeedPosition Hub::head() const {
    const std::shared_lock lock{window_mutex_};
    return head_;
}

std::optional<FeedItem> Hub::at(FeedPosition position) const {
    const std::shared_lock lock{window_mutex_};
    const auto item = std::lower_bound(
        window_.begin(), window_.end(), position,
        [](const FeedItem& i, FeedPosition wanted) { return i.position < wanted; });
    if (item == window_.end() || item->position != position) return std::nullopt;
    return *item;
}

Hub::Feed Hub::feed() const {
    const std::shared_lock lock{window_mutex_};
    return {era_, generation_, head_};
}

void Hub::begin_anew(Uuid generation, FeedPosition head, const Courts& courts) {
    {
        const std::unique_lock lock{window_mutex_};
        window_.clear();
        before_window_ = head_ = known_after_ = head;
        generation_ = generation;
        ++era_;
        last_of_match_.clear();
        last_of_court_.clear();
        last_of_record_ = 0;
        courts_of_.clear();
        for (const auto& [match, court] : courts)
            if (court != 0) courts_of_[match] = {court};
    }
    wake_all(Wake::news);
}

void Hub::publish(std::span<const FeedItem> items, FeedPosition head, const CourtOf& court_of) {
    News news;
    {
        const std::unique_lock lock{window_mutex_};
        for (const FeedItem& item : items) {
            window_.push_back(item);
            // It is folded: watchers are sent the bytes.
            window_.back().read.reset();
            note_news(item, court_of, news);
        }
        head_ = std::max(head_, head);
        while (window_.size() > window_items) {
            before_window_ = window_.front().position;
            window_.pop_front();
        }
    }
    if (!items.empty()) wake_for(news);
}

// A watcher of a court goes on with a match that has left it: the courts of before count too.
void Hub::note_news(const FeedItem& item, const CourtOf& court_of, News& news) {
    if (item.kind == FeedItem::Kind::tournament) {
        last_of_record_ = item.position;
        news.record = true;
    }
    if (item.match.nil()) return;
    news.matches.insert(item.match);
    last_of_match_[item.match] = item.position;
    std::set<std::uint32_t>& of_match = courts_of_[item.match];
    const std::uint32_t court = court_of ? court_of(item.match) : 0;
    if (court != 0) of_match.insert(court);
    for (const std::uint32_t one : of_match) {
        last_of_court_[one] = item.position;
        news.courts.insert(one);
    }
}

void Hub::wake_for(const News& news) {
    std::unique_lock lock{watchers_mutex_};
    const auto queue_all = [this](const Watchers& watchers) {
        for (const auto& watcher : watchers) queue(watcher, Wake::news);
    };
    if (news.record) queue_all(of_record_);
    for (const MatchId match : news.matches)
        if (const auto found = of_match_.find(match); found != of_match_.end())
            queue_all(found->second);
    for (const std::uint32_t court : news.courts)
        if (const auto found = of_court_.find(court); found != of_court_.end())
            queue_all(found->second);
    deliver_here(lock);
}

void Hub::wake_all(Wake why) {
    std::unique_lock lock{watchers_mutex_};
    for (const auto& [token, watcher] : watchers_) queue(watcher, why);
    deliver_here(lock);
}

void Hub::tick() {
    wake_all(Wake::tick);
}

void Hub::queue(const std::shared_ptr<Watcher>& watcher, Wake why) {
    if (why == Wake::news && std::holds_alternative<Nothing>(watcher->interest)) return;
    (why == Wake::news ? watcher->news : watcher->tick) = true;
    // One that runs is queued again when it is done.
    if (watcher->queued || watcher->running) return;
    watcher->queued = true;
    queue_.push_back(watcher);
    ready_.notify_one();
}

void Hub::deliver_one(std::unique_lock<std::mutex>& lock) {
    const std::shared_ptr<Watcher> watcher = std::move(queue_.front());
    queue_.pop_front();
    watcher->queued = false;
    if (watcher->gone) return;
    const bool news = std::exchange(watcher->news, false);
    const bool tick = std::exchange(watcher->tick, false);
    watcher->running = true;
    lock.unlock();
    try {
        if (news) watcher->listener(Wake::news);
        if (tick) watcher->listener(Wake::tick);
    } catch (...) {
        log_current_exception("watch");
    }
    lock.lock();
    watcher->running = false;
    if (watcher->gone)
        rested_.notify_all();
    else if (watcher->news || watcher->tick)
        queue(watcher, watcher->news ? Wake::news : Wake::tick);
}

void Hub::deliver_here(std::unique_lock<std::mutex>& lock) {
    if (!threads_.empty()) return;
    while (!queue_.empty()) deliver_one(lock);
}

void Hub::run() {
    std::unique_lock lock{watchers_mutex_};
    while (true) {
        ready_.wait(lock, [this] { return stop_ || !queue_.empty(); });
        if (stop_) return;
        deliver_one(lock);
    }
}

Hub::Token Hub::subscribe(Listener listener, Interest interest) {
    auto watcher = std::make_shared<Watcher>();
    watcher->listener = std::move(listener);
    watcher->interest = interest;
    const std::scoped_lock lock{watchers_mutex_};
    watchers_[++last_token_] = watcher;
    if (std::holds_alternative<Record>(interest)) of_record_.push_back(watcher);
    if (const auto* match = std::get_if<MatchId>(&interest)) of_match_[*match].push_back(watcher);
    if (const auto* court = std::get_if<Court>(&interest))
        of_court_[court->number].push_back(watcher);
    return last_token_;
}

void Hub::remove(Watchers& from, const std::shared_ptr<Watcher>& watcher) {
    const auto found = std::find(from.begin(), from.end(), watcher);
    if (found == from.end()) return;
    *found = std::move(from.back());
    from.pop_back();
}

void Hub::unsubscribe(Token token) {
    std::unique_lock lock{watchers_mutex_};
    const auto found = watchers_.find(token);
    if (found == watchers_.end()) return;
    const std::shared_ptr<Watcher> watcher = found->second;
    watchers_.erase(found);
    watcher->gone = true;
    if (std::holds_alternative<Record>(watcher->interest)) remove(of_record_, watcher);
    if (const auto* match = std::get_if<MatchId>(&watcher->interest)) {
        Watchers& of_match = of_match_[*match];
        remove(of_match, watcher);
        if (of_match.empty()) of_match_.erase(*match);
    }
    if (const auto* court = std::get_if<Court>(&watcher->interest))
        remove(of_court_[court->number], watcher);
    rested_.wait(lock, [&] { return !watcher->running; });
}

}  // namespace courthand::server
