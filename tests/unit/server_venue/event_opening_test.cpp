// An event script opens a tournament of which nothing was said, once, whatever comes in between.
#include "server/desk/event_opening.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>

#include "courthand/event/advance.h"
#include "courthand/event/duty.h"
#include "courthand/event/limits.h"
#include "courthand/event/plan_clash.h"
#include "record_kit.h"

namespace courthand::server::desk {
namespace {

class EventOpening : public testing::OnRecord {
  protected:
    /// A division and `teams` teams.
    static EventScriptRead script(std::size_t teams) {
        std::string text =
            "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
            "division U16 profile international-2021 chain international-2017\n";
        for (std::size_t i = 1; i <= teams; ++i) text += fmt::format("person {} official\n", i);
        return value_or_throw(read_event_script(text, "a.event"));
    }
    /// Opens with what `script` says of the event beside the Harbour Cup that is there, and is told
    /// so: `whose`, the script and what it opens.
    Status refused(EventScriptRead script, const std::string& whose) {
        std::get<event::TournamentOpened>(script.facts.front().fact) = *script.opened;
        Status status = open_event(*record, tournament_, script);
        EXPECT_EQ(status.code, StatusCode::invalid) << script.facts.size() << " facts";
        EXPECT_EQ(status.message,
                  "the event \"Harbour Cup\" from 2026-11-28 to 2026-11-29 is kept here already, "
                  "and " +
                      whose + "; nothing was changed");
        return status;
    }
};

TEST_F(EventOpening, SaysAllOfItOnce) {
    const auto read = script(5);
    ASSERT_TRUE(read.opened);
    EXPECT_EQ(read.opened->name, "Harbour Cup");
    throw_if_failed(open_event(*record, tournament_, read));
    EXPECT_EQ(state().last(), 7U);
    throw_if_failed(open_event(*record, tournament_, read));
    EXPECT_EQ(state().last(), 7U);
}

TEST_F(EventOpening, GoesOnWhereItWasCutOff) {
    const auto read = script(tournament::most_facts_per_append + 10);
    facts.acts_left = 1;
    EXPECT_EQ(open_event(*record, tournament_, read).code, StatusCode::unavailable);
    EXPECT_EQ(state().last(), tournament::most_facts_per_append);
    facts.acts_left = -1;
    throw_if_failed(open_event(*record, tournament_, read));
    EXPECT_EQ(state().facts.size(), read.facts.size());
    for (std::size_t i = 0; i < read.facts.size(); ++i)
        ASSERT_EQ(state().facts[i], read.facts[i].fact) << i;
}

TEST_F(EventOpening, TwoServersOpenItOnce) {
    const auto read = script(5);
    tournament::RecordKeeper other{tournament_, facts};
    facts.before_next_append = [&] { throw_if_failed(open_event(other, tournament_, read)); };
    throw_if_failed(open_event(*record, tournament_, read));
    EXPECT_EQ(state().last(), 7U);
}

TEST_F(EventOpening, ATournamentOfThatNameThatBeganOtherwiseStaysAsItIs) {
    event::CourtOpened court;
    court.court = 9;
    say({court});
    say({script(0).facts.front().fact});
    throw_if_failed(open_event(*record, tournament_, script(5)));
    EXPECT_EQ(state().last(), 2U);
}

TEST_F(EventOpening, AnotherEventIsToldWithBothNamesAndNothingIsChanged) {
    event::CourtOpened court;
    court.court = 9;
    say({court});
    const Status unnamed = open_event(*record, tournament_, script(5));
    EXPECT_EQ(unnamed.code, StatusCode::invalid);
    EXPECT_EQ(unnamed.message,
              "an event without a name is kept here already, and a.event opens the event \"Harbour "
              "Cup\" from 2026-11-28 to 2026-11-29; nothing was changed");
    EXPECT_EQ(state().last(), 1U);
}

/// As long as the one that is there, shorter, and longer: by the places alone it would seem begun.
TEST_F(EventOpening, AnotherEventIsNotTakenForTheOneThatIsThere) {
    const auto read = script(5);
    throw_if_failed(open_event(*record, tournament_, read));
    for (const std::size_t persons : {5U, 2U, 30U}) {
        auto other = script(persons);
        other.opened->name = "Lantern Cup";
        other.file_name = "cups/lantern.event";
        const Status status = refused(
            other,
            "cups/lantern.event opens the event \"Lantern Cup\" from 2026-11-28 to 2026-11-29");
        EXPECT_NE(status.cure.find("another data folder and another database"), std::string::npos);
        EXPECT_EQ(state().facts.size(), read.facts.size());
    }
    // The desk has given it another name since: the script is still the one it began with.
    auto renamed = std::get<event::TournamentOpened>(read.facts.front().fact);
    renamed.name = "Harbour Cup, second day";
    say({event::TakenBack{1}});
    say({renamed});
    throw_if_failed(open_event(*record, tournament_, read));
}

/// The next year's script has the lines of this year's in most places.
TEST_F(EventOpening, TheEventOfAnotherYearIsAnotherOneWhateverItsName) {
    const auto read = script(5);
    throw_if_failed(open_event(*record, tournament_, read));
    for (const std::size_t persons : {5U, 2U, 30U}) {
        auto next = script(persons);
        next.opened->first_day.days += 365;
        next.opened->last_day.days += 365;
        next.file_name = "cups/harbour-2027.event";
        const Status status =
            refused(next,
                    "cups/harbour-2027.event opens the event \"Harbour Cup\" from "
                    "2027-11-28 to 2027-11-29");
        EXPECT_EQ(status.cure,
                  "name another data folder and another database for it, or leave --event out to "
                  "go on with the event \"Harbour Cup\" from 2026-11-28 to 2026-11-29");
        EXPECT_EQ(state().facts.size(), read.facts.size());
    }
}

TEST_F(EventOpening, AFactWithoutEffectIsToldAndNothingIsKept) {
    const auto read = value_or_throw(
        read_event_script("tournament \"A\" from 2026-11-28 to 2026-11-28 zone Europe/London\n"
                          "team \"Mill Lane\" in U18\n",
                          "a.event"));
    const Status status = open_event(*record, tournament_, read);
    EXPECT_EQ(status.code, StatusCode::invalid);
    EXPECT_EQ(status.message.find("a.event:2:1: "), 0U) << status.message;
    EXPECT_NE(status.message.find("U18"), std::string::npos) << status.message;
    EXPECT_FALSE(status.cure.empty());
    EXPECT_EQ(state().last(), 0U);
}

TEST_F(EventOpening, AFactWithoutEffectBehindManyOthersIsToldWithItsPlace) {
    std::string text =
        "# mine\n\ntournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017\n"
        "expect fine   # looked at by the replay alone\n";
    const std::size_t persons = tournament::most_facts_per_append + 10;
    for (std::size_t i = 1; i <= persons; ++i) text += fmt::format("person {} official\n", i);
    text += "   bracket U16 single prefix M\n";
    const auto read = value_or_throw(read_event_script(text, "cups/mine.event"));
    const Status status = open_event(*record, tournament_, read);
    EXPECT_EQ(status.code, StatusCode::invalid);
    EXPECT_EQ(status.message.find(fmt::format("cups/mine.event:{}:4: bracket: ", persons + 6)), 0U)
        << status.message;
    EXPECT_FALSE(status.cure.empty());
    EXPECT_EQ(state().last(), 0U) << "nor is the part before kept";
}

TEST_F(EventOpening, WhatALimitForbidsIsToldWithItsPlaceAndIsNotTriedAgain) {
    std::string text =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London\n";
    for (std::size_t i = 0; i <= event::most_divisions; ++i)
        text +=
            fmt::format("division D{} profile international-2021 chain international-2017\n", i);
    const auto read = value_or_throw(read_event_script(text, "a.event"));
    const Status status = open_event(*record, tournament_, read);
    EXPECT_FALSE(status.passing()) << status.text();
    EXPECT_EQ(status.message.find(fmt::format("a.event:{}:1: ", event::most_divisions + 2)), 0U)
        << status.message;
}

TEST_F(EventOpening, AFactThatIsObjectedToIsToldWithItsPlaceAndNothingIsKept) {
    const std::string division = "division U16 profile international-2021 chain international-2017";
    const std::string teams = "team \"Mill Lane\" in U16\nteam \"Quayside\" in U16\n";
    const std::string zone =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-29 zone Europe/Athens\n";
    std::string people;
    for (int i = 1; i <= 1100; ++i) people += fmt::format("person {} official\n", i);
    ASSERT_GT(1100U, tournament::most_facts_per_append) << "the zone is of another part";
    const struct {
        const char* what;
        std::string text;
        std::size_t line;
        const char* cure;
    } cases[]{
        {"a zone after times",
         division + "\n" + teams +
             "court 1\n"
             "match F in U16 first \"Mill Lane\" second \"Quayside\"\n"
             "place F court 1 at 2026-11-28T10:00\n" +
             people + zone,
         1107, "before they are placed"},
        {"a list that changes",
         division + "\n" + teams +
             "roster \"Quayside\" numbers 1 2\nroster \"Quayside\" numbers 1\n",
         5, "reason"},
        {"a format", zone + division + " format best-of 3 points 25 cap 20\n" + teams, 2,
         "raise the cap"},
    };
    for (const auto& one : cases) {
        const auto read = value_or_throw(read_event_script(one.text, "a.event"));
        const Status status = open_event(*record, tournament_, read);
        EXPECT_EQ(status.code, StatusCode::invalid) << one.what;
        EXPECT_EQ(status.message.find(fmt::format("a.event:{}:1: ", one.line)), 0U)
            << status.message;
        EXPECT_NE(status.cure.find(one.cure), std::string::npos) << status.cure;
        ASSERT_EQ(state().last(), 0U) << one.what << ": nothing of it is kept";
    }
}

TEST_F(EventOpening, AScriptThatWasChangedSinceItWasCutOffDoesNotGoOn) {
    const std::size_t persons = tournament::most_facts_per_append + 10;
    const auto read = script(persons);
    facts.acts_left = 1;
    EXPECT_EQ(open_event(*record, tournament_, read).code, StatusCode::unavailable);
    facts.acts_left = -1;
    auto changed = read;
    // A line more: each fact behind it would have the id of another.
    changed.facts.insert(changed.facts.begin() + 2, changed.facts.front());
    changed.places.insert(changed.places.begin() + 2, changed.places.front());
    changed.places[2] = {7, 3};
    const Status status = open_event(*record, tournament_, changed);
    EXPECT_EQ(status.code, StatusCode::invalid);
    EXPECT_EQ(status.message.find("a.event:7:3: "), 0U) << status.message;
    EXPECT_FALSE(status.cure.empty());
    EXPECT_EQ(state().last(), tournament::most_facts_per_append);
    throw_if_failed(open_event(*record, tournament_, read));
    EXPECT_EQ(state().facts.size(), read.facts.size());
    // Once all is said, the script is not looked at any more.
    auto shorter = read;
    shorter.facts[4] = shorter.facts.front();
    throw_if_failed(open_event(*record, tournament_, shorter));
}

TEST_F(EventOpening, AMistakeOfTheScriptIsToldWithFileLineAndColumn) {
    const auto read = read_event_script("# mine\ncourt one\n", "cups/mine.event");
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.status().code, StatusCode::invalid);
    EXPECT_EQ(read.status().message.find("cups/mine.event:2:7: "), 0U) << read.status().message;
    EXPECT_FALSE(read.status().cure.empty());
}

TEST_F(EventOpening, TheHarbourCupIsAWholeEvent) {
    std::ifstream in{COURTHAND_HARBOUR_CUP};
    const std::string text{std::istreambuf_iterator<char>{in}, {}};
    const auto read = value_or_throw(read_event_script(text, "harbour-cup.event"));
    throw_if_failed(open_event(*record, tournament_, read));
    EXPECT_TRUE(state().findings.empty());
    EXPECT_EQ(state().teams.size(), 24U);
    EXPECT_EQ(state().divisions.front().pools.size(), 6U);
    EXPECT_EQ(state().courts.size(), 6U);
    ASSERT_EQ(state().match_names.size(), 59U);
    for (const auto& [name, ref] : state().match_names)
        EXPECT_TRUE(state().match(ref).placement) << name;
    for (const auto& [name, ref] : state().match_names)
        for (const event::PlanClash& clash : event::plan_clashes(state(), ref))
            ADD_FAILURE() << name << ": " << event::in_words(state(), ref, clash);
    EXPECT_TRUE(event::waiting(state()).empty());
    std::size_t officials = 0;
    for (const auto& [number, person] : state().persons)
        if (person.role == event::Role::official) ++officials;
    EXPECT_EQ(officials, 14U);
    for (const auto& [name, ref] : state().match_names)
        EXPECT_EQ(state().match(ref).duty.first_referee != 0, state().node(ref).pool.has_value())
            << name;
    EXPECT_TRUE(event::clashes(state()).empty());
    look();
    const auto planned = value_or_throw(matches.matches(tournament_));
    EXPECT_EQ(planned.size(), 36U) << "the matches of the pools can be played";
}

}  // namespace
}  // namespace courthand::server::desk
