// The sync engine against a server in memory that cuts, forgets, fences and refuses at will.
//
// Goal: whatever happens on the way, the server ends with exactly the journal's bytes in order,
// and the journal knows it. No gRPC is linked, so this also runs under the thread sanitizer.
#include <gtest/gtest.h>

#include "tests/unit/client/sync_engine_kit.h"
#include "tests/unit/client/synced_files.h"

namespace courthand::client {
namespace {

TEST_F(SyncEngineTest, EverythingArrivesThroughCutsOnBothWays) {
    const std::string id = start_own_match();
    server_.set_cut(400);
    SyncEngine& engine = start_engine();
    const auto match = open_match(id, &engine);
    play(*match, 5, 400);
    EXPECT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    engine.stop();
    EXPECT_TRUE(same_record(id));
}

TEST_F(SyncEngineTest, AMatchPlayedWithNoServerArrivesLater) {
    const std::string id = start_own_match();
    {
        const auto match = open_match(id, nullptr);
        play(*match, 6, 2000);
        EXPECT_EQ(match->state().set.stage, Stage::match_over);
    }
    EXPECT_GT(journal_->waiting_count(), 200U);
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    engine.stop();
    EXPECT_TRUE(same_record(id));
}

TEST_F(SyncEngineTest, AServerThatForgotGetsTheRestAgain) {
    const std::string id = start_own_match();
    const auto match = open_match(id, nullptr);
    server_.set_lossy(true);
    SyncEngine& engine = start_engine();
    sim::MatchPlayer player{9};
    for (int i = 0; i < 300; ++i) {
        const auto step = player.next(match->rules(), match->state());
        ASSERT_TRUE(step);
        ASSERT_FALSE((step->fact ? match->record(*step->fact) : match->strike_last()).error);
        engine.wake();
    }
    server_.set_lossy(false);
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "end").error);
    engine.wake();
    EXPECT_TRUE(eventually([&] { return journal_->waiting_count() == 0 && same_record(id); }));
    engine.stop();
}

// A spare device that only looks must not take the match from the one that is about to write it.
TEST_F(SyncEngineTest, LookingAtTheCourtClaimsNothingAndTheFirstEntryClaims) {
    const std::string id = put_on_court();
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id; }));
    const auto read = read_sheet(*journal_->match(id));
    const auto& sheet = std::get<StoredSheet>(read);
    EXPECT_EQ(sheet.sheet.number, 12U);
    EXPECT_EQ(sheet.writer.epoch, 0U);
    const auto match = open_match(id, &engine);
    EXPECT_EQ(journal_->last_seq(id), 0U) << "nobody has entered anything";
    EXPECT_EQ(match->state().opened, 1);
    EXPECT_EQ(server_.grants, 0);
    play(*match, 2, 60);
    EXPECT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    EXPECT_TRUE(same_record(id));
    // The desk puts another match on the court while this one is played.
    const std::string next = put_on_court(13);
    v1::WatchResponse change;
    change.mutable_change();
    change.set_cursor("c7");
    server_.tell(change);
    EXPECT_TRUE(eventually([&] { return engine.court_match() == next; }));
    EXPECT_EQ(journal_->setting(watch_cursor_setting), "c7");
    engine.stop();
    EXPECT_EQ(server_.grants, 0);
}

// A journal that lost its end gets it back, and the open session takes it in.
TEST_F(SyncEngineTest, WhatTheServerHoldsMoreComesBack) {
    const std::string id = put_on_court();
    const ScratchFolder before;
    std::uint64_t hash = 0;
    {
        const auto earlier = open_journal(before.path());
        SyncEngine engine{*earlier, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return engine.court_match() == id; }));
        auto opened = JournaledMatch::open(*earlier, device_, id, {});
        auto& match = *std::get<0>(opened);
        play(match, 4, 230);
        hash = state_hash(match.state());
        engine.wake();
        ASSERT_TRUE(eventually([&] { return earlier->waiting_count() == 0; }));
        engine.stop();
        // The first entries are all that a damaged journal kept.
        ASSERT_FALSE(journal_->store({*earlier->match(id)}, {}));
        const auto entries = earlier->entries(id);
        for (std::size_t i = 0; i < 40; ++i) ASSERT_FALSE(journal_->append(entries[i]));
    }
    const auto match = open_match(id, nullptr);
    EXPECT_EQ(match->records().size(), 40U);
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return same_record(id); }));
    EXPECT_EQ(journal_->count(id, EntryStanding::waiting), 0U) << "the server has them";
    EXPECT_TRUE(match->poll());
    EXPECT_EQ(state_hash(match->state()), hash);
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "goes on").error);
    engine.wake();
    EXPECT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    EXPECT_TRUE(same_record(id));
    engine.stop();
}

TEST_F(SyncEngineTest, TheWatchGoesOnFromItsCursor) {
    put_on_court();
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return !journal_->setting(watch_cursor_setting).empty(); }));
    v1::WatchResponse bookmark;
    bookmark.mutable_bookmark();
    bookmark.set_cursor("c99");
    server_.tell(bookmark);
    ASSERT_TRUE(eventually([&] { return journal_->setting(watch_cursor_setting) == "c99"; }));
    server_.end_watch();
    ASSERT_TRUE(eventually([&] { return server_.cursors().size() >= 2; }));
    engine.stop();
    EXPECT_EQ(server_.cursors()[0], "");
    EXPECT_EQ(server_.cursors()[1], "c99");
}

// What the watch says of an acknowledged entry moves the cursor alone: no commit of its own.
TEST_F(SyncEngineTest, ATouchIsOneCommitAndItsAcknowledgementOneMore) {
    options_.cursor_rest = 1h;
    const std::string id = put_on_court();
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id; }));
    const auto match = open_match(id, &engine);
    ASSERT_FALSE(match->record(Fact{Toss{Team::A, Team::A}}).error);
    ASSERT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    static_cast<void>(take_commits());
    constexpr int touches = 5;
    for (int touch = 0; touch < touches; ++touch) {
        ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "wet floor").error);
        ASSERT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
        v1::WatchResponse bookmark;
        bookmark.mutable_bookmark();
        bookmark.set_cursor("t" + std::to_string(touch));
        server_.tell(bookmark);
    }
    engine.stop();
    EXPECT_EQ(journal_->setting(watch_cursor_setting).substr(0, 1), "t")
        << "at the latest when it stops";
    EXPECT_LE(take_commits(), 2U * touches + 1U) << "and the one at the end";
}

TEST_F(SyncEngineTest, EntriesBesideTheRecordAreTold) {
    const std::string id = start_own_match();
    server_.set_fenced(true);
    const auto match = open_match(id, nullptr);
    play(*match, 3, 20);
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    ASSERT_TRUE(eventually([&] { return engine.status(id).link == SyncStatus::Link::online; }));
    EXPECT_NE(engine.status(id).last_error.find("beside the record"), std::string::npos);
    engine.stop();
    EXPECT_EQ(journal_->count(id, EntryStanding::on_branch), match->records().size());
}

TEST_F(SyncEngineTest, ARefusalIsShownAndNothingIsLost) {
    const std::string id = start_own_match();
    server_.set_refusal("This program is newer than the server: update the server.");
    const auto match = open_match(id, nullptr);
    play(*match, 3, 20);
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] {
        return engine.status(id).last_error.find("newer than the server") != std::string::npos;
    }));
    EXPECT_EQ(engine.status(id).waiting, match->records().size());
    server_.set_refusal("");
    EXPECT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    engine.stop();
    EXPECT_TRUE(same_record(id));
}

TEST_F(SyncEngineTest, APracticeMatchIsNeverSent) {
    Device stranger = device_;
    stranger.enrolled = false;
    const StoredMatch practice = open_here(stranger, 4, "international-2025", {"A", "B"});
    ASSERT_FALSE(journal_->store({practice}, {}));
    const auto match = open_match(practice.match_id, nullptr);
    play(*match, 3, 20);
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually(
        [&] { return engine.status(practice.match_id).link == SyncStatus::Link::online; }));
    engine.stop();
    EXPECT_EQ(server_.pushes, 0);
}

TEST_F(SyncEngineTest, OnlyAMatchOfTheVenueIsSaidToBeSentLater) {
    Device stranger = device_;
    stranger.enrolled = false;
    const StoredMatch practice = open_here(stranger, 4, "international-2025", {"A", "B"});
    ASSERT_FALSE(journal_->store({practice}, {}));
    const std::string own = start_own_match();
    server_.set_cut(1000);
    SyncEngine& engine = start_engine();
    const auto words = [&](const std::string& id) { return engine.status(id).last_error; };
    ASSERT_TRUE(eventually([&] {
        return words(own).find("will be sent later") != words(own).npos;
    })) << words(own);
    EXPECT_EQ(words(practice.match_id), "");
}

TEST_F(SyncEngineTest, ARulingReachesTheSession) {
    const std::string id = start_own_match();
    SyncEngine& engine = start_watching();
    tell_ruling(id, "a1", "c3");
    EXPECT_TRUE(eventually([&] { return journal_->settings(ruling_prefix).size() == 1; }));
    EXPECT_EQ(journal_->setting(watch_cursor_setting), "c3");
    engine.stop();
}

// A repeated notice overwrote "done" and was recorded a second time.
TEST_F(SyncEngineTest, ARulingThatIsDealtWithIsNotBroughtBackByTheSameNotice) {
    const std::string id = start_own_match();
    SyncEngine& engine = start_watching();
    tell_ruling(id, "a1", "c3");
    ASSERT_TRUE(eventually([&] { return journal_->settings(ruling_prefix).size() == 1; }));
    ASSERT_FALSE(journal_->store({}, {{journal_->settings(ruling_prefix)[0].first, ""}}));
    tell_ruling(id, "a1", "c4");
    ASSERT_TRUE(eventually([&] { return journal_->setting(watch_cursor_setting) == "c4"; }));
    EXPECT_TRUE(journal_->settings(ruling_prefix).empty());
    // Another ruling about the same alert is another notice.
    tell_ruling(id, "a1", "c5", true);
    EXPECT_TRUE(eventually([&] { return journal_->settings(ruling_prefix).size() == 1; }));
    engine.stop();
}

/// Rulings that wait for a match, as many as may.
class WaitingRulings : public SyncEngineTest {
  protected:
    void SetUp() override {
        SyncEngineTest::SetUp();
        id_ = put_on_court();
        start_engine();
        ASSERT_TRUE(eventually([&] { return engine_->court_match() == id_; }));
        std::vector<std::pair<std::string, std::string>> waiting;
        for (std::size_t i = 0; i < SyncEngine::most_waiting_rulings; ++i)
            waiting.emplace_back(ruling_setting(std::to_string(i)),
                                 notice(id_, std::to_string(i)).SerializeAsString());
        ASSERT_FALSE(journal_->store({}, waiting));
    }
    void TearDown() override { engine_->stop(); }
    [[nodiscard]] std::size_t waiting() { return journal_->settings(ruling_prefix).size(); }
    [[nodiscard]] bool told() {
        return engine_->status(id_).last_error.find("when those are recorded") != std::string::npos;
    }
    /// The table records one of them.
    void deal_with_one() {
        ASSERT_FALSE(journal_->store({}, {{journal_->settings(ruling_prefix)[0].first, ""}}));
        engine_->wake();
    }

    std::string id_;
};

// The cursor moved on, and the ruling was nowhere.
TEST_F(WaitingRulings, BeyondTheLimitNothingIsLostAndThePersonIsTold) {
    EXPECT_FALSE(told());
    for (const char* cursor : {"r0", "r1"}) tell_ruling(id_, std::string{"of "} + cursor, cursor);
    ASSERT_TRUE(eventually([&] { return told(); }));
    EXPECT_EQ(journal_->setting(watch_cursor_setting), "start") << "they come again from there";
    EXPECT_EQ(waiting(), SyncEngine::most_waiting_rulings);
    deal_with_one();
    ASSERT_TRUE(eventually([&] { return journal_->setting(watch_cursor_setting) == "r0"; }));
    EXPECT_EQ(waiting(), SyncEngine::most_waiting_rulings);
    deal_with_one();
    ASSERT_TRUE(eventually([&] { return journal_->setting(watch_cursor_setting) == "r1"; }));
    EXPECT_TRUE(eventually([&] { return !told(); }));
}

TEST_F(WaitingRulings, OfOneMatchKeepNoOthersOut) {
    tell_ruling(match_two, std::string{"of "} + "r0", "r0");
    ASSERT_TRUE(eventually([&] { return journal_->setting(watch_cursor_setting) == "r0"; }));
    EXPECT_EQ(waiting(), SyncEngine::most_waiting_rulings + 1);
    EXPECT_FALSE(told());
}

TEST_F(WaitingRulings, HideNoChangeOfTheCourt) {
    tell_ruling(id_, std::string{"of "} + "r0", "r0");
    ASSERT_TRUE(eventually([&] { return told(); }));
    const std::string next = put_on_court(13);
    server_.tell_change();
    EXPECT_TRUE(eventually([&] { return engine_->court_match() == next; }));
}

// The other device records it, and nobody tells this one: it said for ever that a ruling waits.
TEST_F(SyncEngineTest, ARulingWaitsNoLongerAtATableWhoseFinishedMatchAnotherDeviceWritesNow) {
    const std::string id = put_on_court();
    SyncEngine& engine = start_watching();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id; }));
    play(*open_match(id, &engine), 7, 20);
    ASSERT_TRUE(eventually([&] { return engine.status(id).all_sent(); }));
    v1::FetchMatchResponse kept;
    ASSERT_TRUE(kept.ParseFromString(journal_->match(id)->sheet));
    kept.mutable_match()->set_status(v1::MATCH_STATUS_FINISHED);
    ASSERT_FALSE(journal_->store({keep(kept)}, {}));
    server_.hand_elsewhere(kept.match(), id_bytes(device_));
    const std::string next = put_on_court(13);
    server_.tell_change();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == next; }));
    tell_ruling(id, "a1", "c3");
    ASSERT_TRUE(eventually([&] { return engine.status(next).rulings == 1; }));
    EXPECT_FALSE(engine.status(next).all_sent());
    server_.hand_elsewhere(kept.match(), std::string(16, 'o'));
    EXPECT_TRUE(eventually([&] { return engine.status(next).all_sent(); }))
        << engine.status(next).last_error;
    engine.stop();
}

}  // namespace
}  // namespace courthand::client
