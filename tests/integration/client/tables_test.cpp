// The program of simulated tables: plays its rallies, sends them all, and ends well.
#include <gtest/gtest.h>

#include <cstdlib>

#include <fmt/format.h>

#include "tests/integration/client/venue_kit.h"

namespace courthand::client {
namespace {

TEST(SimulatedTables, PlayRealMatchesOnSeveralCourts) {
    Venue venue;
    std::string words = fmt::format("{} --server {} --pace 0 --seed 5 --rallies 60",
                                    COURTHAND_TABLES, venue.host().address());
    std::vector<std::filesystem::path> folders;
    for (int court = 1; court <= 3; ++court) {
        folders.push_back(venue.enrol_table(fmt::format("table-{}", court), court));
        words += fmt::format(" --device-dir {}", folders.back().string());
    }
    ASSERT_EQ(std::system((words + " > /dev/null").c_str()), 0);
    for (const auto& folder : folders) {
        const auto journal = open_journal(folder);
        EXPECT_EQ(journal->waiting_count(), 0U);
        const std::string id = journal->setting(court_match_setting);
        const auto bytes = bytes_of_journal(*journal, id);
        EXPECT_GT(bytes.size(), 120U) << "60 rallies with their services";
        EXPECT_EQ(venue.record(folder, id), bytes);
    }
    // A second start goes on with the same matches.
    ASSERT_EQ(std::system((words + " > /dev/null").c_str()), 0);
    const auto journal = open_journal(folders.front());
    const std::string id = journal->setting(court_match_setting);
    EXPECT_EQ(venue.record(folders.front(), id), bytes_of_journal(*journal, id));
}

}  // namespace
}  // namespace courthand::client
