// The session of a table: what it recorded, what the journal holds and what a fresh start reads
// must be the same match at every moment.
#include <gtest/gtest.h>

#include <array>

#include "client/session/journaled_match.h"
#include "client/session/news.h"
#include "courthand/rules/judge.h"
#include "courthand/sim/match_player.h"
#include "tests/unit/client/journal_kit.h"
#include "tests/unit/client/synced_files.h"
#include "wire/fact_convert.h"
#include "wire/work_done.h"

namespace courthand::client {
namespace {

Device table_device() {
    Device device;
    device.id = "01900000-0000-7000-a000-000000000004";
    device.court = 4;
    return device;
}

/// Puts a match into the journal and gives its id.
std::string open_match(Journal& journal, const std::string& profile = "international-2025") {
    const StoredMatch match =
        open_here(table_device(), 4, profile, {"Harbour Lights", "Mill Lane"});
    EXPECT_FALSE(journal.store({match}, {}));
    return match.match_id;
}

std::unique_ptr<JournaledMatch> open_session(Journal& journal, const std::string& match_id) {
    auto opened = JournaledMatch::open(journal, table_device(), match_id, {});
    if (const auto* wrong = std::get_if<std::string>(&opened)) {
        ADD_FAILURE() << *wrong;
        return nullptr;
    }
    return std::move(std::get<0>(opened));
}

RecordResult take(JournaledMatch& match, const sim::Step& step) {
    return step.fact ? match.record(*step.fact, step.words) : match.strike_last();
}

std::uint64_t hash_of_journal(const Journal& journal, const JournaledMatch& match) {
    std::vector<std::string> bytes;
    for (const JournalEntry& entry : journal.entries(match.sheet().match_id))
        bytes.push_back(entry.bytes);
    const auto id = wire::Uuid::from_text(match.sheet().match_id);
    const auto folded = wire::fold_record(*id, match.rules(), bytes);
    EXPECT_FALSE(folded.fault);
    return state_hash(folded.state);
}

// From the touch to the screen an entry is a value: it is written and hashed once and never parsed.
TEST(JournaledMatch, ATouchParsesNothingAndHashesAndJudgesOnce) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, open_match(*journal));
    ASSERT_NE(match, nullptr);
    ASSERT_FALSE(match->record(Fact{Toss{Team::A, Team::A}}, {}).error);  // and the opening
    const wire::WorkDone before = wire::work_done();
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "wet floor").error);
    const wire::WorkDone after = wire::work_done();
    EXPECT_EQ(after.parses - before.parses, 0u);
    EXPECT_EQ(after.conversions - before.conversions, 1u);
    EXPECT_EQ(after.hashes - before.hashes, 1u);
    EXPECT_EQ(after.judged - before.judged, 1u);
}

const std::array<Record, 2> won_by_a{Record{Fact{Serve{}}}, Record{Fact{RallyWon{Team::A}}}};

// The screen confirms a touch after one commit, however many entries it writes.
TEST(JournaledMatch, ATouchOfSeveralEntriesIsOneCommit) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, open_match(*journal));
    ASSERT_NE(match, nullptr);
    static_cast<void>(take_commits());
    ASSERT_FALSE(match->record(Fact{Toss{Team::A, Team::A}}).error);
    EXPECT_EQ(take_commits(), 1u) << "with the opening of the match";
    const RecordResult result = match->record(won_by_a, {});
    ASSERT_FALSE(result.error);
    EXPECT_EQ(take_commits(), 1u);
    EXPECT_EQ(result.seq, 4u);
    EXPECT_EQ(match->records().size(), 4u);
    EXPECT_EQ(hash_of_journal(*journal, *match), state_hash(match->state()));
}

TEST(JournaledMatch, AFullDiskKeepsNoHalfOfATouch) {
    for (const std::size_t words : {1u, 150u, 400u}) {
        const ScratchFolder folder;
        constexpr std::int64_t few_pages = 24;
        const auto journal = open_journal(folder.path(), few_pages);
        const std::string id = open_match(*journal);
        const auto match = open_session(*journal, id);
        ASSERT_NE(match, nullptr);
        const Record note{Fact{Note{Note::Kind::remark}}};
        const std::array<Record, 3> touch{note, note, note};
        ASSERT_FALSE(match->record(Fact{Toss{Team::A, Team::A}}).error);
        std::size_t saved = 0;
        constexpr std::size_t more_than_fit = 2000;
        while (saved < more_than_fit && !match->record(touch, std::string(words, 'x')).error)
            ++saved;
        ASSERT_LT(saved, more_than_fit);
        EXPECT_EQ(journal->last_seq(id), 2 + 3 * saved);
        EXPECT_EQ(match->records().size(), 2 + 3 * saved);
    }
}

TEST(JournaledMatch, AStartReadsEachEntryOnce) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const std::string id = open_match(*journal);
    auto match = open_session(*journal, id);
    ASSERT_NE(match, nullptr);
    for (int i = 0; i < 5; ++i)
        ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "wet floor").error);
    const wire::WorkDone before = wire::work_done();
    match = open_session(*journal, id);
    const wire::WorkDone after = wire::work_done();
    EXPECT_EQ(match->records().size(), 6u);
    EXPECT_EQ(after.parses - before.parses, 6u);
    EXPECT_EQ(after.conversions - before.conversions, 6u);
    EXPECT_EQ(after.hashes - before.hashes, 7u) << "each entry, and the id of the match";
}

TEST(JournaledMatch, StateIsTheFoldOfTheJournalThroughRestarts) {
    const ScratchFolder folder;
    for (std::uint64_t seed = 1; seed <= 3; ++seed) {
        sim::MatchPlayer player{seed};
        auto journal = open_journal(folder.path());
        const std::string id = open_match(*journal);
        auto match = open_session(*journal, id);
        for (int step = 0; match != nullptr; ++step) {
            const auto next = player.next(match->rules(), match->state());
            if (!next) break;
            const RecordResult result = take(*match, *next);
            ASSERT_FALSE(result.error) << *result.error;
            ASSERT_EQ(result.seq, match->records().size());
            if (step % 97 != 0) continue;
            const std::uint64_t before = state_hash(match->state());
            EXPECT_EQ(hash_of_journal(*journal, *match), before);
            match.reset();
            journal.reset();
            journal = open_journal(folder.path());
            match = open_session(*journal, id);
            EXPECT_EQ(state_hash(match->state()), before) << "seed " << seed << " step " << step;
        }
        EXPECT_EQ(match->state().set.stage, Stage::match_over);
        EXPECT_EQ(hash_of_journal(*journal, *match), state_hash(match->state()));
    }
}

TEST(JournaledMatch, UndoGivesTheStateBeforeAndDeletesNothing) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, open_match(*journal));
    sim::Habits habits;
    habits.undo = 0;
    sim::MatchPlayer player{11, habits};
    for (int step = 0; step < 120; ++step) {
        const std::uint64_t before = state_hash(match->state());
        const auto next = player.next(match->rules(), match->state());
        ASSERT_TRUE(next);
        ASSERT_FALSE(take(*match, *next).error);
        const std::uint64_t after = state_hash(match->state());
        const std::size_t entries = journal->entries(match->sheet().match_id).size();
        ASSERT_FALSE(match->strike_last().error);
        ASSERT_EQ(state_hash(match->state()), before) << "step " << step;
        // The struck fact is written once more; both stay in the record.
        ASSERT_FALSE(take(*match, *next).error);
        EXPECT_EQ(state_hash(match->state()), after);
        EXPECT_EQ(journal->entries(match->sheet().match_id).size(), entries + 2);
    }
}

// A match is claimed by its first entry: a window that only shows it must write none.
// A device that is enrolled anew has another key when it sends what it wrote before.
TEST(JournaledMatch, AnEntryIsSignedWhenItIsWritten) {
    const ScratchFolder folder;
    auto journal = open_journal(folder.path());
    const std::string id = open_match(*journal);
    SessionHooks hooks;
    hooks.sign = [](std::string_view bytes) { return "signed " + std::to_string(bytes.size()); };
    auto opened = JournaledMatch::open(*journal, table_device(), id, hooks);
    auto& match = *std::get<0>(opened);
    sim::MatchPlayer player{1};
    ASSERT_FALSE(take(match, *player.next(match.rules(), match.state())).error);
    const auto entries = journal->entries(id);
    ASSERT_FALSE(entries.empty());
    for (const JournalEntry& entry : entries)
        EXPECT_EQ(journal->signature(id, entry.seq),
                  "signed " + std::to_string(entry.bytes.size()));
}

TEST(JournaledMatch, LookingAtAMatchWritesNothing) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const std::string id = open_match(*journal);
    const auto match = open_session(*journal, id);
    EXPECT_EQ(match->state().opened, 1) << "the seat sees it as opened";
    EXPECT_TRUE(match->standing().empty());
    EXPECT_FALSE(match->poll());
    EXPECT_EQ(journal->last_seq(id), 0U);
    ASSERT_FALSE(match->record(Fact{Toss{Team::A, Team::B}}).error);
    ASSERT_EQ(match->records().size(), 2U);
    EXPECT_TRUE(std::holds_alternative<MatchOpened>(std::get<Fact>(match->records()[0])));
    EXPECT_EQ(hash_of_journal(*journal, *match), state_hash(match->state()));
}

TEST(JournaledMatch, UndoStopsAtTheOpenedMatch) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, open_match(*journal));
    EXPECT_EQ(match->state().opened, 1);
    EXPECT_EQ(match->strike_last().error, "There is nothing to undo.");
    EXPECT_TRUE(match->records().empty());
    ASSERT_FALSE(match->record(Fact{Toss{Team::A, Team::B}}).error);
    ASSERT_FALSE(match->strike_last().error);
    EXPECT_TRUE(match->strike_last().error);
    EXPECT_EQ(match->records().size(), 3U);
}

// A table may have begun with numbers written at the court.
TEST(JournaledMatch, TheTeamListsOfTheDeskThatComeLaterReachTheSeat) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const std::string id = open_match(*journal);
    const auto match = open_session(*journal, id);
    ASSERT_TRUE(match->sheet().players.a.empty());
    Roster written;
    written.count = 1;
    written.players[0] = Jersey{7};
    ASSERT_FALSE(match->record(Fact{written}).error);
    EXPECT_FALSE(match->poll());

    v1::FetchMatchResponse answer;
    ASSERT_TRUE(answer.ParseFromString(journal->match(id)->sheet));
    v1::RosterPlayer& line = *answer.mutable_first_roster()->add_players();
    line.set_number(12);
    line.set_captain(true);
    ASSERT_FALSE(journal->store({StoredMatch{id, answer.SerializeAsString()}}, {}));
    EXPECT_TRUE(match->poll()) << "the seat is told";
    ASSERT_EQ(match->sheet().players.a.size(), 1U);
    EXPECT_EQ(match->sheet().players.a[0].number, Jersey{12});
    EXPECT_FALSE(match->poll()) << "once";
    EXPECT_EQ(match->state().team.a.count, 1);
    EXPECT_NE(find(match->state().team.a, Jersey{7}), nullptr) << "the record stays as written";
}

TEST(JournaledMatch, ACorrectionByNumberTakesEffectAndAddsAnEntry) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, open_match(*journal));
    ASSERT_FALSE(match->record(Fact{Toss{Team::A, Team::B}}).error);
    const RecordResult amended = match->correct(Amend{2, Toss{Team::B, Team::B}}, {});
    ASSERT_FALSE(amended.error);
    EXPECT_EQ(amended.seq, 3U);
    EXPECT_EQ(match->state().toss_serves, Team::B);
    ASSERT_FALSE(match->correct(Strike{3}, {}).error);
    EXPECT_EQ(match->state().toss_serves, Team::A);
    EXPECT_EQ(match->written().size(), 4U);
    EXPECT_EQ(hash_of_journal(*journal, *match), state_hash(match->state()));
}

TEST(JournaledMatch, VerdictsComeWithTheEntryThatRaisedThem) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, open_match(*journal));
    const RecordResult result = match->record(Fact{Interval{}});
    ASSERT_FALSE(result.error);
    ASSERT_EQ(result.verdicts.size(), 1U);
    EXPECT_EQ(result.verdicts[0].reason, Reason::out_of_sequence);
    EXPECT_EQ(result.verdicts[0].entry, result.seq);
}

TEST(JournaledMatch, AFullDiskLeavesTheStateAloneAndGoesOnAfterwards) {
    const ScratchFolder folder;
    std::string id;
    std::uint64_t hash = 0;
    std::size_t saved = 0;
    const std::string remark(400, 'x');
    {
        const auto journal = open_journal(folder.path(), 16);
        id = open_match(*journal);
        const auto match = open_session(*journal, id);
        RecordResult result;
        for (int i = 0; i < 1000 && !result.error; ++i) {
            saved = match->records().size();
            hash = state_hash(match->state());
            result = match->record(Fact{Note{Note::Kind::remark}}, remark);
        }
        ASSERT_TRUE(result.error);
        EXPECT_NE(result.error->find("disk"), std::string::npos) << *result.error;
        EXPECT_EQ(result.seq, 0U);
        EXPECT_EQ(match->records().size(), saved);
        EXPECT_EQ(state_hash(match->state()), hash);
    }
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, id);
    EXPECT_EQ(match->records().size(), saved);
    EXPECT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, remark).error);
}

TEST(JournaledMatch, WordsTravelBesideTheFact) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, open_match(*journal));
    ASSERT_FALSE(
        match->record(Fact{Note{Note::Kind::remark}}, "The net was lowered by 2 cm").error);
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::signature}}, "captain A").error);
    ASSERT_FALSE(match->record(Fact{Injury{Team::A, Jersey{4}}}, "fell after the block").error);
    const auto entries = journal->entries(match->sheet().match_id);
    const auto text_of = [&](std::size_t i) {
        return wire::parse_entry(entries[i].bytes)->fact().text();
    };
    EXPECT_EQ(text_of(1).remark(), "The net was lowered by 2 cm");
    EXPECT_EQ(text_of(2).signature().role(), "captain A");
    EXPECT_EQ(text_of(3).cause_words(), "fell after the block");
    // Too long is said, with nothing written.
    const RecordResult result =
        match->record(Fact{Note{Note::Kind::remark}}, std::string(501, 'x'));
    EXPECT_TRUE(result.error);
    EXPECT_EQ(journal->entries(match->sheet().match_id).size(), 4U);
}

TEST(JournaledMatch, TheListsOfTheDeskWaitToBeConfirmed) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const StoredMatch plain =
        open_here(table_device(), 4, "international-2025", {"Harbour Lights", "Mill Lane"});
    v1::FetchMatchResponse answer;
    ASSERT_TRUE(answer.ParseFromString(plain.sheet));
    for (std::uint32_t number : {1U, 5U, 9U}) {
        v1::RosterPlayer& line = *answer.mutable_second_roster()->add_players();
        line.set_number(number);
        line.set_captain(number == 5);
        line.set_libero(number == 9);
    }
    ASSERT_FALSE(journal->store({keep(answer)}, {}));
    const auto match = open_session(*journal, plain.match_id);
    EXPECT_EQ(match->state().team.b.count, 0);
    ASSERT_EQ(match->sheet().players.b.size(), 3U);
    EXPECT_TRUE(match->sheet().players.a.empty());
    EXPECT_EQ(match->sheet().players.b[1].number, Jersey{5});
    EXPECT_TRUE(match->sheet().players.b[1].captain);
    EXPECT_TRUE(match->sheet().players.b[2].libero);
}

TEST(JournaledMatch, AnUnknownProfileIsNamedWithTheKnownOnes) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const std::string id = open_match(*journal, "beach-1999");
    const auto opened = JournaledMatch::open(*journal, table_device(), id, {});
    ASSERT_TRUE(std::holds_alternative<std::string>(opened));
    EXPECT_NE(std::get<std::string>(opened).find("beach-1999"), std::string::npos);
    EXPECT_NE(std::get<std::string>(opened).find("international-2025"), std::string::npos);
}

TEST(JournaledMatch, ARulingOfTheHeadSeatIsRecordedOnce) {
    const ScratchFolder folder;
    const auto journal = open_journal(folder.path());
    const auto match = open_session(*journal, open_match(*journal));
    // A serve long before its time raises something that stands.
    sim::MatchPlayer player{3};
    while (match->standing().empty()) {
        const auto next = player.next(match->rules(), match->state());
        ASSERT_TRUE(next) << "the match ended without a fault";
        ASSERT_FALSE(take(*match, *next).error);
    }
    const Verdict fault = match->standing().front();
    v1::RulingNotice notice;
    notice.set_alert_id("alert-1");
    notice.set_match_id(wire::Uuid::from_text(match->sheet().match_id)->to_bytes());
    notice.set_accepted(false);
    notice.set_reason(std::string{describe(fault.reason).word});
    notice.set_team(wire::to_proto(fault.team));
    const std::pair<std::string, std::string> row{ruling_setting("alert-1"),
                                                  notice.SerializeAsString()};
    ASSERT_FALSE(journal->store({}, {row}));
    EXPECT_TRUE(match->poll());
    const std::size_t entries = match->records().size();
    EXPECT_EQ(std::get<Fact>(match->records().back()),
              (Fact{Ruling{Ruling::Decision::overrule, fault.reason, fault.team}}));
    EXPECT_FALSE(match->poll());
    EXPECT_EQ(match->records().size(), entries);
    // The same notice once more, as after a crash before it was forgotten.
    ASSERT_FALSE(journal->store({}, {row}));
    EXPECT_FALSE(match->poll());
    EXPECT_EQ(match->records().size(), entries);
}

class RulingNotices : public testing::Test {
  protected:
    void SetUp() override {
        journal_ = open_journal(folder_.path());
        match_ = open_session(*journal_, open_match(*journal_));
    }
    /// An interval where there is none raises a fault of that entry.
    EntryNumber raise_fault() {
        const RecordResult result = match_->record(Fact{Interval{}});
        EXPECT_EQ(result.verdicts.size(), 1U);
        return result.seq;
    }
    void notify(EntryNumber seq, bool with_hash = true, const std::string& alert = "alert-1") {
        const auto now = match_->standing();
        v1::RulingNotice notice;
        notice.set_alert_id(alert);
        notice.set_match_id(wire::Uuid::from_text(match_->sheet().match_id)->to_bytes());
        notice.set_accepted(false);
        notice.set_reason(std::string{describe(reason_).word});
        notice.set_team(wire::to_proto(team_));
        notice.set_seq(seq);
        if (with_hash) notice.set_entry_hash(hash_of(seq));
        ASSERT_FALSE(journal_->store({}, {{ruling_setting(alert), notice.SerializeAsString()}}));
    }
    /// The server has given the match to that device; to nobody when it has no name.
    void written_by(const std::string& device) {
        const std::string id = match_->sheet().match_id;
        v1::FetchMatchResponse sheet;
        ASSERT_TRUE(sheet.ParseFromString(journal_->match(id)->sheet));
        sheet.mutable_match()->set_tournament_id(std::string(16, 't'));
        sheet.clear_writer();
        if (!device.empty()) {
            sheet.mutable_writer()->set_number(2);
            sheet.mutable_writer()->set_device_id(std::string(16, device.front()));
        }
        ASSERT_FALSE(journal_->store({{id, sheet.SerializeAsString()}}, {}));
        match_ = open_session(*journal_, id);
    }
    [[nodiscard]] std::string hash_of(EntryNumber seq) const {
        const auto entry = journal_->entry(match_->sheet().match_id, seq);
        return entry ? entry->hash : std::string(32, 'x');
    }
    /// What the person is told, and has then seen.
    std::vector<std::string> take_news() {
        auto news = unseen_news(*journal_);
        for (const std::string& words : news) EXPECT_FALSE(forget_news(*journal_, words));
        return news;
    }
    void remember(const Verdict& verdict) {
        reason_ = verdict.reason;
        team_ = verdict.team;
    }

    ScratchFolder folder_;
    std::unique_ptr<Journal> journal_;
    std::unique_ptr<JournaledMatch> match_;
    Reason reason_ = Reason::out_of_sequence;
    Team team_ = Team::A;
};

// Settled meanwhile, while the same fault stands from a later entry: that one is not meant.
TEST_F(RulingNotices, ARulingNeverHitsAnotherFault) {
    const EntryNumber meant = raise_fault();
    ASSERT_FALSE(match_->standing().empty()) << "the fault stands until it is ruled";
    remember(match_->standing().front());
    const std::string hash = hash_of(meant);
    ASSERT_FALSE(match_->correct(Strike{meant}, {}).error);
    const EntryNumber later = raise_fault();
    ASSERT_EQ(match_->standing().size(), 1U);
    notify(meant);
    EXPECT_FALSE(match_->poll());
    ASSERT_EQ(match_->standing().size(), 1U);
    EXPECT_EQ(match_->standing().front().entry, later);
    const auto news = take_news();
    ASSERT_EQ(news.size(), 1U);
    EXPECT_NE(news[0].find("entry " + std::to_string(meant)), std::string::npos) << news[0];
    EXPECT_NE(news[0].find("nothing was recorded"), std::string::npos);
    EXPECT_FALSE(match_->poll());
    EXPECT_TRUE(take_news().empty()) << "it is told once";
}

// The same fact later in the record was taken for it, and it vanished without a word.
TEST_F(RulingNotices, ARulingWhoseFaultIsGoneIsSaidAlsoWhenAnotherOfItsKindWasRuled) {
    const EntryNumber meant = raise_fault();
    remember(match_->standing().front());
    ASSERT_FALSE(match_->correct(Strike{meant}, {}).error);
    notify(raise_fault(), true, "alert-2");
    ASSERT_TRUE(match_->poll());
    ASSERT_TRUE(take_news().empty());
    notify(meant);
    const std::size_t entries = match_->records().size();
    EXPECT_FALSE(match_->poll());
    EXPECT_EQ(match_->records().size(), entries);
    const auto news = take_news();
    ASSERT_EQ(news.size(), 1U) << "it vanished";
    EXPECT_NE(news[0].find("nothing was recorded"), std::string::npos) << news[0];
}

TEST_F(RulingNotices, ARulingThatIsInTheRecordIsNotRecordedTwiceAndThatIsSaid) {
    const EntryNumber seq = raise_fault();
    remember(match_->standing().front());
    notify(seq);
    ASSERT_TRUE(match_->poll());
    const std::size_t entries = match_->records().size();
    // As after a crash between writing it and forgetting the notice.
    notify(seq);
    EXPECT_FALSE(match_->poll());
    EXPECT_EQ(match_->records().size(), entries);
    const auto news = take_news();
    ASSERT_EQ(news.size(), 1U);
    EXPECT_NE(news[0].find("has the same ruling already"), std::string::npos) << news[0];
}

// The second took the place of the first, and a restart lost both.
TEST_F(RulingNotices, TwoThatRecordNothingAreBothToldAlsoAfterARestart) {
    for (const char* alert : {"alert-1", "alert-2"}) {
        const EntryNumber meant = raise_fault();
        remember(match_->standing().front());
        notify(meant, true, alert);
        ASSERT_FALSE(match_->correct(Strike{meant}, {}).error);
    }
    EXPECT_FALSE(match_->poll());
    match_.reset();
    journal_.reset();
    journal_ = open_journal(folder_.path());
    const auto news = unseen_news(*journal_);
    ASSERT_EQ(news.size(), 2U);
    EXPECT_NE(news[0], news[1]);
    ASSERT_FALSE(forget_news(*journal_, news[0]));
    EXPECT_EQ(take_news(), std::vector{news[1]});
    EXPECT_TRUE(unseen_news(*journal_).empty());
}

// It would keep them for ever: only the device that writes records them.
TEST_F(RulingNotices, ADeviceThatDoesNotWriteForgetsWhatTheRecordHas) {
    const EntryNumber ruled = raise_fault();
    remember(match_->standing().front());
    notify(ruled);
    ASSERT_TRUE(match_->poll());
    const EntryNumber open = raise_fault();
    written_by("other");
    ASSERT_NE(match_->writing().who, Writing::Who::here);
    notify(ruled);
    notify(open, true, "alert-2");
    EXPECT_FALSE(match_->poll());
    EXPECT_EQ(journal_->setting(ruling_setting("alert-1")), "") << "the record has it";
    EXPECT_NE(journal_->setting(ruling_setting("alert-2")), "") << "nobody has recorded it yet";
    EXPECT_TRUE(take_news().empty());
}

TEST_F(RulingNotices, ARulingNamesTheEntryByItsHash) {
    const EntryNumber seq = raise_fault();
    remember(match_->standing().front());
    v1::RulingNotice notice;
    notice.set_alert_id("alert-2");
    notice.set_match_id(wire::Uuid::from_text(match_->sheet().match_id)->to_bytes());
    notice.set_reason(std::string{describe(reason_).word});
    notice.set_team(wire::to_proto(team_));
    notice.set_seq(seq);
    notice.set_entry_hash(std::string(32, 'x'));
    ASSERT_FALSE(journal_->store({}, {{ruling_setting("alert-2"), notice.SerializeAsString()}}));
    EXPECT_FALSE(match_->poll()) << "another record's entry of that number is meant";
    EXPECT_EQ(take_news().size(), 1U);
    notify(seq);
    EXPECT_TRUE(match_->poll());
    EXPECT_TRUE(match_->standing().empty());
    EXPECT_TRUE(take_news().empty());
}

// It waited, and hit a fault of its kind that came later.
TEST_F(RulingNotices, ARulingWithoutAnEntryThatHadToWaitHitsNoLaterFault) {
    const EntryNumber meant = raise_fault();
    remember(match_->standing().front());
    written_by("other");
    notify(0, false);
    EXPECT_FALSE(match_->poll()) << "the device that writes records it";
    EXPECT_NE(journal_->setting(ruling_setting("alert-1")), "") << "and here it waits";
    ASSERT_FALSE(match_->correct(Strike{meant}, {}).error);
    const EntryNumber later = raise_fault();
    written_by({});
    EXPECT_FALSE(match_->poll());
    ASSERT_EQ(match_->standing().size(), 1U) << "the official has never seen this one";
    EXPECT_EQ(match_->standing().front().entry, later);
    const auto news = take_news();
    ASSERT_EQ(news.size(), 1U);
    EXPECT_NE(news[0].find("entry " + std::to_string(meant)), std::string::npos) << news[0];
}

TEST_F(RulingNotices, ARulingWithoutAnEntryThatHadToWaitHitsItsFault) {
    const EntryNumber meant = raise_fault();
    remember(match_->standing().front());
    written_by("other");
    notify(0, false);
    EXPECT_FALSE(match_->poll());
    const EntryNumber later = raise_fault();
    written_by({});
    EXPECT_TRUE(match_->poll());
    ASSERT_EQ(match_->standing().size(), 1U);
    EXPECT_NE(match_->standing().front().entry, meant);
    EXPECT_EQ(match_->standing().front().entry, later);
}

TEST_F(RulingNotices, OnlySoManyAreRemembered) {
    std::vector<std::pair<std::string, std::string>> done;
    for (std::size_t i = 0; i < most_kept_rulings + 20; ++i)
        done.emplace_back(ruling_setting("old-" + std::to_string(i)), "");
    ASSERT_FALSE(journal_->store({}, done));
    const EntryNumber seq = raise_fault();
    remember(match_->standing().front());
    notify(seq);
    EXPECT_TRUE(match_->poll());
    EXPECT_TRUE(journal_->has_setting(ruling_setting("alert-1")));
    EXPECT_FALSE(journal_->has_setting(ruling_setting("old-0"))) << "the oldest goes first";
    EXPECT_TRUE(journal_->has_setting(ruling_setting("old-1019")));
}

}  // namespace
}  // namespace courthand::client
