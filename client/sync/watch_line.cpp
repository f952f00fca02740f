#include "client/sync/watch_line.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace courthand::client {

WatchLine::WatchLine(Courier& courier, Options options, std::function<void()> woken)
    : courier_{courier},
      options_{std::move(options)},
      woken_{std::move(woken)},
      back_off_{options_.back_off, options_.seed} {}

std::optional<CallError> WatchLine::keep(std::uint32_t court, const std::string& cursor) {
    if (auto end = end_of_watch()) return end;
    if (!running() && due()) begin(court, cursor);
    return std::nullopt;
}

bool WatchLine::due() const {
    const std::scoped_lock lock{mutex_};
    return options_.now() >= not_before_;
}

/// The one after a watch that lasted begins at once. Under mutex_.
std::optional<CallError> WatchLine::ended(CallError end) {
    const auto now = options_.now();
    const bool lasts = heard_ > begun_ && now - begun_ >= options_.back_off.longest;
    if (lasts) back_off_.reset();
    if (!lasts && !lasted_) not_before_ = now + back_off_.next();
    lasted_ = lasts;
    running_ = false;
    end_.reset();
    fault_ = end;
    return end;
}

std::optional<CallError> WatchLine::end_of_watch() {
    bool silent = false;
    {
        const std::scoped_lock lock{mutex_};
        if (overflow_) {
            // What could not be held is sent again from the stored cursor.
            steps_.clear();
            end_.reset();
            running_ = false;
            return std::nullopt;
        }
        if (end_) return ended(*std::exchange(end_, std::nullopt));
        silent = running_ && options_.now() - heard_ >= options_.longest_silence;
    }
    if (!silent) return std::nullopt;
    courier_.stop_watch();
    const std::scoped_lock lock{mutex_};
    return ended(
        {CallError::Kind::unreachable, fmt::format("The server has said nothing for {} seconds.",
                                                   options_.longest_silence.count() / 1000)});
}

void WatchLine::begin(std::uint32_t court, const std::string& cursor) {
    courier_.stop_watch();
    v1::WatchRequest request;
    request.set_court(court);
    request.set_cursor(cursor);
    {
        const std::scoped_lock lock{mutex_};
        running_ = true;
        overflow_ = false;
        end_.reset();
        begun_ = heard_ = options_.now();
    }
    courier_.watch(request, {[this](v1::WatchResponse step) { take(std::move(step)); },
                             [this](CallError end) {
                                 {
                                     const std::scoped_lock lock{mutex_};
                                     end_ = std::move(end);
                                 }
                                 woken_();
                             }});
}

void WatchLine::take(v1::WatchResponse step) {
    {
        const std::scoped_lock lock{mutex_};
        heard_ = options_.now();
        fault_.reset();
        if (steps_.size() >= most_waiting_steps)
            overflow_ = true;
        else
            steps_.push_back(std::move(step));
    }
    woken_();
}

std::deque<v1::WatchResponse> WatchLine::steps() const {
    const std::scoped_lock lock{mutex_};
    return steps_;
}

void WatchLine::done(std::size_t count) {
    const std::scoped_lock lock{mutex_};
    const auto most = std::min(count, steps_.size());
    steps_.erase(steps_.begin(), steps_.begin() + static_cast<std::ptrdiff_t>(most));
}

void WatchLine::stop() {
    courier_.stop_watch();
}

bool WatchLine::running() const {
    const std::scoped_lock lock{mutex_};
    return running_;
}

std::optional<CallError> WatchLine::fault() const {
    const std::scoped_lock lock{mutex_};
    if (end_) return end_;
    return running_ && options_.now() - begun_ >= not_refused_after ? std::nullopt : fault_;
}

std::chrono::milliseconds WatchLine::time_left() const {
    using std::chrono::milliseconds;
    const std::scoped_lock lock{mutex_};
    const auto now = options_.now();
    auto until = running_ ? heard_ + options_.longest_silence : not_before_;
    if (running_ && fault_ && now < begun_ + not_refused_after) until = begun_ + not_refused_after;
    if (!running_ && until <= now) return options_.longest_silence;
    return std::max(milliseconds{1}, std::chrono::ceil<milliseconds>(until - now));
}

}  // namespace courthand::client
