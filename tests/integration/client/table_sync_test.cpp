// Tables against a real server over TLS: what they record arrives, byte for byte, through kills,
// restarts and starts with no server; journal, server and replay agree on the state.
#include <gtest/gtest.h>

#include <atomic>
#include <mutex>
#include <thread>

#include "client/enrol/device_folder.h"
#include "client/sync/channel.h"
#include "client/sync/sync_engine.h"
#include "tests/integration/client/venue_kit.h"
#include "venue/board_client.h"
#include "venue/board_text.h"

namespace courthand::client {
namespace {

class TableSyncTest : public testing::Test {
  protected:
    std::string wait_for_match(TableStation& table) {
        std::string id;
        EXPECT_TRUE(eventually([&] { return !(id = table.next_match()).empty(); }))
            << "no match came from the server";
        return id;
    }
    static std::unique_ptr<JournaledMatch> open_match(TableStation& table, const std::string& id) {
        auto opened = table.open_match(id);
        if (const auto* wrong = std::get_if<std::string>(&opened)) {
            ADD_FAILURE() << *wrong;
            return nullptr;
        }
        return std::move(std::get<0>(opened));
    }
    /// The server has exactly the journal's bytes, and all four ways to the state agree.
    void expect_agreement(const std::filesystem::path& folder, TableStation& table,
                          const JournaledMatch& match) {
        const std::string id = match.sheet().match_id;
        const auto journaled = bytes_of_journal(table.journal(), id);
        const auto stored = venue_.record(folder, id);
        EXPECT_EQ(stored, journaled);
        const std::uint64_t hash = state_hash(match.state());
        EXPECT_EQ(hash_of_bytes(match, journaled), hash);
        EXPECT_EQ(hash_of_bytes(match, stored), hash);
        EXPECT_EQ(hash_of_replay(match), hash);
    }
    Venue venue_;
};

TEST_F(TableSyncTest, TwoTablesPlayAndTheBoardShowsTheirState) {
    const auto folder_one = venue_.enrol_table("table-1", 1);
    const auto folder_two = venue_.enrol_table("table-2", 2);
    const auto head = venue_.enrol_seat("head", "head");
    auto one = open_table(folder_one);
    auto two = open_table(folder_two);
    const auto match_one = open_match(*one, wait_for_match(*one));
    const auto match_two = open_match(*two, wait_for_match(*two));
    ASSERT_NE(match_one->sheet().match_id, match_two->sheet().match_id);
    EXPECT_FALSE(match_one->sheet().names.a.empty());
    EXPECT_FALSE(match_one->sheet().players.a.empty()) << "the desk's list came along";
    std::thread second{[&] { play_steps(*match_two, 22, 250); }};
    play_steps(*match_one, 21, 250);
    second.join();
    ASSERT_TRUE(eventually([&] { return one->all_sent() && two->all_sent(); }))
        << one->status(match_one->sheet().match_id).last_error;
    expect_agreement(folder_one, *one, *match_one);
    expect_agreement(folder_two, *two, *match_two);

    const auto keys = std::get<Credentials>(load_credentials(head));
    venue::BoardClient client{make_channel(venue_.host().address(), keys), "Head official"};
    std::mutex mutex;
    venue::Board board;
    client.start({[&](const venue::Board& news) {
                      const std::scoped_lock lock{mutex};
                      board = news;
                  },
                  [](const venue::Link&) {}});
    EXPECT_TRUE(eventually([&] {
        const std::scoped_lock lock{mutex};
        const auto* first = board.court(1);
        const auto* other = board.court(2);
        return first != nullptr && other != nullptr &&
               first->state_hash == state_hash(match_one->state()) &&
               other->state_hash == state_hash(match_two->state());
    }));
    client.stop();
    const std::string text = venue::board_text(board, {venue::LinkState::live, {}});
    EXPECT_NE(text.find(match_one->sheet().names.a), std::string::npos) << text;
}

TEST_F(TableSyncTest, TheServerIsKilledAndStartedAgainWhileTablesPlay) {
    const auto folder_one = venue_.enrol_table("table-1", 1);
    const auto folder_two = venue_.enrol_table("table-2", 2);
    auto one = open_table(folder_one);
    auto two = open_table(folder_two);
    const auto match_one = open_match(*one, wait_for_match(*one));
    const auto match_two = open_match(*two, wait_for_match(*two));
    std::atomic<bool> done{false};
    std::thread players{[&] {
        for (int round = 0; round < 60; ++round) {
            play_steps(*match_one, 100U + static_cast<unsigned>(round), 6);
            play_steps(*match_two, 200U + static_cast<unsigned>(round), 6);
            std::this_thread::sleep_for(std::chrono::milliseconds{20});
        }
        done = true;
    }};
    int kills = 0;
    while (!done || kills == 0) {
        std::this_thread::sleep_for(std::chrono::milliseconds{150});
        venue_.host().kill9();
        std::this_thread::sleep_for(std::chrono::milliseconds{50});
        venue_.host().start_again();
        ++kills;
    }
    players.join();
    ASSERT_TRUE(eventually([&] { return one->all_sent() && two->all_sent(); }))
        << one->status(match_one->sheet().match_id).last_error;
    EXPECT_GE(kills, 1);
    expect_agreement(folder_one, *one, *match_one);
    expect_agreement(folder_two, *two, *match_two);
}

TEST_F(TableSyncTest, ATableStartedWithNoServerSendsEverythingLater) {
    const auto folder = venue_.enrol_table("table-3", 3);
    std::string id;
    {
        auto table = open_table(folder);
        id = wait_for_match(*table);
        // The grant may still be on its way; the record must not need it.
    }
    venue_.host().kill9();
    auto table = open_table(folder);
    ASSERT_EQ(table->next_match(), id) << "the match is known from the journal";
    const auto match = open_match(*table, id);
    ASSERT_TRUE(play_steps(*match, 33, 5000)) << "the match was not finished";
    EXPECT_EQ(table->status(id).waiting, match->records().size());
    ASSERT_TRUE(eventually([&] { return !table->status(id).last_error.empty(); }));
    EXPECT_EQ(table->status(id).link, SyncStatus::Link::offline);
    venue_.host().start_again();
    ASSERT_TRUE(eventually([&] { return table->all_sent(); })) << table->status(id).last_error;
    expect_agreement(folder, *table, *match);
}

TEST_F(TableSyncTest, AMatchOpenedAtTheTableIsToldToTheServer) {
    const auto folder = venue_.enrol_table("table-4", 4);
    venue_.host().kill9();
    auto table = open_table(folder);
    EXPECT_EQ(table->next_match(), "");
    const auto opened = table->open_own_match("international-2025", {"Quayside", "Ropewalk"});
    const auto match = open_match(*table, std::get<std::string>(opened));
    play_steps(*match, 44, 150);
    venue_.host().start_again();
    ASSERT_TRUE(eventually([&] { return table->all_sent(); }))
        << table->status(match->sheet().match_id).last_error;
    expect_agreement(folder, *table, *match);
}

TEST_F(TableSyncTest, TheNextMatchOfTheCourtComesWhenOneEnds) {
    const auto folder = venue_.enrol_table("table-1", 1);
    auto table = open_table(folder);
    const std::string first = wait_for_match(*table);
    const auto match = open_match(*table, first);
    ASSERT_TRUE(play_steps(*match, 55, 5000));
    ASSERT_TRUE(eventually([&] { return table->all_sent(); }));
    EXPECT_NE(table->next_match(), first) << "a finished match is not gone on with";
}

TEST_F(TableSyncTest, ANewerProgramIsToldAndKeepsItsEntries) {
    const auto folder = venue_.enrol_table("table-2", 2);
    std::string id;
    {
        auto table = open_table(folder);
        id = wait_for_match(*table);
        const auto match = open_match(*table, id);
        ASSERT_TRUE(eventually([&] { return table->all_sent(); }));
    }
    const auto journal = open_journal(folder);
    const auto device = std::get<Device>(load_device(*journal));
    const auto courier = make_grpc_courier(
        {venue_.host().address(), std::get<Credentials>(load_credentials(folder)), 99});
    SyncEngine engine{*journal, *courier, device};
    {
        auto match = JournaledMatch::open(*journal, device, id, {});
        play_steps(*std::get<0>(match), 5, 10);
    }
    engine.start();
    ASSERT_TRUE(eventually([&] { return !engine.status(id).last_error.empty(); }));
    const SyncStatus status = engine.status(id);
    EXPECT_NE(status.last_error.find("server"), std::string::npos) << status.last_error;
    EXPECT_EQ(status.waiting, 11U) << "ten and the opening, which goes with the first";
    engine.stop();
    // The same entries go out as soon as both sides understand each other again.
    const auto good = make_grpc_courier(
        {venue_.host().address(), std::get<Credentials>(load_credentials(folder))});
    SyncEngine again{*journal, *good, device};
    again.start();
    EXPECT_TRUE(eventually([&] { return journal->waiting_count() == 0; }));
    again.stop();
}

}  // namespace
}  // namespace courthand::client
