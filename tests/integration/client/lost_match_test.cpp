// The server is put back from a time before a match was made: its table has the record, and the
// match comes back with it.
#include <gtest/gtest.h>

#include "server/testing/put_back.h"
#include "tests/integration/client/venue_kit.h"

namespace courthand::client {
namespace {

class LostMatch : public testing::Test {
  protected:
    void SetUp() override {
        folder_ = venue_.enrol_table("table-1", 1);
        table_ = open_table(folder_);
        ASSERT_TRUE(table_);
        ASSERT_TRUE(eventually([this] { return !(desk_match_ = table_->next_match()).empty(); }));
    }
    void play_and_send(const std::string& id) {
        auto opened = table_->open_match(id);
        ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
        play_steps(*std::get<0>(opened), 31, 12);
        ASSERT_TRUE(eventually([this] { return table_->all_sent(); }));
        ASSERT_FALSE(venue_.record(folder_, id).empty());
    }
    /// As a backup of an hour ago that has nothing of the match.
    void put_back_before(const std::string& id) {
        venue_.host().kill9();
        for (const char* table :
             {"match_snapshot", "promotion", "writer_epoch", "branch", "entry", "feed", "match"})
            venue_.database().run("delete from " + std::string{table} + " where match_id = '" + id +
                                  "'");
        venue_.database().run("select renew_generation()");
        venue_.host().start_again();
    }
    void expect_it_comes_back(const std::string& id) {
        const auto journaled = bytes_of_journal(table_->journal(), id);
        const std::string count = "select count(*) from entry where match_id = '" + id + "'";
        EXPECT_TRUE(eventually([&] {
            return venue_.database().run(count) == std::to_string(journaled.size()) &&
                   table_->all_sent();
        })) << table_->status(id).last_error;
        EXPECT_EQ(venue_.record(folder_, id), journaled);
    }

    Venue venue_;
    std::filesystem::path folder_;
    std::unique_ptr<TableStation> table_;
    std::string desk_match_;
};

TEST_F(LostMatch, OfTheDeskComesBackWithItsRecord) {
    play_and_send(desk_match_);
    put_back_before(desk_match_);
    expect_it_comes_back(desk_match_);
}

TEST_F(LostMatch, OpenedAtTheTableComesBackWithItsRecord) {
    const auto opened =
        table_->open_own_match("international-2025", {"Harbour Lights", "Mill Lane"});
    ASSERT_TRUE(std::holds_alternative<std::string>(opened));
    const auto& id = std::get<std::string>(opened);
    play_and_send(id);
    put_back_before(id);
    expect_it_comes_back(id);
}

// Nobody restarts anything and nobody tells: the server notices by itself, and so its table.
TEST_F(LostMatch, WhatADatabaseLostWhileServingIsSentAgain) {
    play_and_send(desk_match_);
    const std::string kept = venue_.database().run("select feed_head from tournament");
    auto opened = table_->open_match(desk_match_);
    ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
    play_steps(*std::get<0>(opened), 32, 6);
    ASSERT_TRUE(eventually([this] { return table_->all_sent(); }));
    const std::string count = "select count(*) from entry where match_id = '" + desk_match_ + "'";
    const std::string before = venue_.database().run(count);
    server::testing::put_back(venue_.database(), std::stoull(kept));
    ASSERT_NE(venue_.database().run(count), before);
    expect_it_comes_back(desk_match_);
    venue_.host().wait_for_log("event=feed-went-back");
}

}  // namespace
}  // namespace courthand::client
