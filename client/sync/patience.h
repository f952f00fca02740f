// What failed lately and is not tried again for a while, each thing by itself: what is wrong with
// one match must not slow the others.
#pragma once

#include <algorithm>
#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <utility>

#include "client/sync/back_off.h"
#include "client/sync/courier.h"

namespace courthand::client {

/// Used by one thread. Holds one subject for each match of the journal at most, and two more.
class Patience {
  public:
    using Clock = std::chrono::steady_clock;
    Patience(BackOff::Bounds bounds, std::uint64_t seed, std::function<Clock::time_point()> now)
        : bounds_{bounds}, seed_{seed}, now_{std::move(now)} {}

    /// A round of tries begins: what is due now may be tried in it.
    void begin_round() { round_ = now_(); }
    [[nodiscard]] bool due(const std::string& subject) const {
        const auto found = held_.find(subject);
        return found == held_.end() || found->second.until <= round_;
    }
    void failed(const std::string& subject, CallError error) {
        const auto [place, fresh] =
            held_.try_emplace(subject, Held{BackOff{bounds_, seed_ += step}, {}, {}});
        Held& held = place->second;
        held.until = now_() + held.back_off.next();
        held.error = std::move(error);
    }
    /// What was due and has not failed again is all right, or need not be tried any more.
    void end_round() {
        for (auto one = held_.begin(); one != held_.end();)
            one = one->second.until <= round_ ? held_.erase(one) : std::next(one);
    }
    /// Until the next of them is due; `most` when nothing is held.
    [[nodiscard]] std::chrono::milliseconds left(std::chrono::milliseconds most) const {
        for (const auto& [subject, held] : held_) {
            const auto left = std::chrono::ceil<std::chrono::milliseconds>(held.until - now_());
            most = std::clamp(left, std::chrono::milliseconds{1}, most);
        }
        return most;
    }
    /// A sentence about one of them; empty: none.
    [[nodiscard]] std::string words() const {
        return held_.empty() ? std::string{} : held_.begin()->second.error.message;
    }

  private:
    struct Held {
        BackOff back_off;
        Clock::time_point until;
        CallError error;
    };
    /// Gives each subject tries of its own.
    static constexpr std::uint64_t step = 0x9e3779b97f4a7c15U;

    BackOff::Bounds bounds_;
    std::uint64_t seed_;
    std::function<Clock::time_point()> now_;
    Clock::time_point round_{};
    std::map<std::string, Held> held_;
};

}  // namespace courthand::client
