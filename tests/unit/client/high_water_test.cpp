// The marks of how far each match had been written, and what must be on the disk before what.
#include <gtest/gtest.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <mutex>
#include <string>
#include <vector>

#include "client/journal/journal.h"
#include "tests/unit/client/journal_kit.h"

namespace {

std::mutex mutex;
std::vector<std::string> synced;  ///< names of the files, in order

void note(int file) {
    std::error_code unknown;
    const auto path =
        std::filesystem::read_symlink("/proc/self/fd/" + std::to_string(file), unknown);
    const std::scoped_lock lock{mutex};
    if (!unknown) synced.push_back(path.filename().string());
}

}  // namespace

// In the place of the library's, also for SQLite: what is flushed to the disk, in which order.
extern "C" int fsync(int file) {
    note(file);
    return static_cast<int>(syscall(SYS_fsync, file));
}
extern "C" int fdatasync(int file) {
    note(file);
    return static_cast<int>(syscall(SYS_fdatasync, file));
}

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
    {
        const std::scoped_lock lock{mutex};
        synced.clear();
    }
    ASSERT_FALSE(journal->set_aside_after(match_one, 3, "why"));
    const std::scoped_lock lock{mutex};
    const auto of = [](const char* part) {
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
