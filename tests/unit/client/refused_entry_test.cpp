// Entries that the server does not take, or keeps beside the record: nothing is refused for ever,
// nothing is hidden, and the screen never says that all is sent.
#include <functional>

#include "tests/unit/client/sync_engine_kit.h"

namespace courthand::client {
namespace {

class RefusedEntry : public SyncEngineTest {
  protected:
    void SetUp() override {
        SyncEngineTest::SetUp();
        // Only what a test does may bring another offer.
        options_.offer_again = 1h;
        id_ = start_own_match();
        match_ = open_match(id_, nullptr);
        play(*match_, 3, 19);
        ASSERT_EQ(match_->records().size(), 20U);
    }
    [[nodiscard]] std::string bytes_of_id() const { return wire::Uuid::from_text(id_)->to_bytes(); }

    std::string id_;
    std::unique_ptr<JournaledMatch> match_;
};

TEST_F(RefusedEntry, IsToldKeptAndDeliveredLater) {
    server_.refuse(5, 1, v1::PushResult::CAUSE_UNREADABLE);
    options_.offer_again = 300ms;
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return journal_->count(id_, EntryStanding::refused) == 1; }));
    const SyncStatus meanwhile = engine.status(id_);
    if (meanwhile.refused != 0) {
        EXPECT_EQ(meanwhile.waiting, 15U) << "what follows is not lost";
        EXPECT_FALSE(meanwhile.all_sent());
        EXPECT_NE(meanwhile.last_error.find("entry 5"), std::string::npos) << meanwhile.last_error;
        EXPECT_NE(meanwhile.last_error.find("not known here"), std::string::npos);
    }
    EXPECT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    EXPECT_TRUE(same_record(id_));
    EXPECT_EQ(engine.status(id_).last_error, "");
    engine.stop();
}

TEST_F(RefusedEntry, StaysToldOverARestartAndIsOfferedAtEachStart) {
    server_.refuse(5, 2, v1::PushResult::CAUSE_UNKNOWN_MATCH);
    for (int start = 0; start < 2; ++start) {
        SyncEngine engine{*journal_, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return server_.pushes > start; }));
        ASSERT_TRUE(eventually([&] { return engine.status(id_).refused == 1; }));
        EXPECT_NE(engine.status(id_).last_error.find("made at the server"), std::string::npos);
        engine.stop();
    }
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    engine.stop();
    EXPECT_TRUE(same_record(id_));
}

TEST_F(RefusedEntry, IsOfferedAgainWhenTheServerIsAnother) {
    struct Change {
        const char* what;
        std::uint32_t seq;
        v1::PushResult::Cause cause;
        std::function<void()> happen;
    };
    const std::vector<Change> changes{
        {"version", 5, v1::PushResult::CAUSE_UNREADABLE,
         [this] { server_.set_header("generation-one--", "1.1"); }},
        {"generation", 5, v1::PushResult::CAUSE_UNREADABLE,
         [this] { server_.set_header("generation-two--", "1.1"); }},
        {"list of matches", 1, v1::PushResult::CAUSE_UNKNOWN_MATCH, [this] { put_on_court(14); }},
    };
    server_.set_header("generation-one--", "1.0");
    for (const Change& change : changes) {
        SCOPED_TRACE(change.what);
        const std::string id = start_own_match();
        play(*open_match(id, nullptr), 3, 19);
        server_.refuse(change.seq, 1000, change.cause);
        SyncEngine& engine = start_engine();
        ASSERT_TRUE(eventually([&] { return engine.status(id).refused == 1; }));
        server_.refuse(0, 0, v1::PushResult::CAUSE_UNSPECIFIED);
        change.happen();
        server_.tell_change();
        EXPECT_TRUE(eventually([&] { return engine.status(id).all_sent(); }));
        engine.stop();
        EXPECT_TRUE(same_record(id));
    }
}

TEST_F(RefusedEntry, KeepsNoOtherMatchFromTheServer) {
    server_.refuse(5, 1000, v1::PushResult::CAUSE_UNREADABLE);
    const std::string other = start_own_match();
    const auto match = open_match(other, nullptr);
    sim::MatchPlayer player{8};
    for (int i = 0; i < 4; ++i)
        ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "no fifth entry").error);
    // Three entries and the beginning: entry 5 is refused in every match.
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] {
        return journal_->count(other, EntryStanding::acknowledged) == 4 &&
               journal_->count(id_, EntryStanding::acknowledged) == 4;
    }));
    EXPECT_GT(engine.status(id_).elsewhere, 0U) << "another match is not all sent either";
    engine.stop();
}

// The whole engine waited longer and longer, and no entry cut that short.
TEST_F(RefusedEntry, AMatchThatLastinglyFailsSlowsNoOther) {
    options_.back_off = {1h, 1h};
    options_.look_again = 1h;
    server_.fail_for(bytes_of_id());
    const std::string other = start_own_match();
    SyncEngine& engine = start_engine();
    const auto match = open_match(other, &engine);
    for (std::size_t sent = 1; sent <= 5; ++sent) {
        ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "at full speed").error);
        ASSERT_TRUE(eventually([&] {
            return journal_->count(other, EntryStanding::acknowledged) == match->records().size();
        }));
    }
    EXPECT_EQ(server_.pushes_of(bytes_of_id()), 1) << "and the server is not run down by it";
    const SyncStatus status = engine.status(id_);
    EXPECT_EQ(status.link, SyncStatus::Link::online);
    EXPECT_NE(status.last_error.find("cannot answer"), std::string::npos) << status.last_error;
    engine.stop();
}

TEST_F(RefusedEntry, AMatchThatFailedIsTriedAgainAfterItsPause) {
    server_.fail_for(bytes_of_id());
    options_.look_again = 1h;
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return server_.pushes_of(bytes_of_id()) >= 3; }));
    server_.fail_for(bytes_of_id(), false);
    EXPECT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    EXPECT_TRUE(eventually([&] { return engine.status(id_).last_error.empty(); }));
    engine.stop();
    EXPECT_TRUE(same_record(id_));
}

// ---- what "saved and sent" means -------------------------------------------------------------

using SavedAndSent = RefusedEntry;

TEST_F(SavedAndSent, IsSaidOnlyWhenItIsTrue) {
    using Standing = EntryStanding;
    const auto settle_all = [this] {
        std::vector<Journal::Settled> all;
        for (std::uint32_t seq = 1; seq <= 20; ++seq) all.push_back({seq, Standing::acknowledged});
        ASSERT_FALSE(journal_->settle(id_, all));
    };
    const auto settle = [this](Standing standing) {
        ASSERT_FALSE(journal_->settle(id_, {{20, standing}}));
    };
    const auto rule = [this](const std::string& match_id) {
        v1::RulingNotice notice;
        notice.set_match_id(wire::Uuid::from_text(match_id)->to_bytes());
        ASSERT_FALSE(journal_->store({}, {{ruling_setting("a"), notice.SerializeAsString()}}));
    };
    const std::string other = start_own_match();
    const auto other_match = open_match(other, nullptr);
    Device stranger = device_;
    stranger.enrolled = false;
    const StoredMatch practice = open_here(stranger, 4, "international-2025", {"A", "B"});
    struct Path {
        const char* name;
        bool sent;
        std::function<void()> arrange;
    };
    const std::vector<Path> paths{
        {"all is in the record", true, [] {}},
        {"an entry waits", false, [&] { settle(Standing::waiting); }},
        {"an entry was refused", false, [&] { settle(Standing::refused); }},
        {"an entry lies beside the record", false, [&] { settle(Standing::on_branch); }},
        {"a ruling is still to be recorded", false, [&] { rule(id_); }},
        {"that ruling is dealt with", true,
         [&] {
             ASSERT_FALSE(journal_->store({}, {{ruling_setting("a"), ""}}));
         }},
        {"a ruling of another match is still to be recorded", false, [&] { rule(other); }},
        {"a ruling waits for a match that is not here", true, [&] { rule(match_two); }},
        {"a practice match was played", true,
         [&] {
             ASSERT_FALSE(journal_->store({practice}, {}));
             play(*open_match(practice.match_id, nullptr), 5, 3);
         }},
        {"an entry of another match waits", false,
         [&] { ASSERT_FALSE(other_match->record(Fact{Note{Note::Kind::remark}}, "x").error); }},
        {"that one lies beside the record", false,
         [&] {
             ASSERT_FALSE(
                 journal_->settle(other, {{1, Standing::acknowledged}, {2, Standing::on_branch}}));
         }},
        {"it was set aside, and the server has it", true,
         [&] { ASSERT_FALSE(journal_->set_aside_after(other, 1, "test")); }},
        {"an entry was set aside that the server refused", false,
         [&] {
             settle(Standing::refused);
             ASSERT_FALSE(journal_->set_aside_after(id_, 19, "test"));
         }},
        {"the server took it beside the record", true,
         [&] {
             const auto aside = journal_->aside(id_, 0, 10);
             ASSERT_EQ(aside.size(), 1U);
             ASSERT_FALSE(journal_->settle_aside({{aside[0].id, Standing::on_branch}}));
         }},
    };
    const SyncEngine engine{*journal_, server_, device_, options_};
    for (const Path& path : paths) {
        settle_all();
        path.arrange();
        EXPECT_EQ(engine.status(id_).all_sent(), path.sent) << path.name;
    }
}

// The first answer of a fenced push is lost; the second says "had it before".
TEST_F(RefusedEntry, ABranchIsToldAlsoWhenTheFirstAnswerWasLost) {
    server_.set_fenced(true);
    server_.drop_next_answer();
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    EXPECT_GE(server_.pushes, 2);
    EXPECT_EQ(journal_->count(id_, EntryStanding::on_branch), 20U);
    const SyncStatus status = engine.status(id_);
    EXPECT_EQ(status.beside, 20U);
    EXPECT_FALSE(status.all_sent());
    engine.stop();
}

TEST_F(RefusedEntry, AnEntryPromotedFromItsBranchBecomesAcknowledged) {
    server_.set_fenced(true);
    options_.offer_again = 20ms;
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.status(id_).beside == 20; }));
    server_.promote(bytes_of_id());
    EXPECT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    EXPECT_EQ(journal_->count(id_, EntryStanding::acknowledged), 20U);
    engine.stop();
}

// ---- a database that went back ---------------------------------------------------------------

class Restored : public RefusedEntry {
  protected:
    void SetUp() override {
        RefusedEntry::SetUp();
        server_.set_header("generation-one--", "1.0");
        options_.between_compared = 1ms;
        SyncEngine engine{*journal_, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] {
            return engine.status(id_).all_sent() && !journal_->setting(compared_setting).empty();
        }));
        engine.stop();
        for (const JournalEntry& entry : journal_->entries(id_)) bytes_.push_back(entry.bytes);
    }
    std::vector<std::string> bytes_;
};

TEST_F(Restored, AMatchThatIsNoLongerOnTheCourtIsSentAgain) {
    put_on_court(15);
    server_.forget_after(bytes_of_id(), 8);
    server_.set_header("generation-two--", "1.0");
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return same_record(id_); }));
    EXPECT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    engine.stop();
}

TEST_F(Restored, AMatchTheServerDoesNotKnowAnyMoreIsSentAgain) {
    server_.make_unknown(bytes_of_id());
    server_.set_header("generation-two--", "1.0");
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return same_record(id_); }));
    engine.stop();
}

// The server shows it to this device no more: it was passed over, and nobody heard of the loss.
TEST_F(Restored, AMatchThatMovedAwayIsSentAgainAndItsRefusalIsTold) {
    put_on_court(15);
    server_.hide(bytes_of_id());
    server_.set_record(bytes_of_id(), {});
    server_.set_header("generation-two--", "1.0");
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.status(id_).refused > 0; }));
    EXPECT_FALSE(engine.status(id_).all_sent());
    EXPECT_NE(engine.status(id_).last_error.find("court of this device"), std::string::npos)
        << engine.status(id_).last_error;
    // The desk gives the match back to the court.
    server_.hide(bytes_of_id(), false);
    put_on_court(16);
    server_.tell_change();
    EXPECT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    EXPECT_TRUE(same_record(id_));
    engine.stop();
}

// A match of another device that has left the court is that device's to send.
TEST_F(Restored, AMatchThatOnlyAnotherDeviceWroteIsNotReportedAsLost) {
    device_.id = "01900000-0000-7000-a000-00000000000c";
    server_.hide(bytes_of_id());
    server_.set_header("generation-two--", "1.0");
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] {
        return ServerMark::from_bytes(journal_->setting(compared_setting)).generation ==
               "generation-two--";
    }));
    EXPECT_TRUE(engine.status(id_).all_sent());
    engine.stop();
}

TEST_F(Restored, AFinishedMatchIsSentAgain) {
    const std::string over = start_own_match();
    play(*open_match(over, nullptr), 6, 2000);
    const std::string over_bytes = wire::Uuid::from_text(over)->to_bytes();
    {
        SyncEngine engine{*journal_, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return engine.status(over).all_sent(); }));
        engine.stop();
    }
    ASSERT_EQ(open_match(over, nullptr)->state().set.stage, Stage::match_over);
    put_on_court(15);
    server_.forget_after(over_bytes, 100);
    server_.set_header("generation-two--", "1.0");
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return same_record(over) && engine.status(over).all_sent(); }));
    engine.stop();
}

// What a match went on without is only on a branch of the server; a restore may lose that.
TEST_F(Restored, EntriesThatWereSetAsideAreSentAgain) {
    std::vector<Journal::Settled> branched;
    for (std::uint32_t seq = 15; seq <= 20; ++seq)
        branched.push_back({seq, EntryStanding::on_branch});
    ASSERT_FALSE(journal_->settle(id_, branched));
    ASSERT_FALSE(journal_->set_aside_after(id_, 14, "another device wrote on"));
    std::vector<std::string> others{bytes_.begin(), bytes_.begin() + 14};
    while (others.size() < 30) others.push_back("another device's entry");
    server_.set_record(bytes_of_id(), others);
    server_.set_header("generation-two--", "1.0");
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return server_.branch(bytes_of_id()).size() == 6; }));
    engine.stop();
}

// Numbers alone do not tell: another device has filled them since.
TEST_F(Restored, EntriesWhosePlaceAnotherRecordFillsLandOnABranch) {
    std::vector<std::string> others{bytes_.begin(), bytes_.begin() + 8};
    while (others.size() < bytes_.size()) others.push_back("another device's entry");
    server_.set_record(bytes_of_id(), others);
    server_.set_header("generation-two--", "1.0");
    SyncEngine& engine = start_engine();
    EXPECT_TRUE(eventually([&] { return engine.status(id_).beside == 12; }));
    EXPECT_EQ(server_.branch(bytes_of_id()).size(), 12U);
    EXPECT_EQ(journal_->count(id_, EntryStanding::acknowledged), 8U);
    const std::string words = engine.status(id_).last_error;
    EXPECT_NE(words.find("other entries in their place"), std::string::npos) << words;
    EXPECT_EQ(words.find("Another device writes"), std::string::npos) << "as far as anyone knows";
    engine.stop();
}

TEST_F(Restored, OnePassIsMadeForEachChange) {
    server_.set_header("generation-two--", "1.0");
    SyncEngine& engine = start_engine();
    const auto compared = [&] {
        return ServerMark::from_bytes(journal_->setting(compared_setting)).generation;
    };
    ASSERT_TRUE(eventually([&] { return compared() == "generation-two--"; }));
    const int fetches = server_.fetches;
    for (int i = 0; i < 5; ++i) engine.wake();
    std::this_thread::sleep_for(60ms);
    EXPECT_LE(server_.fetches - fetches, 1) << "the records are compared once";
    engine.stop();
}

}  // namespace
}  // namespace courthand::client
