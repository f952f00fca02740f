#include "server/feed/hub.h"

#include <algorithm>

namespace courthand::server {

Hub::Taken Hub::take(FeedPosition after, Era era) const {
    const std::shared_lock lock{window_mutex_};
    Taken taken;
    if (era != era_) {
        taken.where = Taken::Where::anew;
        return taken;
    }
    if (after < before_window_) {
        taken.where = Taken::Where::behind;
        return taken;
    }
    auto item = std::upper_bound(
        window_.begin(), window_.end(), after,
        [](FeedPosition position, const FeedItem& i) { return position < i.position; });
    for (; item != window_.end() && taken.items.size() < most_taken; ++item)
        taken.items.push_back(*item);
    taken.head = item == window_.end() ? std::max(head_, after) : taken.items.back().position;
    return taken;
}

FeedPosition Hub::head() const {
    const std::shared_lock lock{window_mutex_};
    return head_;
}

Hub::Feed Hub::feed() const {
    const std::shared_lock lock{window_mutex_};
    return {era_, generation_, head_};
}

void Hub::begin_anew(Uuid generation, FeedPosition head) {
    {
        const std::unique_lock lock{window_mutex_};
        window_.clear();
        before_window_ = head_ = head;
        generation_ = generation;
        ++era_;
    }
    wake(Wake::news);
}

void Hub::publish(std::span<const FeedItem> items, FeedPosition head) {
    {
        const std::unique_lock lock{window_mutex_};
        for (const FeedItem& item : items) window_.push_back(item);
        head_ = std::max(head_, head);
        while (window_.size() > window_items) {
            before_window_ = window_.front().position;
            window_.pop_front();
        }
    }
    if (!items.empty()) wake(Wake::news);
}

void Hub::tick() {
    wake(Wake::tick);
}

Hub::Token Hub::subscribe(Listener listener) {
    const std::lock_guard lock{listeners_mutex_};
    listeners_[++last_token_] = std::move(listener);
    return last_token_;
}

void Hub::unsubscribe(Token token) {
    const std::lock_guard lock{listeners_mutex_};
    listeners_.erase(token);
}

void Hub::wake(Wake why) {
    const std::lock_guard lock{listeners_mutex_};
    for (const auto& [token, listener] : listeners_) listener(why);
}

}  // namespace courthand::server
