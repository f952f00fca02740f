// From the record to the matches that tables keep: what is opened, moved, closed and given up.
#include "server/tournament/match_opener.h"

#include <thread>

#include "record_kit.h"
#include "server/domain/record_start.h"
#include "server/tournament/confirmable.h"
#include "server/tournament/derived_id.h"
#include "server/tournament/hall_clock.h"
#include "server/tournament/opening.h"

namespace courthand::server::desk {
namespace {

using event::Source;

class Opener : public testing::OnRecord {
  protected:
    /// Four teams, two semifinals and a final of best of three on three courts.
    void SetUp() override {
        event::DivisionOpened division;
        division.division = "U16";
        division.profile = "international-2025";
        division.chain = "international-2017";
        division.format = {true, MatchFormat{.sets = 3}};
        std::vector<event::Fact> said{
            event::TournamentOpened{"Harbour Cup", *event::date_of("2026-11-28"),
                                    *event::date_of("2026-11-29"), "Europe/Paris"},
            division};
        for (const char* team : {"Mill Lane", "Quayside", "Saltmarsh", "Ropewalk"})
            said.push_back(event::TeamEntered{team, "U16", "", "1f3a5f"});
        for (std::uint16_t court = 1; court <= 3; ++court)
            said.push_back(event::CourtOpened{court, "", {}, {}, {}});
        said.push_back(added("S1", team("Mill Lane"), team("Quayside")));
        said.push_back(added("S2", team("Saltmarsh"), team("Ropewalk")));
        said.push_back(added("F1", winner("S1"), winner("S2")));
        say(std::move(said));
    }
    static Source team(const std::string& name) { return {Source::Kind::team, name, 0, {}}; }
    static Source winner(const std::string& match) { return {Source::Kind::winner, match, 0, {}}; }
    static event::MatchAdded added(const std::string& name, Source first, Source second) {
        return {name, "U16", std::move(first), std::move(second), {}};
    }
    static event::MatchPlaced placed(const std::string& match, std::uint16_t court,
                                     const char* at) {
        return {match, court, *event::local_time_of(at), event::Timing::fixed, false};
    }
    static event::ResultConfirmed result(const std::string& match, bool first) {
        event::ResultConfirmed confirmed;
        confirmed.match = match;
        confirmed.from = event::ResultFrom::paper;
        confirmed.sets.assign(2, first ? event::SetScore{25, 20} : event::SetScore{20, 25});
        return confirmed;
    }
    void place_all() {
        say({placed("S1", 1, "2026-11-28T09:00"), placed("S2", 2, "2026-11-28T08:30"),
             placed("F1", 3, "2026-11-28T12:00")});
        look();
    }
    void play_semifinals() { say({result("S1", true), result("S2", true)}); }
    /// The table of the match writes the first entry.
    void begin(const MatchPlan& plan) {
        const DeviceId device{new_uuid()};
        (void)value_or_throw(
            matches.grant_writer({plan.key, device, GrantWish::How::granted, "test"}));
        const auto kept =
            value_or_throw(matches.append(tournament_, std::vector{first_entry(plan, device)}));
        ASSERT_EQ(kept.front().fate, Fate::appended) << kept.front().message;
    }
    /// Somebody took the match over before the first entry of its table came.
    void begin_beside(const MatchPlan& plan) {
        const DeviceId before{new_uuid()};
        (void)value_or_throw(
            matches.grant_writer({plan.key, before, GrantWish::How::granted, "test"}));
        (void)value_or_throw(matches.grant_writer(
            {plan.key, DeviceId{new_uuid()}, GrantWish::How::taken_over, "test"}));
        const auto kept =
            value_or_throw(matches.append(tournament_, std::vector{first_entry(plan, before)}));
        ASSERT_EQ(kept.front().fate, Fate::branched) << kept.front().message;
    }
    static AppendItem first_entry(const MatchPlan& plan, DeviceId device) {
        AppendItem item;
        item.match = plan.key.match;
        item.id = EntryId{new_uuid()};
        item.device = device;
        item.epoch = 1;
        item.number = 1;
        item.previous = start_hash(plan.key.match);
        item.hash.fill(7);
        item.bytes = std::make_shared<const std::string>("an entry");
        return item;
    }
    /// Takes the fact back and says the match anew, on its court.
    void add_anew(event::FactNumber fact, const event::MatchAdded& match) {
        say({event::TakenBack{fact}});
        say({match, placed(match.match, 1, "2026-11-28T13:00")});
        look();
    }
    std::size_t plans() { return value_or_throw(matches.matches(tournament_)).size(); }
    MatchPlan plan_of(const MatchKey& key) { return value_or_throw(matches.match(key)).plan; }
    /// A look that finds everything as it should be.
    void expect_settled() {
        const auto opening = tournament::opening(tournament_, record->known(),
                                                 value_or_throw(matches.matches(tournament_)));
        EXPECT_TRUE(opening.records.empty());
        EXPECT_TRUE(opening.made.empty());
        EXPECT_TRUE(opening.changed.empty());
    }
};

/// A program before schema 32 planned it: tables that play it, and one that is over, are told its
/// name.
TEST_F(Opener, AMatchThatWasPlannedWithoutItsNameIsGivenIt) {
    place_all();
    begin(plan("S1"));
    say({result("S2", true)});
    look();
    for (const char* name : {"S1", "S2"}) {
        MatchPlan unnamed = plan(name);
        unnamed.name.clear();
        (void)value_or_throw(matches.change_match(unnamed));
        look();
        EXPECT_EQ(plan(name).name, name);
        EXPECT_EQ(plan(name).number, unnamed.number);
    }
    expect_settled();
}

TEST_F(Opener, OnlyWhatHasACourtAndItsTeamsIsOpened) {
    look();
    EXPECT_EQ(plans(), 0U);
    place_all();
    EXPECT_EQ(plans(), 2U) << "the final waits for its teams";
    const MatchPlan first = plan("S1");
    EXPECT_EQ(first.name, "S1");
    EXPECT_EQ(first.first.name, "Mill Lane");
    EXPECT_EQ(first.second.name, "Quayside");
    EXPECT_EQ(first.first.colour, "1f3a5f");
    EXPECT_FALSE(first.first.id.nil());
    EXPECT_EQ(first.court, 1U);
    EXPECT_EQ(first.format.sets, 3);
    EXPECT_EQ(first.profile, "international-2025");
    EXPECT_EQ(first.profile_hash, find_profile("international-2025")->hash);
    // Nine in the hall in November is eight in UTC.
    EXPECT_EQ(first.scheduled_at, ServerTime{std::chrono::seconds{1'795'852'800}});
    EXPECT_EQ(first.number, 2U) << "numbers follow the order of play";
    EXPECT_EQ(plan("S2").number, 1U);
    expect_settled();
    const auto last = state().last();
    look();
    EXPECT_EQ(state().last(), last);
    EXPECT_TRUE(state().findings.empty());
}

TEST_F(Opener, TheServerItselfOpensARecord) {
    place_all();
    const auto page = value_or_throw(facts.read(tournament_, state().last() - 1, 1));
    EXPECT_TRUE(page.front().device.nil());
}

TEST_F(Opener, APlanGoesWhereTheRecordPutsTheMatch) {
    place_all();
    say({event::MatchMoved{"S1", 2, *event::local_time_of("2026-11-28T10:15")}});
    look();
    EXPECT_EQ(plan("S1").court, 2U);
    EXPECT_EQ(plan("S1").scheduled_at, ServerTime{std::chrono::seconds{1'795'857'300}});
    say({event::MatchUnplaced{"S1"}});
    look();
    EXPECT_EQ(plan("S1").court, 0U);
    EXPECT_EQ(plan("S1").status, PlanStatus::scheduled);
    expect_settled();
}

TEST_F(Opener, AConfirmedResultClosesThePlanAndAReopenedOneOpensIt) {
    place_all();
    say({result("S1", true)});
    look();
    EXPECT_EQ(plan("S1").status, PlanStatus::confirmed);
    expect_settled();
    say({event::ResultReopened{"S1"}});
    look();
    EXPECT_EQ(plan("S1").status, PlanStatus::scheduled);
    // From a paper sheet, without any table: there is nothing to open.
    say({event::MatchUnplaced{"F1"}});
    play_semifinals();
    say({result("F1", true), placed("F1", 3, "2026-11-28T12:00")});
    look();
    EXPECT_EQ(plans(), 2U);
}

TEST_F(Opener, TeamsThatChangeBeforePlayAreThoseOfTheSamePlan) {
    place_all();
    play_semifinals();
    look();
    const MatchPlan before = plan("F1");
    EXPECT_EQ(before.first.name, "Mill Lane");
    say({event::ResultReopened{"S1"}});
    look();
    EXPECT_EQ(plan_of(before.key).status, PlanStatus::cancelled)
        << "nobody may begin while a side is open";
    say({result("S1", false)});
    look();
    const MatchPlan after = plan("F1");
    EXPECT_EQ(after.key, before.key);
    EXPECT_EQ(after.first.name, "Quayside");
    EXPECT_EQ(after.status, PlanStatus::scheduled);
    EXPECT_EQ(plans(), 3U);
    expect_settled();
}

TEST_F(Opener, TeamsThatChangeAfterPlayHasBegunGetARecordOfTheirOwn) {
    place_all();
    play_semifinals();
    look();
    const MatchPlan begun = plan("F1");
    begin(begun);
    say({event::ResultReopened{"S1"}});
    look();
    EXPECT_EQ(plan_of(begun.key).status, PlanStatus::scheduled) << "it may be confirmed as it was";
    say({result("S1", false)});
    look();
    const MatchPlan other = plan("F1");
    EXPECT_NE(other.key, begun.key);
    EXPECT_EQ(other.first.name, "Quayside");
    EXPECT_EQ(other.court, 3U);
    EXPECT_EQ(plan_of(begun.key).status, PlanStatus::cancelled);
    EXPECT_EQ(plan_of(begun.key).first.name, "Mill Lane");
    EXPECT_EQ(value_or_throw(matches.match(begun.key)).head.last, 1U) << "nothing is lost";
    expect_settled();

    // The first result was right after all: their record goes on.
    say({event::ResultReopened{"S1"}});
    say({result("S1", true)});
    look();
    EXPECT_EQ(plan("F1").key, begun.key);
    EXPECT_EQ(plan_of(begun.key).status, PlanStatus::scheduled);
    EXPECT_EQ(plan_of(other.key).status, PlanStatus::cancelled);
    EXPECT_EQ(plans(), 4U);
    expect_settled();
}

TEST_F(Opener, AResultWhoseTableWritesBetweenTheLookAndTheActIsNotKept) {
    place_all();
    const MatchPlan first = plan("S1");
    const auto of_the_table = [&] {
        event::ResultConfirmed confirmed = result("S1", true);
        confirmed.from = event::ResultFrom::table;
        confirmed.record = tournament::record_id(first.key.match);
        confirmed.head.bytes = value_or_throw(matches.match(first.key)).head.hash;
        tournament::Act act;
        act.device = speaker.device;
        act.author = speaker.author;
        act.seen = record->state()->last();
        act.facts.push_back({tournament::FactId{new_uuid()}, {confirmed, ""}});
        return act;
    };
    const tournament::Act act = of_the_table();
    ASSERT_TRUE(tournament::confirmable(act, tournament_, *record, matches).ok());
    const auto last = state().last();
    facts.before_next_append = [&] { begin(first); };
    const Status refused = record->act(act).status();
    EXPECT_EQ(refused.code, StatusCode::conflict);
    EXPECT_NE(refused.message.find("S1: the table has written since"), std::string::npos)
        << refused.message;
    EXPECT_EQ(state().last(), last) << "nothing is kept";
    EXPECT_EQ(tournament::confirmable(act, tournament_, *record, matches).text(), refused.text());
    ASSERT_TRUE(record->act(of_the_table()).ok());
    EXPECT_TRUE(state().match(*state().find_match("S1")).result);
}

TEST_F(Opener, AMatchThatIsTakenBackIsCancelledUntilItIsRestored) {
    place_all();
    const MatchPlan before = plan("S1");
    event::FactNumber fact = 0;
    for (std::size_t i = 0; i < state().facts.size(); ++i)
        if (const auto* match = std::get_if<event::MatchAdded>(&state().facts[i]);
            match != nullptr && match->match == "S1")
            fact = static_cast<event::FactNumber>(i + 1);
    say({event::TakenBack{fact}});
    look();
    EXPECT_EQ(plan_of(before.key).status, PlanStatus::cancelled);
    say({event::TakenBack{state().last()}});
    look();
    EXPECT_EQ(plan_of(before.key).status, PlanStatus::scheduled);
    EXPECT_EQ(plan("S1").key, before.key);
    expect_settled();
}

TEST_F(Opener, ARecordThatATableOpenedByItselfIsThatOfTheMatchTheDeskSays) {
    MatchPlan opened;
    opened.key = {tournament_, MatchId{new_uuid()}};
    opened.court = 5;
    opened.first.name = "The blue ones";
    opened.second.name = "The others";
    opened.profile = "international-2025";
    opened.opened_at_table = true;
    (void)value_or_throw(matches.create_match(opened));
    begin(opened);
    say({event::RecordOpened{"S1", tournament::record_id(opened.key.match)}});
    look();
    EXPECT_EQ(plans(), 1U);
    EXPECT_EQ(plan("S1").key, opened.key);
    EXPECT_EQ(plan("S1").court, 5U) << "where its table is";
    const auto named = state().last();
    say({result("S1", true)});
    look();
    EXPECT_EQ(plan("S1").status, PlanStatus::confirmed);
    expect_settled();

    // It was another match: its table goes on.
    say({event::ResultReopened{"S1"}, event::TakenBack{named}});
    look();
    EXPECT_EQ(plan_of(opened.key).status, PlanStatus::scheduled);
    expect_settled();
}

TEST_F(Opener, AnUnbegunMatchIsPlayedAsTheRecordHasItNow) {
    event::MatchAdded match = added("X1", team("Mill Lane"), team("Ropewalk"));
    say({match});
    const auto first_said = state().last();
    say({placed("X1", 1, "2026-11-28T13:00")});
    look();
    const MatchPlan before = plan("X1");
    ASSERT_EQ(before.format.sets, 3);
    match.format = {true, MatchFormat{.sets = 5}};
    add_anew(first_said, match);
    EXPECT_EQ(plan("X1").format.sets, 5);
    EXPECT_EQ(plan("X1").status, PlanStatus::scheduled);
    EXPECT_NE(plan("X1").key, before.key);
    EXPECT_EQ(plan_of(before.key).status, PlanStatus::cancelled);
    say({event::TeamDescribed{"Ropewalk", "Rope", "2a7f62"}});
    look();
    EXPECT_EQ(plan("X1").second.club, "Rope");
    EXPECT_EQ(plan("X1").second.colour, "2a7f62");
    say({event::SidesGiven{"X1", team("Ropewalk"), team("Mill Lane")}});
    look();
    EXPECT_EQ(plan("X1").first.name, "Ropewalk");
    expect_settled();
}

TEST_F(Opener, ABegunMatchOfAnotherFormatGetsARecordOfItsOwn) {
    const event::MatchAdded of_three = added("X1", team("Mill Lane"), team("Ropewalk"));
    event::MatchAdded of_five = of_three;
    of_five.format = {true, MatchFormat{.sets = 5}};
    say({of_three});
    const auto first_said = state().last();
    say({placed("X1", 1, "2026-11-28T13:00")});
    look();
    const MatchPlan begun = plan("X1");
    begin(begun);
    add_anew(first_said, of_five);
    EXPECT_NE(plan("X1").key, begun.key);
    EXPECT_EQ(plan("X1").format.sets, 5);
    EXPECT_EQ(plan_of(begun.key).status, PlanStatus::cancelled);
    EXPECT_EQ(plan_of(begun.key).format.sets, 3) << "a begun record is what it was";
    expect_settled();
    event::FactNumber second_said = 0;
    for (std::size_t i = first_said; i < state().facts.size(); ++i)
        if (std::holds_alternative<event::MatchAdded>(state().facts[i]))
            second_said = static_cast<event::FactNumber>(i + 1);
    add_anew(second_said, of_three);
    EXPECT_EQ(plan("X1").key, begun.key) << "the record of three sets goes on";
    EXPECT_EQ(plan_of(begun.key).status, PlanStatus::scheduled);
    expect_settled();
}

TEST_F(Opener, AMatchWithEntriesBesideItsRecordHasBegun) {
    place_all();
    play_semifinals();
    look();
    const MatchPlan begun = plan("F1");
    begin_beside(begun);
    say({event::ResultReopened{"S1"}});
    say({result("S1", false)});
    look();
    EXPECT_NE(plan("F1").key, begun.key);
    EXPECT_EQ(plan("F1").first.name, "Quayside");
    EXPECT_EQ(plan_of(begun.key).first.name, "Mill Lane");
    expect_settled();
}

TEST_F(Opener, AfterALookThatOthersOvertookItWaits) {
    place_all();
    matches.all_begin = true;
    say({event::SidesGiven{"S1", team("Quayside"), team("Mill Lane")}});
    matches.readings = 0;
    tournament::MatchOpener opener{tournament_, *record, matches};
    opener.start();
    std::this_thread::sleep_for(tournament::LookingThread::Rhythm{}.tries_again / 2);
    opener.stop();
    EXPECT_GE(matches.readings.load(), 1);
    EXPECT_LE(matches.readings.load(), 2);
}

TEST_F(Opener, SidesThatAreTurnedInPlayAreTheSameMatch) {
    place_all();
    const MatchPlan begun = plan("S1");
    begin(begun);
    say({event::SidesGiven{"S1", team("Quayside"), team("Mill Lane")}});
    look();
    EXPECT_EQ(plan("S1").key, begun.key);
    EXPECT_EQ(plan_of(begun.key).status, PlanStatus::scheduled);
    EXPECT_EQ(plan_of(begun.key).first.name, "Mill Lane") << "as its record was begun";
    EXPECT_EQ(plans(), 2U);
    expect_settled();
}

TEST_F(Opener, ATeamDoesNotPlayAgainstItself) {
    place_all();
    say({added("X1", winner("S1"), team("Mill Lane")), placed("X1", 1, "2026-11-28T13:00")});
    say({result("S1", true)});
    look();
    EXPECT_EQ(plans(), 2U);
    expect_settled();
}

TEST_F(Opener, AMatchThatBeginsMeanwhileIsNotCancelled) {
    place_all();
    play_semifinals();
    look();
    const MatchPlan waiting = plan("F1");
    say({event::ResultReopened{"S1"}});
    matches.first_changes = [&] { begin(waiting); };
    look();
    look();
    EXPECT_EQ(value_or_throw(matches.match(waiting.key)).head.last, 1U);
    EXPECT_EQ(plan_of(waiting.key).status, PlanStatus::scheduled);
}

TEST_F(Opener, AResultIsConfirmedOfWhatTheTableHasWrittenLast) {
    place_all();
    const MatchPlan played = plan("S1");
    const auto of = [&](const Hash& head) {
        event::ResultConfirmed confirmed = result("S1", true);
        confirmed.from = event::ResultFrom::table;
        confirmed.record = tournament::record_id(played.key.match);
        confirmed.head.bytes = head;
        tournament::Act act;
        act.device = speaker.device;
        act.author = speaker.author;
        act.seen = state().last();
        act.facts.push_back({tournament::FactId{new_uuid()}, {confirmed, ""}});
        return act;
    };
    const auto confirmable = [&](const tournament::Act& act) {
        return tournament::confirmable(act, tournament_, *record, matches);
    };
    const tournament::Act kept = of(value_or_throw(matches.match(played.key)).head.hash);
    const tournament::Act late = of(value_or_throw(matches.match(played.key)).head.hash);
    EXPECT_TRUE(confirmable(kept).ok());
    ASSERT_EQ(value_or_throw(record->act(kept)).fate, tournament::Outcome::Fate::kept);
    begin(played);
    EXPECT_TRUE(confirmable(kept).ok()) << "sent again, it stands";
    const Status refused = confirmable(late);
    EXPECT_EQ(refused.code, StatusCode::conflict);
    EXPECT_NE(refused.message.find("S1: the table has written since: look at the result again"),
              std::string::npos)
        << refused.message;
    EXPECT_TRUE(confirmable(of(value_or_throw(matches.match(played.key)).head.hash)).ok());
    matches.fail_with(Status::failed(StatusCode::unavailable, "the database is away"));
    EXPECT_EQ(confirmable(late).code, StatusCode::unavailable);
}

TEST_F(Opener, NobodyWaitsAtTheCourtForATeamThatHasLeft) {
    place_all();
    say({event::TeamWithdrawn{"Quayside"}});
    look();
    EXPECT_EQ(plan("S1").status, PlanStatus::cancelled);
    expect_settled();
}

TEST_F(Opener, APlanThatCouldNotBeMadeIsMadeLater) {
    matches.away = true;
    say({placed("S1", 1, "2026-11-28T09:00")});
    tournament::MatchOpener opener{tournament_, *record, matches};
    EXPECT_EQ(opener.look().code, StatusCode::unavailable);
    EXPECT_EQ(plans(), 0U);
    const auto last = state().last();
    matches.away = false;
    look();
    EXPECT_EQ(plans(), 1U);
    EXPECT_EQ(state().last(), last) << "its record was named before";
    expect_settled();
}

TEST_F(Opener, TheThreadLooksWhenTheRecordChanges) {
    tournament::MatchOpener opener{tournament_, *record, matches};
    opener.start();
    say({placed("S1", 1, "2026-11-28T09:00"), placed("S2", 2, "2026-11-28T08:30")});
    for (int i = 0; i < 10'000 && plans() < 2; ++i)
        std::this_thread::sleep_for(std::chrono::milliseconds{1});
    opener.stop();
    EXPECT_EQ(plans(), 2U);
    expect_settled();
}

TEST_F(Opener, SeveralServersOpenEveryMatchOnce) {
    constexpr std::size_t servers = 4;
    constexpr int matches_by_hand = 60;
    std::vector<event::Fact> said;
    for (int m = 0; m < matches_by_hand; ++m) {
        const std::string name = "X" + std::to_string(m);
        said.push_back(added(name, team("Mill Lane"), team("Ropewalk")));
        said.push_back(placed(name, 1, "2026-11-28T13:00"));
    }
    say(std::move(said));
    std::vector<std::unique_ptr<tournament::RecordKeeper>> keepers;
    std::vector<std::thread> threads;
    for (std::size_t s = 0; s < servers; ++s) {
        keepers.push_back(std::make_unique<tournament::RecordKeeper>(tournament_, facts));
        threads.emplace_back([this, keeper = keepers.back().get()] {
            tournament::MatchOpener opener{tournament_, *keeper, matches};
            EXPECT_TRUE(opener.look().ok());
        });
    }
    for (std::thread& thread : threads) thread.join();
    look();
    EXPECT_EQ(plans(), static_cast<std::size_t>(matches_by_hand));
    std::size_t opened = 0;
    for (const event::Fact& fact : state().facts)
        if (std::holds_alternative<event::RecordOpened>(fact)) ++opened;
    EXPECT_EQ(opened, static_cast<std::size_t>(matches_by_hand));
    expect_settled();
}

TEST(DerivedId, IsTheNameBasedIdOfTheStandard) {
    // RFC 4122, appendix C: the space of domain names; the id of this name is told in its errata.
    const Uuid names = *uuid_from_text("6ba7b810-9dad-11d1-80b4-00c04fd430c8");
    EXPECT_EQ(to_text(tournament::derived_id(names, "www.example.com")),
              "2ed6657d-e927-568b-95e1-2665a8aea6a2");
}

TEST(HallClock, ShowsTheTimeOfTheHall) {
    event::TournamentState state;
    const auto summer = *event::local_time_of("2026-07-04T09:30");
    const auto at = [&](const char* zone) {
        state.opened = event::TournamentOpened{"Harbour Cup", {}, {}, zone};
        const tournament::HallClock clock{state};
        EXPECT_EQ(clock.shows(clock.moment(summer) + std::chrono::seconds{59}), summer) << zone;
        return std::chrono::duration_cast<std::chrono::seconds>(
                   clock.moment(summer).time_since_epoch())
            .count();
    };
    constexpr std::int64_t half_past_nine_utc = 1'783'157'400;
    EXPECT_EQ(at("Europe/Paris"), half_past_nine_utc - 2 * 3600);
    EXPECT_EQ(at("America/New_York"), half_past_nine_utc + 4 * 3600);
    EXPECT_EQ(at("Nowhere/Land"), half_past_nine_utc) << "an unknown zone is UTC";
    state.opened.reset();
    EXPECT_EQ(tournament::HallClock{state}.moment(summer),
              ServerTime{std::chrono::seconds{half_past_nine_utc}});
}

}  // namespace
}  // namespace courthand::server::desk
