// Who writes a match, seen from two devices of one court: the one that writes it and a spare one.
#include "client/session/news.h"
#include "client/session/told_aside.h"
#include "tests/unit/client/sync_engine_kit.h"

namespace courthand::client {
namespace {

class TakeOver : public SyncEngineTest {
  protected:
    void SetUp() override {
        SyncEngineTest::SetUp();
        old_device_ = device_;
        old_device_.id = "01900000-0000-7000-a000-00000000000a";
        old_journal_ = open_journal(old_folder_.path());
        id_ = put_on_court();
        // The old tablet plays, sends 120 entries and dies with two more in its journal.
        SyncEngine engine{*old_journal_, server_, old_device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
        old_match_ = open_on(*old_journal_, old_device_, engine);
        play(*old_match_, 7, 119);
        ASSERT_TRUE(eventually([&] { return old_journal_->waiting_count() == 0; }));
        engine.stop();
        ASSERT_EQ(server_.record(bytes_of_id()).size(), 120U);
        ASSERT_FALSE(old_match_->record(Fact{Note{Note::Kind::remark}}, "never sent").error);
        ASSERT_FALSE(old_match_->record(Fact{Note{Note::Kind::remark}}, "nor this").error);
    }
    [[nodiscard]] std::string bytes_of_id() const { return wire::Uuid::from_text(id_)->to_bytes(); }
    std::unique_ptr<JournaledMatch> open_on(Journal& journal, const Device& device,
                                            SyncEngine& engine) {
        SessionHooks hooks;
        hooks.written = [&engine] { engine.wake(); };
        hooks.sync_status = [&engine](const std::string& id) { return engine.status(id); };
        hooks.wish = [&engine](const std::string& id) { return engine.wish(id); };
        hooks.ask_to_go_on = [&engine](const std::string& id) { engine.ask_take_over(id); };
        auto opened = JournaledMatch::open(journal, device, id_, hooks);
        if (const auto* wrong = std::get_if<std::string>(&opened)) ADD_FAILURE() << *wrong;
        return std::move(std::get<0>(opened));
    }
    static ::testing::AssertionResult poll_until(JournaledMatch& match, Writing::Who who) {
        return eventually([&] {
            match.poll();
            return match.writing().who == who;
        });
    }

    /// The device that wrote first goes on where the record of the server ends; so many entries
    /// of it lie beside that, and the person is told.
    void expect_it_goes_on_at_120(SyncEngine& engine, std::size_t beside) {
        ASSERT_TRUE(eventually([&] {
            const auto kept = old_journal_->match(id_);
            const auto epoch = std::get<StoredSheet>(read_sheet(*kept)).writer.epoch;
            old_match_->poll();
            return epoch == 3 && old_match_->records().size() == 120;
        })) << "what waits keeps it from the record";
        EXPECT_EQ(old_match_->writing().who, Writing::Who::here);
        std::string told;
        for (const std::string& words : unseen_news(*old_journal_)) told += words;
        EXPECT_NE(told.find(std::to_string(beside) + " entries"), std::string::npos) << told;
        EXPECT_EQ(server_.branch(bytes_of_id()).size(), beside) << "nothing is lost";
        ASSERT_FALSE(old_match_->record(Fact{Note{Note::Kind::remark}}, "goes on").error);
        engine.wake();
        ASSERT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
        EXPECT_EQ(server_.record(bytes_of_id()).size(), 121U);
        std::vector<std::string> bytes;
        for (const JournalEntry& entry : old_journal_->entries(id_)) bytes.push_back(entry.bytes);
        EXPECT_EQ(bytes, server_.record(bytes_of_id()));
        EXPECT_EQ(old_journal_->entries(id_).back().epoch, 3U);
    }

    ScratchFolder old_folder_;
    Device old_device_;
    std::unique_ptr<Journal> old_journal_;
    std::unique_ptr<JournaledMatch> old_match_;
    std::string id_;
};

TEST_F(TakeOver, ASpareDeviceShowsTheMatchAndRecordsNothing) {
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
    const auto match = open_on(*journal_, device_, engine);
    EXPECT_EQ(match->writing().who, Writing::Who::elsewhere);
    EXPECT_EQ(match->records().size(), 120U) << "the record is shown as far as the server has it";
    const RecordResult result = match->record(Fact{Note{Note::Kind::remark}}, "here?");
    ASSERT_TRUE(result.error);
    EXPECT_NE(result.error->find("Ask to go on here"), std::string::npos);
    EXPECT_EQ(journal_->waiting_count(), 0U);
    EXPECT_EQ(server_.grants, 0) << "looking asks for nothing";
    // What the other device enters is seen.
    SyncEngine old{*old_journal_, server_, old_device_, options_};
    old.start();
    ASSERT_TRUE(eventually([&] { return old_journal_->waiting_count() == 0; }));
    v1::WatchResponse entries;
    entries.mutable_entries()->set_match_id(bytes_of_id());
    ASSERT_TRUE(eventually([&] {
        server_.tell(entries);
        engine.look_at_court();
        match->poll();
        return match->records().size() == 122;
    }));
    old.stop();
    engine.stop();
}

TEST_F(TakeOver, TheSpareDeviceAsksAndGoesOnAtTheLastEntryTheServerHas) {
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
    const auto match = open_on(*journal_, device_, engine);
    match->ask_to_go_on();
    ASSERT_TRUE(eventually([&] { return match->writing().wish == Writing::Wish::asked; }));
    EXPECT_TRUE(server_.wished());
    EXPECT_TRUE(match->record(Fact{Note{Note::Kind::remark}}, "not yet").error);
    server_.answer_wish(true);
    ASSERT_TRUE(poll_until(*match, Writing::Who::here));
    ASSERT_EQ(match->records().size(), 120U);
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "goes on here").error);
    ASSERT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    EXPECT_TRUE(same_record(id_));
    EXPECT_EQ(journal_->entries(id_).back().epoch, 2U);
    engine.stop();
}

TEST_F(TakeOver, ANoIsToldAndMayBeAskedAgain) {
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
    const auto match = open_on(*journal_, device_, engine);
    match->ask_to_go_on();
    ASSERT_TRUE(eventually([&] { return match->writing().wish == Writing::Wish::asked; }));
    server_.answer_wish(false);
    ASSERT_TRUE(eventually([&] { return match->writing().wish == Writing::Wish::declined; }));
    EXPECT_EQ(match->writing().who, Writing::Who::elsewhere);
    match->ask_to_go_on();
    ASSERT_TRUE(eventually([&] { return match->writing().wish == Writing::Wish::asked; }));
    EXPECT_EQ(server_.grants, 2);
    engine.stop();
}

// The server keeps one wish of a match: that of whoever asked last.
TEST_F(TakeOver, AWishThatAnotherSpareTookThePlaceOfWasNotDeclined) {
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
    const auto match = open_on(*journal_, device_, engine);
    match->ask_to_go_on();
    ASSERT_TRUE(eventually([&] { return match->writing().wish == Writing::Wish::asked; }));
    server_.let_another_ask(std::string(16, 'x'));
    ASSERT_TRUE(eventually([&] { return match->writing().wish != Writing::Wish::asked; }));
    EXPECT_EQ(match->writing().wish, Writing::Wish::failed) << "nobody said no";
    EXPECT_NE(match->writing().words.find("another device"), std::string::npos);
    // And it stays so, until that one is let go on.
    engine.look_at_court();
    server_.set_writer(2, std::string(16, 'x'));
    server_.tell_change();
    ASSERT_TRUE(eventually([&] {
        match->poll();
        const auto kept = journal_->match(id_);
        return kept && std::get<StoredSheet>(read_sheet(*kept)).writer.epoch == 2;
    }));
    EXPECT_NE(match->writing().wish, Writing::Wish::declined);
    match->ask_to_go_on();
    EXPECT_TRUE(eventually([&] { return match->writing().wish == Writing::Wish::asked; }));
    engine.stop();
}

// The sheet of a fenced device names the other writer; its number must not get into our entries.
TEST_F(TakeOver, TheOldDeviceIsToldAndNeverWritesUnderTheOthersEpoch) {
    server_.set_writer(2, server_.device);
    SyncEngine engine{*old_journal_, server_, old_device_, options_};
    engine.start();
    const auto match = open_on(*old_journal_, old_device_, engine);
    ASSERT_TRUE(poll_until(*match, Writing::Who::fenced));
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "still recorded").error);
    ASSERT_TRUE(eventually([&] { return old_journal_->waiting_count() == 0; }));
    EXPECT_EQ(engine.status(id_).beside, 3U);
    for (const JournalEntry& entry : old_journal_->entries(id_)) EXPECT_EQ(entry.epoch, 1U);
    EXPECT_EQ(server_.branch(bytes_of_id()).size(), 3U);
    EXPECT_EQ(server_.record(bytes_of_id()).size(), 120U);
    engine.stop();
}

TEST_F(TakeOver, TheOldDeviceMayComeBackAndGoesOnBehindTheOthersEntries) {
    std::size_t others = 0;
    {
        SyncEngine engine{*journal_, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
        const auto match = open_on(*journal_, device_, engine);
        match->ask_to_go_on();
        ASSERT_TRUE(eventually([&] { return server_.wished(); }));
        server_.answer_wish(true);
        ASSERT_TRUE(poll_until(*match, Writing::Who::here));
        play(*match, 9, 40);
        others = match->records().size();
        ASSERT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
        engine.stop();
    }
    server_.device = id_bytes(old_device_);
    SyncEngine engine{*old_journal_, server_, old_device_, options_};
    engine.start();
    const auto match = open_on(*old_journal_, old_device_, engine);
    ASSERT_TRUE(poll_until(*match, Writing::Who::fenced));
    match->ask_to_go_on();
    ASSERT_TRUE(eventually([&] { return server_.wished(); }));
    server_.answer_wish(true);
    ASSERT_TRUE(poll_until(*match, Writing::Who::here));
    EXPECT_EQ(match->records().size(), others);
    EXPECT_EQ(server_.branch(bytes_of_id()).size(), 2U) << "what never counted is kept";
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "back again").error);
    ASSERT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    std::vector<std::string> bytes;
    for (const JournalEntry& entry : old_journal_->entries(id_)) bytes.push_back(entry.bytes);
    EXPECT_EQ(bytes, server_.record(bytes_of_id()));
    engine.stop();
    match->poll();
    old_match_.reset();
    // The journal is whole after the exchange of its end.
    old_journal_.reset();
    old_journal_ = open_journal(old_folder_.path());
    EXPECT_FALSE(old_journal_->recovery());
}

// Nobody else wrote, and two entries of the epoch that is over still wait in the journal.
TEST_F(TakeOver, ADeviceThatIsGivenTheMatchBackGoesOnAtTheServersLastEntry) {
    server_.set_writer(3, id_bytes(old_device_));
    SyncEngine engine{*old_journal_, server_, old_device_, options_};
    old_match_ = open_on(*old_journal_, old_device_, engine);
    engine.start();
    expect_it_goes_on_at_120(engine, 2);
    engine.stop();
}

// An entry was made between the look at the court and the keeping of what it brought: the journal
// has entries of the new epoch behind those of the old one.
TEST_F(TakeOver, ADeviceThatIsGivenTheMatchBackBetweenTwoTouchesGoesOnToo) {
    const auto kept = old_journal_->match(id_);
    ASSERT_TRUE(kept);
    v1::FetchMatchResponse sheet;
    ASSERT_TRUE(sheet.ParseFromString(kept->sheet));
    server_.set_writer(3, id_bytes(old_device_));
    sheet.mutable_writer()->set_number(3);
    sheet.mutable_writer()->set_device_id(id_bytes(old_device_));
    ASSERT_FALSE(old_journal_->store({keep(sheet)}, {}));
    SyncEngine engine{*old_journal_, server_, old_device_, options_};
    old_match_ = open_on(*old_journal_, old_device_, engine);
    ASSERT_FALSE(old_match_->record(Fact{Note{Note::Kind::remark}}, "behind them").error);
    ASSERT_EQ(old_journal_->entries(id_).back().epoch, 3U);
    engine.start();
    expect_it_goes_on_at_120(engine, 3);
    engine.stop();
}

// The old device has an entry that the server does not take when another one goes on; then it is
// asked to go on itself.
class TakeOverOfRefused : public TakeOver {
  protected:
    void SetUp() override {
        TakeOver::SetUp();
        // Only what a test does may bring another offer.
        options_.offer_again = 1h;
        server_.refuse(121, 1'000'000, v1::PushResult::CAUSE_UNREADABLE, id_bytes(old_device_));
        SyncEngine engine{*old_journal_, server_, old_device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return engine.status(id_).refused == 1; }));
        engine.stop();
        ASSERT_EQ(old_journal_->waiting_count(), 1U) << "entry 122 waits behind it";
    }
    /// This device goes on in the old one's place, with so many entries.
    void play_at_this_device(int entries) {
        server_.set_writer(2, server_.device);
        SyncEngine engine{*journal_, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return engine.court_match() == id_; }));
        const auto match = open_on(*journal_, device_, engine);
        ASSERT_TRUE(poll_until(*match, Writing::Who::here));
        play(*match, 9, entries);
        ASSERT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
        engine.stop();
    }
    /// The desk consents to the old device's wish; it goes on at the last entry of the server.
    void go_on_at_the_old_device() {
        server_.device = id_bytes(old_device_);
        engine_ = std::make_unique<SyncEngine>(*old_journal_, server_, old_device_, options_);
        engine_->start();
        old_match_ = open_on(*old_journal_, old_device_, *engine_);
        ASSERT_TRUE(poll_until(*old_match_, Writing::Who::fenced));
        old_match_->ask_to_go_on();
        ASSERT_TRUE(eventually([&] { return server_.wished(); }));
        server_.answer_wish(true);
        ASSERT_TRUE(poll_until(*old_match_, Writing::Who::here)) << "the match is stranded";
        const auto record = server_.record(bytes_of_id());
        EXPECT_EQ(old_match_->records().size(), record.size());
    }
    void TearDown() override {
        if (engine_) engine_->stop();
    }
};

TEST_F(TakeOverOfRefused, TheMatchGoesOnAtTheLastEntryOfTheServer) {
    play_at_this_device(30);
    go_on_at_the_old_device();
    const RecordResult result = old_match_->record(Fact{Note{Note::Kind::remark}}, "goes on");
    ASSERT_FALSE(result.error) << *result.error;
    ASSERT_TRUE(eventually([&] { return old_journal_->waiting_count() == 0; }));
    std::vector<std::string> bytes;
    for (const JournalEntry& entry : old_journal_->entries(id_)) bytes.push_back(entry.bytes);
    EXPECT_EQ(bytes, server_.record(bytes_of_id()));
}

TEST_F(TakeOverOfRefused, TheMatchGoesOnAlsoWhenNobodyWroteMeanwhile) {
    play_at_this_device(0);
    go_on_at_the_old_device();
    ASSERT_FALSE(old_match_->record(Fact{Note{Note::Kind::remark}}, "goes on").error);
    EXPECT_EQ(old_match_->records().size(), 121U);
}

TEST_F(TakeOverOfRefused, WhatIsSetAsideIsShownAndOfferedUntilTheServerHasIt) {
    play_at_this_device(30);
    go_on_at_the_old_device();
    ASSERT_TRUE(eventually([&] { return engine_->status(id_).refused > 0; }));
    const SyncStatus status = engine_->status(id_);
    EXPECT_FALSE(status.all_sent()) << "the server has not all that was recorded here";
    EXPECT_NE(status.last_error.find("without"), std::string::npos) << status.last_error;
    EXPECT_NE(status.last_error.find("head official"), std::string::npos);
    // Neither a restart nor time makes it go.
    engine_->stop();
    engine_.reset();
    old_match_.reset();
    old_journal_.reset();
    old_journal_ = open_journal(old_folder_.path());
    EXPECT_FALSE(old_journal_->recovery());
    server_.refuse(0, 0, v1::PushResult::CAUSE_UNSPECIFIED);
    SyncEngine engine{*old_journal_, server_, old_device_, options_};
    engine.start();
    EXPECT_TRUE(eventually([&] { return engine.status(id_).all_sent(); }));
    EXPECT_EQ(engine.status(id_).last_error, "");
    engine.stop();
    EXPECT_EQ(server_.branch(bytes_of_id()).size(), 2U)
        << "the server keeps them beside the record";
}

// Also where the program ended before it could be said, and it names the match: by then another one
// may be on the screen.
TEST_F(TakeOverOfRefused, WhatIsSetAsideIsToldWithItsMatchAndByTheNextStartToo) {
    play_at_this_device(30);
    go_on_at_the_old_device();
    const auto told = [&] { return unseen_news(*old_journal_); };
    ASSERT_EQ(told().size(), 1U);
    const std::string words = told()[0];
    EXPECT_NE(words.find("2 entries"), std::string::npos) << words;
    EXPECT_NE(words.find("Quayside - Saltmarsh, match 12"), std::string::npos) << words;
    // As if the program had ended between the setting aside and the look at it.
    for (const auto& [name, value] : old_journal_->settings(told_aside_prefix))
        ASSERT_FALSE(old_journal_->store({}, {{name, ""}}));
    ASSERT_FALSE(forget_news(*old_journal_, words));
    old_match_ = open_on(*old_journal_, old_device_, *engine_);
    ASSERT_EQ(told().size(), 1U) << "nobody is told";
    EXPECT_EQ(told()[0], words);
    ASSERT_FALSE(forget_news(*old_journal_, words));
    old_match_ = open_on(*old_journal_, old_device_, *engine_);
    EXPECT_FALSE(old_match_->poll());
    EXPECT_TRUE(told().empty()) << "it is told once";
}

}  // namespace
}  // namespace courthand::client
