// Whose names go, and when.
#include "server/tournament/name_retention.h"

#include <gtest/gtest.h>

#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "server/tournament/memory_fact_store.h"
#include "server/tournament/record_keeper.h"

namespace courthand::server::tournament {
namespace {

class NameRetention : public ::testing::Test {
  protected:
    NameRetention() {
        say(event::TournamentOpened{"Harbour Cup", *event::date_of("2026-11-28"),
                                    *event::date_of("2026-11-29"), "Europe/London"});
        say(event::PersonListed{7, event::Role::official, "", {}}, "Robin");
        say(event::PersonListed{8, event::Role::official, "", {}}, "Kim");
        say(event::NoteWritten{}, "the hall was closed at eight");
        say(event::PersonListed{7, event::Role::coach, "", {}}, "Robin of the quay");
        say(event::TakenBack{5});
    }
    void say(event::Fact fact, std::string words = {}) {
        Act act;
        act.author = "desk 1";
        act.seen = keeper_.state()->last();
        act.facts.push_back({FactId{new_uuid()}, {std::move(fact), std::move(words)}});
        ASSERT_EQ(value_or_throw(keeper_.act(act)).fate, Outcome::Fate::kept);
    }
    /// Texts that still stand beside a fact.
    std::vector<std::string> words() {
        std::vector<std::string> all;
        for (const KeptFact& fact : value_or_throw(facts_.read(tournament_, 0, 100)))
            if (fact.beside) all.push_back(fact.beside->text);
        return all;
    }
    std::size_t erased_on(const char* day, std::uint32_t days) {
        return value_or_throw(erase_names_due(facts_, tournament_, *event::date_of(day), days))
            .count;
    }

    MemoryMatchStore feed_;
    MemoryFactStore facts_{feed_};
    TournamentId tournament_ =
        value_or_throw(feed_.create_tournament(TournamentId{new_uuid()}, "Cup")).id;
    RecordKeeper keeper_{tournament_, facts_};
};

using Texts = std::vector<std::string>;

TEST_F(NameRetention, OfOnePersonEveryNameGoesAndNothingElse) {
    EXPECT_EQ(value_or_throw(erase_names(facts_, tournament_, {std::uint16_t{7}})).count, 2U);
    EXPECT_EQ(words(), (Texts{"Kim", "the hall was closed at eight"}));
    EXPECT_EQ(value_or_throw(erase_names(facts_, tournament_, {std::uint16_t{7}})).count, 0U);
}

/// A reason and a note are free to name somebody: those about the person, his list, and what he
/// works, go with the name.
class WordsAboutPersons : public NameRetention {
  protected:
    WordsAboutPersons() {
        event::DivisionOpened division;
        division.division = "U16";
        division.profile = "international-2025";
        division.chain = "international-2017";
        say(division, "as in the spring");
        for (const char* team : {"Mill Lane", "Quayside"}) say(event::TeamEntered{team, "U16", ""});
        say(event::PersonListed{11, event::Role::player, "Mill Lane", Jersey{1}}, "Alex");
        say(event::PersonListed{12, event::Role::player, "Quayside", Jersey{1}}, "Sam");
        say(event::RosterFrozen{"Mill Lane", {1, 2}});
        say(event::RosterFrozen{"Quayside", {1, 2}});
        say(event::RosterFrozen{"Mill Lane", {1}}, "Alex plays instead of Chris");
        say(event::TakenBack{keeper_.state()->last()}, "Alex is hurt");
        say(event::RosterFrozen{"Quayside", {1}}, "Sam's brother went home");
        say(event::ConflictDeclared{8, "Quayside"}, "Kim is Sam's uncle");
        say(event::CrewFormed{"Blue", {7, 8}}, "Kim asked for it");
        event::NoteWritten note;
        note.team = "Mill Lane";
        say(note, "Alex has lost a shoe");
        say(event::TeamDescribed{"Quayside", "Quay", ""}, "the club says so");
        say(event::TeamWithdrawn{"Mill Lane"}, "Alex is ill, and they are five");
        say(event::TeamWithdrawn{"Quayside"}, "their bus");
    }
};

TEST_F(WordsAboutPersons, OfOnePersonGoWithTheNameAndNoOthers) {
    const auto erased = value_or_throw(erase_names(facts_, tournament_, {std::uint16_t{11}}));
    EXPECT_EQ(erased.count, 5U);
    EXPECT_EQ(words(),
              (Texts{"Robin", "Kim", "the hall was closed at eight", "Robin of the quay",
                     "as in the spring", "Sam", "Sam's brother went home", "Kim is Sam's uncle",
                     "Kim asked for it", "the club says so", "their bus"}));
    EXPECT_EQ(value_or_throw(erase_names(facts_, tournament_, {std::uint16_t{8}})).count, 3U);
    EXPECT_EQ(words(), (Texts{"Robin", "the hall was closed at eight", "Robin of the quay",
                              "as in the spring", "Sam", "Sam's brother went home",
                              "the club says so", "their bus"}));
}

TEST_F(WordsAboutPersons, GoWithTheNamesWhenTheyAreDue) {
    EXPECT_EQ(erased_on("2026-12-29", 30), 0U);
    EXPECT_EQ(erased_on("2026-12-30", 30), 13U);
    EXPECT_EQ(words(),
              (Texts{"the hall was closed at eight", "as in the spring", "the club says so"}));
}

TEST_F(NameRetention, NamesGoOnTheDayAfterTheyWereKeptForLongEnough) {
    EXPECT_EQ(erased_on("2026-11-29", 0), 0U);
    EXPECT_EQ(erased_on("2026-12-29", 30), 0U);
    EXPECT_EQ(words().size(), 4U);
    EXPECT_EQ(erased_on("2026-12-30", 30), 3U);
    EXPECT_EQ(words(), (Texts{"the hall was closed at eight"}));
}

TEST_F(NameRetention, AnEventThatIsOpenedAnewEndsWhenItSaysNow) {
    say(event::TakenBack{1});
    EXPECT_EQ(erased_on("2030-01-01", 30), 0U);
    say(event::TournamentOpened{"Harbour Cup", *event::date_of("2027-05-01"),
                                *event::date_of("2027-05-02"), "Europe/London"});
    EXPECT_EQ(value_or_throw(last_day(facts_, tournament_)), *event::date_of("2027-05-02"));
    EXPECT_EQ(erased_on("2027-05-20", 30), 0U);
    EXPECT_EQ(erased_on("2027-07-01", 30), 3U);
}

TEST_F(NameRetention, DueIsAfterAndNotOnTheDay) {
    const event::Date ended = *event::date_of("2026-11-29");
    EXPECT_FALSE(names_are_due(ended, ended, 0));
    EXPECT_TRUE(names_are_due(ended, {ended.days + 1}, 0));
    EXPECT_FALSE(names_are_due({}, {ended.days + 1}, 0));
}

}  // namespace
}  // namespace courthand::server::tournament
