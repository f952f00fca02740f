// An entry is one value from the push to the board: how often the whole server reads, hashes and
// judges what a table sends. With the table's own hash and judgement, and the one of whoever reads
// the record behind the board, an entry is parsed and hashed three times on its way and judged
// twice.
#include "whole_venue.h"

#include "match_kit.h"
#include "wire/work_done.h"

namespace courthand::server::testing {
namespace {

using wire::WorkDone;

class EntryWork : public WholeVenue {
  protected:
    /// A match of which the board shows this much.
    void begin(const TestRecord& record, std::uint32_t last) {
        start();
        ASSERT_TRUE(all_appended(push(record, 1, last)));
        ASSERT_TRUE(card_shows(last));
    }
};

TEST_F(EntryWork, EachEntryIsParsedHashedAndJudgedOnce) {
    TestRecord record =
        record_of(ready_to_serve + illegal_replacement, new_match_id(), table.device);
    const std::uint32_t known = record.size();
    record.add(RallyWon{Team::A});
    record.add_rallies(20);
    const std::uint64_t pushed = record.size() - known;
    begin(record, known);
    ASSERT_TRUE(shows("libero-no-completed-rally", v1::ALERT_STATE_OPEN));
    const WorkDone before = wire::work_done_by_all();
    // One by one, as a table sends them, and the rest at once.
    for (std::uint32_t n = known + 1; n <= known + 10; ++n)
        ASSERT_TRUE(all_appended(push(record, n, n)));
    ASSERT_TRUE(all_appended(push(record, known + 11)));
    ASSERT_TRUE(card_shows(record.size()));
    EXPECT_EQ(wire::work_done_by_all() - before, (WorkDone{pushed, pushed, pushed, pushed}));
}

TEST_F(EntryWork, ATeamListIsNotReadAgainForItsWords) {
    TestRecord record = record_of(ready_to_serve, new_match_id(), table.device);
    begin(record, 1);
    const WorkDone before = wire::work_done_by_all();
    ASSERT_TRUE(all_appended(push(record, 2)));
    ASSERT_TRUE(card_shows(record.size()));
    EXPECT_EQ(wire::work_done_by_all().parses - before.parses, record.size() - 1U);
}

TEST_F(EntryWork, ACorrectionIsJudgedFromTheStartOnceAndReadOnce) {
    TestRecord record =
        record_of(ready_to_serve + illegal_replacement, new_match_id(), table.device);
    const std::uint32_t known = record.size();
    begin(record, known);
    const WorkDone before = wire::work_done_by_all();
    record.correct(Record{Strike{known}});
    ASSERT_TRUE(all_appended(push(record, known + 1)));
    ASSERT_TRUE(card_shows(record.size()));
    const WorkDone done = wire::work_done_by_all() - before;
    EXPECT_EQ(done.parses, 1U);
    EXPECT_EQ(done.judged, known - 1U) << "all facts that count, by the fold alone";
}

}  // namespace
}  // namespace courthand::server::testing
