// The server is put back from a time before a match was made: its table has the record, and the
// match comes back with it.
#include <gtest/gtest.h>

#include "server/testing/put_back.h"
#include "server/testing/standby.h"
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

/// A primary with a standby that streams, one server that asks both, and a table.
class LostPrimary : public testing::Test {
  protected:
    void SetUp() override {
        primary_.start();
        standby_.emplace(primary_, server::testing::Standby::Follows::primary);
        venue_.emplace(Venue::InDatabase{standby_->beside(primary_.dsn())});
        folder_ = venue_->enrol_table("table-1", 1);
        table_ = open_table(folder_);
        ASSERT_TRUE(table_);
        ASSERT_TRUE(eventually([this] { return !(id_ = table_->next_match()).empty(); }));
        auto opened = table_->open_match(id_);
        ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
        match_ = std::move(std::get<0>(opened));
    }
    void play(std::uint64_t seed, int steps) { play_steps(*match_, seed, steps); }
    void play_and_send(std::uint64_t seed, int steps) {
        play(seed, steps);
        ASSERT_TRUE(eventually([this] { return table_->all_sent(); }));
    }
    /// Of the one that takes changes, else of any; empty when there is none.
    [[nodiscard]] std::string ask(const std::string& sql, const char* whom = "read-write") const
        try {
        const std::string dsn = standby_->beside(primary_.dsn());
        const char mark = dsn.find('?') == std::string::npos ? '?' : '&';
        return server::testing::run_on(dsn + mark + "target_session_attrs=" + whom, sql);
    } catch (const std::exception&) {
        return {};
    }
    [[nodiscard]] std::string entries(const char* whom = "read-write") const {
        return ask("select count(*) from entry where match_id = '" + id_ + "'", whom);
    }

    /// `meanwhile`: steps that the table plays while there is no database.
    void goes_on_with_a_standby_behind(int meanwhile) {
        play_and_send(31, 12);
        const std::string kept = entries();
        ASSERT_TRUE(eventually([this] { return standby_->follows() && standby_->has_all(); }));
        standby_->stop_following();
        ASSERT_TRUE(eventually([this] { return !standby_->follows(); }));
        play_and_send(32, 8);
        const std::string sent = entries();
        const std::string before = ask("select generation from tournament");
        ASSERT_LT(std::stoi(kept), std::stoi(sent));

        primary_.kill9();
        play(33, meanwhile);
        const auto journaled = bytes_of_journal(table_->journal(), id_);
        ASSERT_EQ(std::stoul(sent) < journaled.size(), meanwhile > 0);
        ASSERT_EQ(entries("any"), kept) << "the standby is behind";
        standby_->promote();
        expect_all_comes_back(journaled);
        const std::string after = ask("select generation from tournament");
        EXPECT_FALSE(before.empty() || after.empty());
        EXPECT_NE(after, before);
    }
    void expect_all_comes_back(const std::vector<std::string>& journaled) {
        EXPECT_TRUE(eventually([&] {
            return entries() == std::to_string(journaled.size()) && table_->all_sent();
        })) << table_->status(id_).last_error
            << venue_->host().log();
        EXPECT_EQ(venue_->record(folder_, id_), journaled) << "each once, in its order";
        EXPECT_EQ(ask("select count(*) from entry"), std::to_string(journaled.size()));
        EXPECT_EQ(ask("select count(*) from branch"), "0");
    }

    server::testing::PrivateCluster primary_;
    std::optional<server::testing::Standby> standby_;
    std::optional<Venue> venue_;
    std::filesystem::path folder_;
    std::unique_ptr<TableStation> table_;
    std::string id_;
    std::unique_ptr<JournaledMatch> match_;
};

// The server is never restarted: it waits for the standby, goes on with it, and has its tables send
// what the standby never had, and what was recorded meanwhile.
TEST_F(LostPrimary, WhatAStandbyThatWasBehindDoesNotHaveIsSentAgain) {
    goes_on_with_a_standby_behind(4);
}

TEST_F(LostPrimary, ATableThatRecordsNothingMoreSendsItAgainToo) {
    goes_on_with_a_standby_behind(0);
}

}  // namespace
}  // namespace courthand::client
