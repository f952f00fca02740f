// A match that one side has lost: the server by a restore, the device by damage to its journal. The
// record is carried over all the same, or it is told that it is not.
#include "client/session/news.h"
#include "tests/unit/client/sync_engine_kit.h"

namespace courthand::client {
namespace {

class LostMatch : public SyncEngineTest {
  protected:
    void SetUp() override {
        SyncEngineTest::SetUp();
        options_.between_compared = 1ms;
        // Only what a test does may bring another offer.
        options_.offer_again = 1h;
        server_.set_header("generation-one--", "1.0");
    }
    [[nodiscard]] static std::string id_of(const std::string& match_id) {
        return wire::Uuid::from_text(match_id)->to_bytes();
    }
    /// Plays the match a little and sends it; the server puts it on the court as `describe` says.
    void play_and_send(const std::string& id,
                       const std::function<void(v1::FetchMatchResponse&)>& describe) {
        SyncEngine engine{*journal_, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return journal_->match(id).has_value(); }));
        play(*open_match(id, &engine), 3, 19);
        ASSERT_TRUE(eventually([&] { return engine.status(id).all_sent(); }));
        v1::FetchMatchResponse kept;
        ASSERT_TRUE(kept.ParseFromString(journal_->match(id)->sheet));
        describe(kept);
        server_.put_on_court(kept);
        server_.tell_change();
        ASSERT_TRUE(eventually([&] {
            v1::FetchMatchResponse now;
            return now.ParseFromString(journal_->match(id)->sheet) &&
                   now.match().number() == kept.match().number() &&
                   now.writer().self_granted() == kept.writer().self_granted();
        }));
        ASSERT_TRUE(eventually([&] { return !journal_->setting(compared_setting).empty(); }));
        engine.stop();
    }
    /// The server is put back from a time before the match.
    void lose(const std::string& id) {
        server_.make_unknown(id_of(id));
        server_.set_header("generation-two--", "1.0");
    }
    void expect_all_of_it_arrives(const std::string& id) {
        SyncEngine& engine = start_engine();
        EXPECT_TRUE(eventually([&] { return same_record(id) && engine.status(id).all_sent(); }))
            << engine.status(id).last_error;
        EXPECT_EQ(server_.record(id_of(id)).size(), 20U);
        engine.stop();
    }
};

// The server's own description of the match had taken the place of the table's, and with it went
// the word that the table had opened it.
TEST_F(LostMatch, OpenedAtATableAndTakenOverSinceIsMadeAnew) {
    const std::string id = start_own_match();
    play_and_send(id, [this](v1::FetchMatchResponse& kept) {
        kept.mutable_writer()->set_number(2);
        kept.mutable_writer()->set_self_granted(false);
        kept.mutable_writer()->set_grant_id(std::string(16, 'g'));
        kept.mutable_writer()->set_device_id(id_bytes(device_));
    });
    lose(id);
    expect_all_of_it_arrives(id);
}

TEST_F(LostMatch, OpenedAtATableAndNumberedByTheDeskIsMadeAnew) {
    const std::string id = start_own_match();
    play_and_send(id, [](v1::FetchMatchResponse& kept) { kept.mutable_match()->set_number(31); });
    lose(id);
    expect_all_of_it_arrives(id);
}

// The desk cannot make it again: a match that is planned anew has another id.
TEST_F(LostMatch, OfTheDeskIsMadeAnew) {
    const std::string id = put_on_court();
    play_and_send(id, [](v1::FetchMatchResponse&) {});
    lose(id);
    expect_all_of_it_arrives(id);
}

TEST_F(LostMatch, OfAnotherTournamentIsNeverMadeInThisOne) {
    const std::string id = start_own_match();
    play(*open_match(id, nullptr), 3, 19);
    device_.tournament_id = "01900000-0000-7000-b000-000000000002";
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.status(id).refused == 20; }));
    EXPECT_NE(engine.status(id).last_error.find("made at the server"), std::string::npos);
    ASSERT_TRUE(eventually([&] { return !journal_->setting(compared_setting).empty(); }));
    const int pushes = server_.pushes;
    for (int i = 0; i < 5; ++i) engine.wake();
    std::this_thread::sleep_for(60ms);
    engine.stop();
    EXPECT_TRUE(server_.record(id_of(id)).empty());
    EXPECT_LE(server_.pushes - pushes, 1) << "the server is not asked again and again";
}

/// A journal that kept the entries of a match and lost its sheet.
class LostSheet : public LostMatch {
  protected:
    void SetUp() override {
        LostMatch::SetUp();
        id_ = put_on_court();
        const ScratchFolder before;
        const auto whole = open_journal(before.path());
        {
            SyncEngine engine{*whole, server_, device_, options_};
            engine.start();
            ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
            engine.stop();
        }
        auto opened = JournaledMatch::open(*whole, device_, id_, {});
        play(*std::get<0>(opened), 3, 19);
        for (const JournalEntry& entry : whole->entries(id_)) ASSERT_FALSE(journal_->append(entry));
    }
    std::string id_;
};

TEST_F(LostSheet, IsFetchedAndTheEntriesAreSent) {
    const std::string next = put_on_court(13);
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return same_record(id_) && engine.status(next).all_sent(); }));
    EXPECT_TRUE(journal_->match(id_));
    engine.stop();
}

TEST_F(LostSheet, IsToldWhileTheServerDoesNotShowTheMatch) {
    const std::string next = put_on_court(13);
    server_.hide(id_of(id_));
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == next; }));
    EXPECT_EQ(engine.status(next).elsewhere, 20U);
    EXPECT_FALSE(engine.status(next).all_sent());
    EXPECT_TRUE(eventually([&] {
        return engine.status(next).last_error.find("sheet is lost") != std::string::npos;
    })) << engine.status(next).last_error;
    engine.stop();
    EXPECT_EQ(server_.pushes, 0) << "it may have been a practice";
}

// A practice never was at the server: its lost sheet was an error of every match for ever.
TEST_F(LostSheet, OfAMatchThatTheServerDoesNotKnowIsToldOnceAndCountsForNoOther) {
    const std::string next = put_on_court(13);
    server_.make_unknown(id_of(id_));
    options_.offer_again = 1ms;
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == next; }));
    ASSERT_TRUE(eventually([&] { return engine.status(next).all_sent(); }))
        << engine.status(next).last_error;
    EXPECT_TRUE(eventually([&] { return engine.status(next).last_error.empty(); }))
        << engine.status(next).last_error;
    const auto news = unseen_news(*journal_);
    ASSERT_EQ(news.size(), 1U);
    EXPECT_NE(news[0].find("sheet is lost"), std::string::npos) << news[0];
    ASSERT_FALSE(forget_news(*journal_, news[0]));
    const int fetches = server_.fetches;
    engine.wake();
    ASSERT_TRUE(eventually([&] { return server_.fetches > fetches; })) << "it is asked for on";
    EXPECT_TRUE(unseen_news(*journal_).empty());
    EXPECT_EQ(server_.pushes, 0) << "it may have been a practice";
    // A server that knows it after all gets the entries.
    v1::FetchMatchResponse found;
    ASSERT_TRUE(found.ParseFromString(journal_->match(next)->sheet));
    found.mutable_match()->set_match_id(id_of(id_));
    server_.put_on_court(found);
    EXPECT_TRUE(eventually([&] { return same_record(id_); }));
    engine.stop();
}

}  // namespace
}  // namespace courthand::client
