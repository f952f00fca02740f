// The judge allocates nothing: counted by replacing the global allocator of this program.
#include <gtest/gtest.h>

#include <atomic>
#include <cstdlib>
#include <new>

#include "courthand/rules/judge.h"
#include "random_play.h"

namespace {
std::atomic<std::size_t> allocations{0};
}

void* operator new(std::size_t size) {
    ++allocations;
    if (void* p = std::malloc(size != 0 ? size : 1)) return p;
    throw std::bad_alloc{};
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
    ++allocations;
    return std::malloc(size != 0 ? size : 1);
}
void operator delete(void* p) noexcept {
    std::free(p);
}
void operator delete(void* p, const std::nothrow_t&) noexcept {
    std::free(p);
}
void operator delete(void* p, std::size_t) noexcept {
    std::free(p);
}

namespace courthand {
namespace {

TEST(Allocation, JudgingAMatchAllocatesNothing) {
    const Rules& rules = find_profile("international-2025")->rules;
    testing::RandomPlay play{rules, 7};
    for (int i = 0; i < 1500; ++i) play.next();
    MatchState state{};
    VerdictList raised;
    const std::size_t before = allocations;
    for (const Entry& entry : play.entries()) {
        apply(rules, state, entry, raised);
        static_cast<void>(standing(rules, state));
        static_cast<void>(next_step(rules, state));
    }
    EXPECT_EQ(allocations - before, 0U);
    EXPECT_EQ(state, play.state());
}

}  // namespace
}  // namespace courthand
