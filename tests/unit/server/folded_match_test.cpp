// One match while an entry is folded and memory is short: any allocation may throw.
#include <gtest/gtest.h>

#include <cstdlib>
#include <new>
#include <optional>

#include "courthand/match/entry.h"
#include "server/domain/fault_log.h"
#include "server/domain/folded_match.h"
#include "server/testing/test_record.h"

namespace {

/// Allocations of this thread until one fails; none does while it is negative.
thread_local long allocations_left = -1;

void* allocated(std::size_t size) {
    if (allocations_left >= 0 && allocations_left-- == 0) throw std::bad_alloc{};
    if (void* const memory = std::malloc(size == 0 ? 1 : size)) return memory;
    throw std::bad_alloc{};
}

}  // namespace

void* operator new(std::size_t size) {
    return allocated(size);
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}

namespace courthand::server {
namespace {

using testing::TestRecord;

class FoldedMatches : public ::testing::Test {
  protected:
    FoldedMatches() {
        record_.add_rallies(16);
        record_.correct(Record{Strike{7}});
        record_.add_rallies(1);
        set_fault_log([this](std::string_view, std::string_view) { ++lines_; });
    }
    ~FoldedMatches() override { set_fault_log({}); }
    NewEntry entry(EntryNumber number) {
        const auto read = std::make_shared<const wire::ReadEntry>(
            std::get<wire::ReadEntry>(wire::read_entry(record_.bytes()[number - 1])));
        return {number, read->hash(), {}, read->shared_bytes(), read};
    }
    /// The match up to this entry.
    FoldedMatch folded(EntryNumber last) {
        StoredMatch stored;
        stored.plan.key.match.value.bytes = record_.match().bytes();
        stored.plan.profile = "international-2025";
        FoldedMatch match{stored};
        for (EntryNumber n = 1; n <= last; ++n) (void)match.append(entry(n));
        return match;
    }

    TestRecord record_{testing::new_match_id(), DeviceId{new_uuid()}};
    int lines_ = 0;
};

// What was shown of the record pointed to where the fold had held it before it threw.
TEST_F(FoldedMatches, AFoldThatThrowsGivesTheMatchUpAndKeepsTheEntries) {
    // The next one strikes another: everything is folded again. It also makes the lists grow.
    constexpr EntryNumber known = 32;
    bool went_well = false;
    int given_up = 0;
    for (long fails_after = 0; !went_well; ++fails_after) {
        ASSERT_LT(fails_after, 1000);
        FoldedMatch match = folded(known);
        const NewEntry next = entry(known + 1);
        lines_ = 0;
        std::optional<FoldedMatch::Appended> appended;
        allocations_left = fails_after;
        try {
            appended = match.append(next);
        } catch (const std::bad_alloc&) {
            // The caller folds all from the store.
        }
        allocations_left = -1;
        const LiveMatch& live = match.live();
        if (!appended) {
            EXPECT_EQ(live.head.last, known) << "nothing has happened";
            EXPECT_EQ(live.record->bytes.size(), known);
            continue;
        }
        EXPECT_EQ(live.head.last, known + 1);
        EXPECT_EQ(live.record->bytes.size(), known + 1U);
        if (!appended->threw) {
            went_well = true;
            EXPECT_EQ(live.unreadable, "");
            EXPECT_EQ(live.record->records.size(), known + 1U);
            continue;
        }
        ++given_up;
        EXPECT_TRUE(match.met_own_fault());
        EXPECT_NE(live.unreadable.find("fault of its own"), std::string::npos) << live.unreadable;
        EXPECT_EQ(live.record->records.size(), known);
        EXPECT_EQ(effective(live.record->records).entries.size(), known) << "it can be read";
        // What comes behind it is kept and not folded.
        EXPECT_FALSE(match.append(entry(known + 2)).threw);
        EXPECT_EQ(live.record->bytes.size(), known + 2U);
    }
    EXPECT_GT(given_up, 0);
}

}  // namespace
}  // namespace courthand::server
