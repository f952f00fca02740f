// Corrections of a record: what counts after strike, insert and amend.
#include <gtest/gtest.h>

#include "courthand/match/entry.h"

namespace courthand {
namespace {

const Fact a = RallyWon{Team::A};
const Fact b = RallyWon{Team::B};
const Fact whistle = Whistle{};

std::vector<EntryNumber> numbers(const Effective& e) {
    std::vector<EntryNumber> n;
    for (const Entry& entry : e.entries) n.push_back(entry.number);
    return n;
}

using Numbers = std::vector<EntryNumber>;

TEST(Effective, WithoutCorrectionsEveryFactCounts) {
    const std::vector<Record> r{a, b, a};
    EXPECT_EQ(numbers(effective(r)), (Numbers{1, 2, 3}));
}

TEST(Effective, AStruckEntryNoLongerCounts) {
    const std::vector<Record> r{a, b, a, Strike{2}};
    EXPECT_EQ(numbers(effective(r)), (Numbers{1, 3}));
}

TEST(Effective, StrikingAStrikeBringsTheEntryBack) {
    const std::vector<Record> r{a, b, Strike{2}, Strike{3}};
    EXPECT_EQ(numbers(effective(r)), (Numbers{1, 2}));
}

TEST(Effective, AnInsertCountsAfterItsEntry) {
    const std::vector<Record> r{a, b, Insert{1, whistle}, Insert{1, a}, Insert{0, b}};
    EXPECT_EQ(numbers(effective(r)), (Numbers{5, 1, 3, 4, 2}));
}

TEST(Effective, AnInsertAfterAnInsertFollowsIt) {
    const std::vector<Record> r{a, b, Insert{1, whistle}, Insert{3, a}};
    EXPECT_EQ(numbers(effective(r)), (Numbers{1, 3, 4, 2}));
}

TEST(Effective, AnInsertStaysWhenItsEntryIsStruck) {
    const std::vector<Record> r{a, b, Insert{1, whistle}, Strike{1}};
    EXPECT_EQ(numbers(effective(r)), (Numbers{3, 2}));
}

TEST(Effective, TheLatestAmendmentCounts) {
    const std::vector<Record> r{a, Amend{1, b}, Amend{1, whistle}};
    const Effective e = effective(r);
    ASSERT_EQ(e.entries.size(), 1U);
    EXPECT_EQ(e.entries[0], (Entry{1, whistle}));
}

TEST(Effective, AStruckAmendmentIsTakenBack) {
    const std::vector<Record> r{a, Amend{1, b}, Strike{2}};
    EXPECT_EQ(effective(r).entries, (std::vector<Entry>{{1, a}}));
}

TEST(Effective, ACorrectionThatNamesNothingEarlierHasNoEffect) {
    const std::vector<Record> r{a, Strike{9}, Amend{4, b}, Insert{7, b}, Strike{0}};
    const Effective e = effective(r);
    EXPECT_EQ(numbers(e), (Numbers{1}));
    EXPECT_EQ(e.without_effect, (Numbers{2, 3, 4, 5}));
}

// A chain of inserts as long as a record may be must not exhaust the stack.
TEST(Effective, ALongChainOfInsertsIsResolved) {
    std::vector<Record> r{a};
    for (EntryNumber n = 1; n < most_entries; ++n) r.push_back(Insert{n, b});
    EXPECT_EQ(effective(r).entries.size(), most_entries);
}

}  // namespace
}  // namespace courthand
