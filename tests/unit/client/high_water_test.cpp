// The marks of how far each match had been written, and what must be on the disk before what.
#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "client/journal/journal.h"
#include "tests/unit/client/journal_kit.h"
#include "tests/unit/client/synced_files.h"

namespace courthand::client {
namespace {

// After a power cut the rows were gone and the mark was not: entries that were set aside on purpose
// were told as lost.
TEST(HighWaterMark, IsLowOnTheDiskBeforeTheRowsGo) {
    const ScratchFolder folder;
    ChainMaker chain{match_one};
    const auto journal = open_journal(folder.path());
    for (int i = 0; i < 5; ++i) ASSERT_FALSE(journal->append(chain.next()));
    ASSERT_FALSE(
        journal->settle(match_one, {{4, EntryStanding::on_branch}, {5, EntryStanding::on_branch}}));
    static_cast<void>(take_synced_files());
    ASSERT_FALSE(journal->set_aside_after(match_one, 3, "why"));
    const std::vector<std::string> synced = take_synced_files();
    const auto of = [&synced](const char* part) {
        return std::find_if(synced.begin(), synced.end(), [part](const std::string& name) {
            return name.find(part) != std::string::npos;
        });
    };
    ASSERT_NE(of("-wal"), synced.end()) << "the change itself is durable";
    ASSERT_NE(of("marks"), synced.end());
    EXPECT_LT(of("marks") - synced.begin(), of("-wal") - synced.begin());
}

}  // namespace
}  // namespace courthand::client
