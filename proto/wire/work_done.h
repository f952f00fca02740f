// How often an entry was parsed, converted, hashed and judged, by this thread and by all of them:
// an entry is read once in a process, and tests count that it is.
#pragma once

#include <atomic>
#include <cstdint>

namespace courthand::wire {

struct WorkDone {
    std::uint64_t parses = 0;       ///< bytes to message
    std::uint64_t conversions = 0;  ///< message to record
    std::uint64_t hashes = 0;
    std::uint64_t judged = 0;  ///< facts applied to the state of a match
    friend constexpr bool operator==(const WorkDone&, const WorkDone&) = default;
    /// What was done since an earlier look.
    friend constexpr WorkDone operator-(const WorkDone& now, const WorkDone& before) noexcept {
        return {now.parses - before.parses, now.conversions - before.conversions,
                now.hashes - before.hashes, now.judged - before.judged};
    }
};

/// Since the thread began.
[[nodiscard]] inline WorkDone& work_done() noexcept {
    thread_local WorkDone done;
    return done;
}

namespace detail {
struct WorkOfAll {
    std::atomic<std::uint64_t> parses{0};
    std::atomic<std::uint64_t> conversions{0};
    std::atomic<std::uint64_t> hashes{0};
    std::atomic<std::uint64_t> judged{0};
};
inline WorkOfAll work_of_all;
}  // namespace detail

/// By all threads of the process. A moment only when none of them works.
[[nodiscard]] inline WorkDone work_done_by_all() noexcept {
    const detail::WorkOfAll& all = detail::work_of_all;
    return {all.parses, all.conversions, all.hashes, all.judged};
}

inline void count_parse() noexcept {
    ++work_done().parses;
    detail::work_of_all.parses.fetch_add(1, std::memory_order_relaxed);
}
inline void count_conversion() noexcept {
    ++work_done().conversions;
    detail::work_of_all.conversions.fetch_add(1, std::memory_order_relaxed);
}
inline void count_hash() noexcept {
    ++work_done().hashes;
    detail::work_of_all.hashes.fetch_add(1, std::memory_order_relaxed);
}
inline void count_judged() noexcept {
    ++work_done().judged;
    detail::work_of_all.judged.fetch_add(1, std::memory_order_relaxed);
}

}  // namespace courthand::wire
