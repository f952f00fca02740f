// Which matches are on the court of the device: one that was moved away is let go with its reason,
// and one that cannot be kept stands in the way of no other.
#include "tests/unit/client/sync_engine_kit.h"

namespace courthand::client {
namespace {

class MovedMatch : public SyncEngineTest {
  protected:
    /// The table has begun the match of its court and sent what it wrote.
    void begin() {
        id_ = put_on_court();
        SyncEngine& engine = start_engine();
        ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
        match_ = open_match(id_, &engine);
        play(*match_, 7, 40);
        ASSERT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    }
    [[nodiscard]] std::uint16_t court_of_sheet() {
        const auto stored = journal_->match(id_);
        return stored ? std::get<StoredSheet>(read_sheet(*stored)).sheet.court : 0;
    }
    [[nodiscard]] std::string bytes_of_id() const { return wire::Uuid::from_text(id_)->to_bytes(); }
    void TearDown() override {
        if (engine_) engine_->stop();
    }

    std::string id_;
    std::unique_ptr<JournaledMatch> match_;
};

TEST_F(MovedMatch, IsLetGoAndThePersonIsToldWhy) {
    begin();
    server_.move_to_court(5);
    ASSERT_TRUE(eventually([&] { return court_of_sheet() == 5; })) << "the table never hears of it";
    ASSERT_TRUE(eventually([&] { return engine_->court_match().empty(); }));
    match_->poll();
    EXPECT_EQ(match_->sheet().court, 5);
    EXPECT_NE(engine_->status(id_).last_error.find("court 5"), std::string::npos)
        << engine_->status(id_).last_error;
    // What is still written here is not lost, as long as no other table goes on.
    ASSERT_FALSE(match_->record(Fact{Note{Note::Kind::remark}}, "one more").error);
    EXPECT_TRUE(eventually([&] { return engine_->status(id_).all_sent(); }));
    EXPECT_TRUE(same_record(id_));
}

TEST_F(MovedMatch, IsTheTablesAgainWhenTheDeskPutsItBack) {
    begin();
    server_.move_to_court(5);
    ASSERT_TRUE(eventually([&] { return court_of_sheet() == 5; }));
    v1::FetchMatchResponse back;
    ASSERT_TRUE(back.ParseFromString(journal_->match(id_)->sheet));
    back.mutable_match()->set_court(4);
    server_.put_on_court(back);
    server_.tell_change();
    EXPECT_TRUE(eventually([&] { return court_of_sheet() == 4; }));
    EXPECT_TRUE(eventually([&] { return engine_->status(id_).last_error.empty(); }));
}

// It was begun without a network, so the server shows it to its new court only.
TEST_F(MovedMatch, OfWhichTheServerHasNothingIsLetGoToo) {
    id_ = put_on_court();
    {
        SyncEngine& engine = start_engine();
        ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
        engine.stop();
    }
    match_ = open_match(id_, nullptr);
    play(*match_, 7, 5);
    server_.move_to_court(5);
    server_.hide(bytes_of_id());
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return court_of_sheet() == 0; }));
    EXPECT_TRUE(eventually([&] { return engine.status(id_).refused > 0; }));
    EXPECT_NE(engine.status(id_).last_error, "") << "and why its entries are not sent";
}

// It stayed on the screen of a table that is not to play it.
TEST_F(MovedMatch, ThatNobodyHasBegunIsLetGoToo) {
    id_ = put_on_court();
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
    server_.move_to_court(5);
    EXPECT_TRUE(eventually([&] { return court_of_sheet() == 5; }));
}

TEST_F(MovedMatch, ThatNobodyHasBegunIsLetGoWhenOnlyItsNewCourtMaySeeIt) {
    id_ = put_on_court();
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
    server_.hide(bytes_of_id());
    server_.move_to_court(5);
    EXPECT_TRUE(eventually([&] { return court_of_sheet() == 0; }));
    // Once that is known it is not asked about again.
    const int fetches = server_.fetches;
    engine.look_at_court();
    ASSERT_TRUE(eventually([&] { return server_.fetches > fetches; }));
    engine_->stop();
    EXPECT_EQ(server_.fetches, fetches + 1);
}

TEST_F(MovedMatch, OfThisTableThatTheServerHasNotHeardOfStays) {
    id_ = start_own_match();
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return server_.fetches > 0; }));
    engine.look_at_court();
    ASSERT_TRUE(eventually([&] { return server_.fetches > 1; }));
    engine.stop();
    EXPECT_EQ(court_of_sheet(), 4);
}

// ---- matches that cannot be kept ---------------------------------------------------------------

class CourtList : public SyncEngineTest {
  protected:
    static void add_players(v1::Team& team, std::size_t name_bytes) {
        for (std::uint32_t number = 1; number <= most_players; ++number) {
            v1::RosterPlayer& player = *team.add_players();
            player.set_number(number);
            player.set_name(std::string(name_bytes, 'n'));
        }
    }
    /// The match of the court with lists of that size.
    std::string put_with_lists(std::size_t name_bytes) {
        const std::string id = put_on_court();
        v1::FetchMatchResponse answer = std::get<v1::FetchMatchResponse>(server_.fetch({}));
        add_players(*answer.mutable_first_roster(), name_bytes);
        add_players(*answer.mutable_second_roster(), name_bytes);
        server_.put_on_court(answer);
        return id;
    }
    void TearDown() override {
        if (engine_) engine_->stop();
    }
};

TEST_F(CourtList, ASheetWithNamesBeyondTheRoomIsKeptWithoutThem) {
    const std::string id = put_with_lists(200);
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id; })) << "the court has no match";
    const auto match = open_match(id, &engine);
    ASSERT_EQ(match->sheet().players.a.size(), most_players)
        << "the numbers are what is played with";
    EXPECT_EQ(match->sheet().players.b.back().number, Jersey{most_players});
    EXPECT_EQ(match->sheet().players.b.back().name, "");
}

TEST_F(CourtList, NamesThatHaveRoomStay) {
    const std::string id = put_with_lists(40);
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id; }));
    EXPECT_EQ(open_match(id, &engine)->sheet().players.a.front().name, std::string(40, 'n'));
}

TEST_F(CourtList, AFollowingMatchThatCannotBeFetchedKeepsNoOtherFromTheTable) {
    const std::string id = put_on_court();
    v1::FetchMatchResponse answer = std::get<v1::FetchMatchResponse>(server_.fetch({}));
    const auto follow = [&](char c) {
        v1::Match& next = *answer.add_following();
        next = answer.match();
        next.set_match_id(std::string(16, c));
        return wire::Uuid::from_bytes(next.match_id())->to_text();
    };
    const std::string hidden = follow('h');
    const std::string shown = follow('s');
    server_.put_on_court(answer);
    server_.hide(std::string(16, 'h'));
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id; })) << "the court has no match";
    EXPECT_EQ(journal_->setting(court_following_setting), shown);
    EXPECT_FALSE(journal_->match(hidden));
}

// The list was kept without it, and nobody asked again.
TEST_F(CourtList, AFollowingMatchThatTheServerFailedForOnceIsFetchedLater) {
    const std::string id = put_on_court();
    v1::FetchMatchResponse answer = std::get<v1::FetchMatchResponse>(server_.fetch({}));
    v1::Match& next = *answer.add_following();
    next = answer.match();
    next.set_match_id(std::string(16, 's'));
    const std::string following = wire::Uuid::from_bytes(next.match_id())->to_text();
    server_.put_on_court(answer);
    server_.fail_fetch_of(next.match_id());
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id; })) << "the court has no match";
    EXPECT_FALSE(journal_->match(following));
    server_.fail_fetch_of(next.match_id(), false);
    EXPECT_TRUE(eventually([&] { return journal_->setting(court_following_setting) == following; }))
        << "nobody asks again";
    // One that is kept stays in the list while the server fails for it.
    server_.fail_fetch_of(next.match_id());
    server_.put_on_court(answer);
    const int fetches = server_.fetches;
    engine.look_at_court();
    ASSERT_TRUE(eventually([&] { return server_.fetches > fetches + 3; }));
    EXPECT_EQ(journal_->setting(court_following_setting), following);
}

}  // namespace
}  // namespace courthand::client
