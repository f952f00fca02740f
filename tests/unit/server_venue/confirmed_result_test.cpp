// From a match that the desk plans to a result that the desk confirms, in a whole venue.
#include "server/desk/match_planning.h"
#include "server/service/match_message.h"
#include "server/tournament/confirmable.h"
#include "server/tournament/opening.h"
#include "tests/testkit/harbour_teams.h"
#include "whole_venue.h"
#include "wire/event_entry.h"

namespace courthand::server::testing {
namespace {

constexpr const char* whole_match =
    "# common practice, no source: three sets without a point for the other team\n"
    "profile international-2025\n"
    "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
    "team B \"Mill Lane\" players 31-38 41 captain 33\n"
    "toss serve A left A\n"
    "set 1\nlineup A 1 2 3 4 5 6 liberos 21 22\nlineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\nchecked B\nplay A25\n"
    "set 2\nlineup A 1 2 3 4 5 6 liberos 21 22\nlineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\nchecked B\nplay A25\n"
    "set 3\nlineup A 1 2 3 4 5 6 liberos 21 22\nlineup B 31 32 33 34 35 36 liberos 41 none\n"
    "checked A\nchecked B\nplay A25\n";

class ConfirmedResult : public WholeVenue {
  protected:
    void SetUp() override {
        start();
        const auto teams = value_or_throw(server().desk.keep_teams(speaker, harbour_teams(), ""));
        desk::MatchWish wish;
        wish.key = {stores.tournament().id, MatchId{Uuid{id.bytes()}}};
        wish.first = teams[0].id;
        wish.second = teams[1].id;
        wish.court = 1;
        wish.profile = "international-2025";
        wish.format = shorter;
        (void)value_or_throw(desk::plan_match({server().record, stores.matches, speaker}, wish));
        match = wish.key.match;
    }
    [[nodiscard]] v1::Match message() {
        v1::Match out;
        server().keeper.read(match, [&](const LiveMatch& live) { service::to_message(live, out); });
        return out;
    }
    ::testing::AssertionResult becomes(v1::MatchStatus status) {
        return testkit::eventually([&] { return message().status() == status; });
    }
    void say(const event::Fact& fact) {
        const auto outcome = value_or_throw(server().record.act(act_of(fact)));
        ASSERT_EQ(outcome.fate, tournament::Outcome::Fate::kept);
    }
    tournament::Act act_of(const event::Fact& fact) {
        tournament::Act act;
        act.device = speaker.device;
        act.author = speaker.author;
        act.seen = server().record.state()->last();
        act.whole = true;
        act.facts.push_back({tournament::FactId{new_uuid()}, {fact, ""}});
        return act;
    }
    /// What the desk reads now from the record of the table.
    event::ResultConfirmed read_result() {
        event::ResultConfirmed confirmed;
        confirmed.match = "1";
        confirmed.sets.assign(3, {25, 0});
        confirmed.record = tournament::record_id(match);
        server().keeper.read(match,
                             [&](const LiveMatch& live) { confirmed.head.bytes = live.head.hash; });
        return confirmed;
    }
    Status confirmable(const tournament::Act& act) {
        return tournament::confirmable(act, stores.tournament().id, server().record,
                                       stores.matches);
    }

    wire::Uuid id = new_match_id();
    std::optional<MatchFormat> shorter;
    MatchId match;
    tournament::Speaker speaker{DeviceId{new_uuid()}, "desk"};
};

TEST_F(ConfirmedResult, AFinishedMatchIsDoneForTheDeskOnceItsResultIsConfirmed) {
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_SCHEDULED));
    ASSERT_TRUE(all_appended(push(record_of(whole_match, id, table.device))));
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_FINISHED)) << "nobody has signed";
    say(read_result());
    EXPECT_TRUE(becomes(v1::MATCH_STATUS_SIGNED));
    say(event::ResultReopened{"1"});
    EXPECT_TRUE(becomes(v1::MATCH_STATUS_FINISHED));
}

TEST_F(ConfirmedResult, AResultThatTheTableHasWrittenSinceIsLookedAtAgain) {
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_SCHEDULED));
    TestRecord record = record_of(whole_match, id, table.device);
    const std::uint32_t whole = record.size();
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_FINISHED));
    const tournament::Act of_before = act_of(read_result());
    EXPECT_TRUE(confirmable(of_before).ok());
    record.add_rallies(1);
    ASSERT_TRUE(all_appended(push(record, whole + 1)));
    const Status refused = confirmable(of_before);
    EXPECT_EQ(refused.code, StatusCode::conflict);
    EXPECT_NE(refused.message.find("the table has written since: look at the result again"),
              std::string::npos)
        << refused.message;
    ASSERT_TRUE(testkit::eventually([&] { return confirmable(act_of(read_result())).ok(); }));

    // Sent again, after it was kept and the table wrote once more: it stands.
    const tournament::Act kept = act_of(read_result());
    ASSERT_EQ(value_or_throw(server().record.act(kept)).fate, tournament::Outcome::Fate::kept);
    record.add_rallies(1);
    ASSERT_TRUE(all_appended(push(record, whole + 3)));
    EXPECT_TRUE(confirmable(kept).ok());
    EXPECT_FALSE(confirmable(of_before).ok());
    event::ResultConfirmed from_paper = read_result();
    from_paper.from = event::ResultFrom::paper;
    from_paper.head = {};
    EXPECT_TRUE(confirmable(act_of(from_paper)).ok());
}

TEST_F(ConfirmedResult, NoDeskSaysThatSignaturesHaveConfirmed) {
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_SCHEDULED));
    ASSERT_TRUE(all_appended(push(record_of(whole_match, id, table.device))));
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_FINISHED));
    event::ResultConfirmed claimed = read_result();
    claimed.from = event::ResultFrom::signed_record;
    EXPECT_EQ(confirmable(act_of(claimed)).text(),
              "1: only the server says that signatures confirm it; confirm it as the table has it");
}

TEST_F(ConfirmedResult, AResultFromPaperTakesTheMatchOffItsCourt) {
    ASSERT_TRUE(becomes(v1::MATCH_STATUS_SCHEDULED));
    EXPECT_EQ(server().keeper.on_court(1), std::vector{match});
    event::ResultConfirmed confirmed;
    confirmed.match = "1";
    confirmed.from = event::ResultFrom::paper;
    confirmed.sets.assign(3, {25, 18});
    say(confirmed);
    EXPECT_TRUE(becomes(v1::MATCH_STATUS_SIGNED));
    EXPECT_TRUE(server().keeper.on_court(1).empty());
}

TEST_F(ConfirmedResult, AMatchThatIsPlacedComesToItsCourtByItself) {
    event::MatchAdded added;
    added.match = "X1";
    added.division = "open";
    added.first = {event::Source::Kind::team, "Quayside", 0, {}};
    added.second = {event::Source::Kind::team, "Saltmarsh", 0, {}};
    say(added);
    say(event::CourtOpened{3, "", {}, {}, {}});
    event::MatchPlaced placed;
    placed.match = "X1";
    placed.court = 3;
    say(placed);
    EXPECT_TRUE(testkit::eventually([&] { return server().keeper.on_court(3).size() == 1; }));
    EXPECT_TRUE(testkit::eventually([&] { return keeper().board().card(3).has_value(); }))
        << "the board has the court of the record";
}

/// The same where the event lets signatures confirm.
class SignedResult : public ConfirmedResult {
  protected:
    void SetUp() override {
        ConfirmedResult::SetUp();
        ASSERT_TRUE(becomes(v1::MATCH_STATUS_SCHEDULED));
    }
    void by_signatures() { say(event::ConfirmerNamed{event::Confirmer::signatures}); }
    static void sign(TestRecord& record) {
        for (const Signer signer : closing_signers) record.add(Signature{signer});
    }
    [[nodiscard]] const event::Result* result() {
        held_ = server().record.state();
        const auto& kept = held_->match(*held_->find_match("1")).result;
        return kept ? &*kept : nullptr;
    }
    /// Once it has stood.
    ::testing::AssertionResult is_confirmed() {
        return testkit::eventually([&] {
            (void)server().closer.look();
            later(stand);
            return result() != nullptr;
        });
    }
    [[nodiscard]] std::string left_to_desk() {
        std::string why;
        server().keeper.read(
            match, [&](const LiveMatch& live) { why = server().closer.left_to_desk(live); });
        return why;
    }
    /// Nothing more comes, however long: what the closer could do it has done in looks of its own.
    ::testing::AssertionResult stays_open() {
        (void)server().closer.look();
        later(stand);
        return is_open();
    }
    /// Nor anything now.
    ::testing::AssertionResult is_open() {
        const bool looked = testkit::eventually([&] { return server().closer.look(); });
        if (!looked) return ::testing::AssertionFailure() << "the look was not done";
        if (result() != nullptr) return ::testing::AssertionFailure() << "it has a result";
        return ::testing::AssertionSuccess();
    }
    ::testing::AssertionResult folded_to(const TestRecord& record) {
        return testkit::eventually([&] {
            EntryNumber last = 0;
            server().keeper.read(match, [&](const LiveMatch& live) { last = live.head.last; });
            return last == record.size();
        });
    }

    static constexpr std::chrono::seconds stand = tournament::ResultCloser::usual_stand;

    std::shared_ptr<const event::TournamentState> held_;
};

TEST_F(SignedResult, AMatchThatIsClosedAtTheTableIsConfirmedWithoutTheDesk) {
    by_signatures();
    TestRecord record = record_of(whole_match, id, table.device);
    const std::uint32_t whole = record.size();
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(stays_open()) << "nobody has signed";
    sign(record);
    ASSERT_TRUE(all_appended(push(record, whole + 1, whole + 2)));
    ASSERT_TRUE(
        testkit::eventually([&] { return message().status() == v1::MATCH_STATUS_FINISHED; }));
    EXPECT_TRUE(stays_open()) << "the first referee is missing";
    ASSERT_TRUE(all_appended(push(record, whole + 3)));
    ASSERT_TRUE(is_confirmed());
    EXPECT_EQ(result()->from, event::ResultFrom::signed_record);
    EXPECT_EQ(result()->sets, (std::vector<event::SetScore>(3, {25, 0})));
    EXPECT_EQ(std::string(result()->head.bytes.begin(), result()->head.bytes.end()),
              record.head_hash());
    EXPECT_TRUE(becomes(v1::MATCH_STATUS_SIGNED));
}

TEST_F(SignedResult, ItTellsWhoHasSigned) {
    by_signatures();
    TestRecord record = record_of(whole_match, id, table.device);
    sign(record);
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(is_confirmed());
    const auto page =
        value_or_throw(stores.stores().facts.read(stores.tournament().id, result()->fact - 1, 1));
    ASSERT_EQ(page.size(), 1U);
    const auto read = wire::read_event_entry(*page.front().bytes);
    const auto* const entry = std::get_if<wire::ReadEventEntry>(&read);
    ASSERT_NE(entry, nullptr);
    EXPECT_EQ(entry->author(), "signed by captain-a captain-b first-referee");
}

TEST_F(SignedResult, ASignatureThatIsTakenBackAtOnceHasConfirmedNothing) {
    by_signatures();
    TestRecord record = record_of(whole_match, id, table.device);
    sign(record);
    const std::uint32_t signed_by_mistake = record.size();
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(is_open());
    record.correct(Strike{signed_by_mistake});
    ASSERT_TRUE(all_appended(push(record, signed_by_mistake + 1)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(stays_open()) << "it was undone";

    record.add(Signature{Signer::first_referee});
    ASSERT_TRUE(all_appended(push(record, signed_by_mistake + 2)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(is_open()) << "it has not stood yet";
    later(stand - std::chrono::seconds{1});
    EXPECT_TRUE(is_open());
    record.add(Note{});
    ASSERT_TRUE(all_appended(push(record, signed_by_mistake + 3)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(is_open());
    later(stand - std::chrono::seconds{1});
    EXPECT_TRUE(is_open()) << "whoever is still writing is still at it";
    later(std::chrono::seconds{1});
    EXPECT_TRUE(testkit::eventually([&] {
        (void)server().closer.look();
        return result() != nullptr;
    }));
    EXPECT_EQ(std::string(result()->head.bytes.begin(), result()->head.bytes.end()),
              record.head_hash());
}

TEST_F(SignedResult, SignaturesConfirmWhatTablesWriteSinceTheEventSaysSo) {
    TestRecord record = record_of(whole_match, id, table.device);
    sign(record);
    const std::uint32_t before = record.size();
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(stays_open());
    EXPECT_EQ(left_to_desk(), "") << "nobody waits for the signatures";
    by_signatures();
    EXPECT_TRUE(stays_open()) << "whoever signed did not know that the result goes out with it";
    EXPECT_EQ(left_to_desk(), "it was signed before signatures confirmed results");
    record.add(Note{});
    ASSERT_TRUE(all_appended(push(record, before + 1)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(stays_open()) << "a remark behind the signatures signs nothing";
    by_signatures();
    record.correct(Strike{before});
    record.add(Signature{Signer::first_referee});
    ASSERT_TRUE(all_appended(push(record, before + 2)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(is_confirmed());
}

TEST_F(SignedResult, SinceWhenSignaturesConfirmIsKnownAfterARestart) {
    TestRecord record = record_of(whole_match, id, table.device);
    sign(record);
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(folded_to(record));
    by_signatures();
    const ServerTime since = server().record.known().signatures_since;
    stop();
    start();
    EXPECT_EQ(server().record.known().signatures_since, since);
    EXPECT_NE(since, ServerTime{});
    EXPECT_TRUE(stays_open());
}

/// A match that the desk plans shorter than its table plays it.
class RefusedResult : public SignedResult {
  protected:
    void SetUp() override {
        shorter = MatchFormat{.sets = 3};
        SignedResult::SetUp();
    }
};

TEST_F(RefusedResult, IsTriedAgainOnlyOnceSomethingItWasRefusedForIsOtherwise) {
    std::vector<Status> tried;
    tournament::ResultCloser closer{
        server().record,
        server().keeper,
        {std::chrono::milliseconds{0}},
        [&](MatchId, const Status& status) { tried.push_back(status); }};
    by_signatures();
    TestRecord record = record_of(whole_match, id, table.device);
    sign(record);
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(closer.look());
    ASSERT_EQ(tried.size(), 1U);
    EXPECT_EQ(tried[0].code, StatusCode::invalid);
    say(event::CourtOpened{7, "", {}, {}, {}});
    EXPECT_TRUE(closer.look());
    EXPECT_EQ(tried.size(), 1U) << "a court has nothing to do with it";
    std::string why;
    server().keeper.read(match, [&](const LiveMatch& live) { why = closer.left_to_desk(live); });
    EXPECT_EQ(why, tried[0].text());
    EXPECT_NE(why.find("1: "), std::string::npos) << "names the match: " << why;

    record.add(Note{});
    ASSERT_TRUE(all_appended(push(record, record.size())));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(closer.look());
    EXPECT_EQ(tried.size(), 2U) << "the table has written";
    say(event::MatchPlaced{"1", 7, {}, event::Timing::follows, false});
    EXPECT_TRUE(closer.look());
    EXPECT_EQ(tried.size(), 3U) << "the desk has changed the match";
    EXPECT_EQ(result(), nullptr);
}

struct LeftToTheDesk {
    const char* what;
    const char* why;  ///< as the desk is told; nobody waits for it while the signatures are missing
    std::vector<Record> before;  ///< the three signatures
    std::vector<Record> behind;  ///< them
};

class ResultOfTheDesk : public SignedResult, public ::testing::WithParamInterface<LeftToTheDesk> {};

TEST_P(ResultOfTheDesk, IsNotConfirmedBySignatures) {
    by_signatures();
    TestRecord record = record_of(whole_match, id, table.device);
    for (const Record& one : GetParam().before) record.correct(one);
    sign(record);
    for (const Record& one : GetParam().behind) record.correct(one);
    // All of it at once: a server that saw the signatures alone would confirm.
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(stays_open());
    EXPECT_EQ(left_to_desk(), GetParam().why);
    say(read_result());
    EXPECT_EQ(result()->from, event::ResultFrom::table) << "the desk may";
    EXPECT_EQ(left_to_desk(), "") << "it is done";
}

INSTANTIATE_TEST_SUITE_P(
    Each, ResultOfTheDesk,
    ::testing::Values(
        LeftToTheDesk{"a protest", "a team has announced a protest", {Fact{Protest{Team::B}}}, {}},
        LeftToTheDesk{"a protest behind them",
                      "a team has announced a protest",
                      {},
                      {Fact{Protest{Team::B}}}},
        LeftToTheDesk{"a correction", "", {}, {Insert{1, Note{}}}},
        LeftToTheDesk{"a verdict that stands", "a verdict still stands", {Fact{Whistle{}}}, {}}));

TEST_F(SignedResult, OnceItWasReopenedTheDeskHasItInHand) {
    by_signatures();
    TestRecord record = record_of(whole_match, id, table.device);
    sign(record);
    const std::uint32_t first = record.size();
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(is_confirmed());
    say(event::ResultReopened{"1"});
    EXPECT_TRUE(stays_open());
    EXPECT_EQ(left_to_desk(), "it had a result that was reopened or taken back");
    sign(record);
    ASSERT_TRUE(all_appended(push(record, first + 1)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(stays_open());
}

TEST_F(SignedResult, OfDeskAndSignaturesAtOnceOneConfirms) {
    by_signatures();
    TestRecord record = record_of(whole_match, id, table.device);
    sign(record);
    ASSERT_TRUE(all_appended(push(record)));
    ASSERT_TRUE(folded_to(record));
    EXPECT_TRUE(is_open());
    const tournament::Act act = act_of(read_result());
    later(stand);
    auto looking = std::async(std::launch::async, [&] { (void)server().closer.look(); });
    const auto outcome = server().record.act(act);
    ASSERT_TRUE(is_confirmed());
    const bool kept = outcome.ok() && outcome->fate == tournament::Outcome::Fate::kept;
    EXPECT_EQ(result()->from, kept ? event::ResultFrom::table : event::ResultFrom::signed_record);
    std::size_t confirmed = 0;
    for (const event::Fact& fact : held_->facts)
        confirmed += std::holds_alternative<event::ResultConfirmed>(fact) ? 1 : 0;
    EXPECT_EQ(confirmed, 1U);
}

}  // namespace
}  // namespace courthand::server::testing
