// A table process is killed with -9 at any moment, again and again: every entry it had confirmed is
// in the journal, in the same state, and all of them reach the server once.
#include <gtest/gtest.h>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>
#include <csignal>

#include <map>
#include <sstream>
#include <thread>

#include <fmt/format.h>

#include "courthand/sim/dice.h"
#include "tests/integration/client/venue_kit.h"

namespace courthand::client {
namespace {

struct Told {
    std::uint32_t last = 0;
    std::map<std::uint32_t, std::string> hashes;  ///< by entry, as told before the kill
    bool ended = false;                           ///< the match was over before the kill
};

/// Starts the helper, kills it after `delay`, and reads what it had confirmed.
Told run_and_kill(const std::filesystem::path& folder, std::uint64_t seed,
                  std::chrono::microseconds delay) {
    int ends[2];
    EXPECT_EQ(pipe2(ends, O_CLOEXEC), 0);
    const pid_t child = fork();
    if (child == 0) {
        dup2(ends[1], STDOUT_FILENO);
        const std::string words = std::to_string(seed);
        execl(COURTHAND_RECORDING_TABLE, "recording_table", folder.c_str(), words.c_str(),
              static_cast<char*>(nullptr));
        _exit(127);
    }
    close(ends[1]);
    std::string text;
    char buffer[4096];
    const auto take = [&] {
        const ssize_t got = read(ends[0], buffer, sizeof buffer);
        if (got > 0) text.append(buffer, static_cast<std::size_t>(got));
        return got;
    };
    // The clock runs from the first confirmed entry, so that slow starts are killed in play too.
    take();
    std::this_thread::sleep_for(delay);
    kill(child, SIGKILL);
    while (take() > 0) {
    }
    close(ends[0]);
    int status = 0;
    waitpid(child, &status, 0);
    Told told;
    told.ended = WIFEXITED(status) && WEXITSTATUS(status) == 0;
    std::istringstream lines{text};
    std::uint32_t seq = 0;
    std::string hash;
    while (lines >> seq >> hash) {
        told.last = seq;
        told.hashes[seq] = hash;
    }
    return told;
}

TEST(KilledTable, LosesNothingThatWasConfirmed) {
    Venue venue;
    const auto folder = venue.enrol_table("table-1", 1);
    std::string id;
    {
        auto table = open_table(folder);
        ASSERT_TRUE(eventually([&] { return !(id = table->next_match()).empty(); }));
    }
    sim::Dice dice{2026};
    std::uint32_t confirmed = 0;
    int kills_in_play = 0;
    for (int round = 0; round < 12; ++round) {
        // From the first microseconds, between two steps of one commit, to a good part of a set.
        const std::chrono::microseconds delay{dice.below(round % 2 == 0 ? 3000 : 120000)};
        const Told told = run_and_kill(folder, 700U + static_cast<unsigned>(round), delay);
        if (told.last > 0) ++kills_in_play;
        confirmed = std::max(confirmed, told.last);
        const auto journal = open_journal(folder);
        EXPECT_FALSE(journal->recovery()) << "a kill is no damage";
        const auto device = std::get<Device>(load_device(*journal));
        auto match = JournaledMatch::open(*journal, device, id, {});
        ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(match));
        const auto& record = *std::get<0>(match);
        ASSERT_GE(record.records().size(), confirmed) << "round " << round;
        const auto bytes = bytes_of_journal(*journal, id);
        for (const auto& [seq, hash] : told.hashes) {
            if (seq != told.last && seq % 50 != 0) continue;  // folding each prefix takes long
            const std::vector<std::string> prefix{bytes.begin(), bytes.begin() + seq};
            EXPECT_EQ(fmt::format("{:016x}", hash_of_bytes(record, prefix)), hash);
        }
        if (told.ended) break;
    }
    EXPECT_GE(kills_in_play, 3);
    auto table = open_table(folder);
    ASSERT_TRUE(eventually([&] { return table->all_sent(); })) << table->status(id).last_error;
    EXPECT_EQ(venue.record(folder, id), bytes_of_journal(table->journal(), id));
}

}  // namespace
}  // namespace courthand::client
