// Times of single acts: their median and their slow end, not only their mean.
#pragma once

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <vector>

namespace courthand::bench {

class Latency {
  public:
    using Clock = std::chrono::steady_clock;

    /// Times one act; its time is also the time of the benchmark's iteration (UseManualTime).
    template <class Act>
    void time(benchmark::State& state, Act&& act) {
        const auto before = Clock::now();
        act();
        add(state, Clock::now() - before);
    }
    void add(benchmark::State& state, Clock::duration duration) {
        const double us = std::chrono::duration<double, std::micro>(duration).count();
        state.SetIterationTime(us / 1e6);
        us_.push_back(us);
    }
    /// Puts p50 and p99 in microseconds among the counters.
    void report(benchmark::State& state) {
        if (us_.empty()) return;
        std::sort(us_.begin(), us_.end());
        state.counters["p50_us"] = us_[us_.size() / 2];
        state.counters["p99_us"] = us_[us_.size() * 99 / 100];
    }

  private:
    std::vector<double> us_;
};

}  // namespace courthand::bench
