// A table that was started without a server or an enrolment.
#include "client/tables/table_station.h"

#include <gtest/gtest.h>

#include "tests/unit/client/journal_kit.h"

namespace courthand::client {
namespace {

std::unique_ptr<TableStation> station_in(const std::filesystem::path& folder) {
    TableStation::Options options;
    options.folder = folder;
    options.court = 4;
    auto opened = TableStation::open(std::move(options));
    if (const auto* wrong = std::get_if<std::string>(&opened)) {
        ADD_FAILURE() << *wrong;
        return nullptr;
    }
    return std::move(std::get<0>(opened));
}

// A mistyped folder opened as a practice and said nothing.
TEST(TableStation, AFolderWithoutAnEnrolmentIsNamedWithTheCureOnTheScreenOfItsMatch) {
    const ScratchFolder scratch;
    const std::filesystem::path folder = scratch.path() / "device-of-court-33";
    const auto station = station_in(folder);
    ASSERT_NE(station, nullptr);
    const auto practice = station->open_practice("international-2025", {"Team A", "Team B"});
    auto opened = station->open_match(std::get<std::string>(practice));
    const auto& match = *std::get<0>(opened);
    const SyncStatus status = match.sync_status();
    EXPECT_TRUE(status.practice);
    for (const std::string& part : {folder.string(), std::string{"holds no enrolment"},
                                    std::string{"--data"}, std::string{"courthand enrol --server"}})
        EXPECT_NE(status.not_enrolled.find(part), std::string::npos) << status.not_enrolled;
}

TEST(TableStation, AnEnrolledDeviceIsToldNothingOfTheKind) {
    const ScratchFolder scratch;
    {
        const auto journal = open_journal(scratch.path());
        // Without a server: nothing is sent from here, and it is a device of the venue all the
        // same.
        ASSERT_FALSE(store_device(*journal, table_of_court_four()));
    }
    const auto station = station_in(scratch.path());
    ASSERT_NE(station, nullptr);
    EXPECT_EQ(station->not_enrolled_words(), "");
}

TEST(TableStation, KeepsTheKeysOfItsPersonOverARestart) {
    const ScratchFolder scratch;
    const std::string keys = "RallyLeft 0 Left\nRallyRight 1 P";
    {
        const auto station = station_in(scratch.path());
        ASSERT_NE(station, nullptr);
        EXPECT_EQ(station->keys(), "");
        EXPECT_FALSE(station->keep_keys(keys));
    }
    const auto station = station_in(scratch.path());
    ASSERT_NE(station, nullptr);
    EXPECT_EQ(station->keys(), keys);
}

}  // namespace
}  // namespace courthand::client
