// Faults found late, explanations of a wrong server, and what a correction changes.
#include <gtest/gtest.h>

#include "courthand/history/change.h"
#include "courthand/history/explanation.h"
#include "courthand/history/late_fault.h"
#include "courthand/history/officials_error.h"
#include "courthand/rules/judge.h"
#include "random_play.h"
#include "tests/testkit/jersey.h"

namespace courthand {
namespace {

using testing::no;

struct History : ::testing::Test {
    std::vector<Entry> entries = testing::opening();
    EntryNumber add(const Fact& fact) {
        const auto number = static_cast<EntryNumber>(entries.size() + 1);
        entries.push_back({number, fact});
        return number;
    }
    void rally(Team winner) { add(RallyWon{winner}); }
    void served(Team team, std::uint8_t number, Team winner) {
        add(Serve{team, no(number)});
        rally(winner);
    }
    [[nodiscard]] static const Rules& of(const char* profile) {
        return find_profile(profile)->rules;
    }
};

// FIVB Official Volleyball Rules 2021-2024, rule 7.7.2: points since the fault are cancelled
TEST_F(History, AFaultFoundLateNamesItsFirstRallyAndItsPoints) {
    rally(Team::A);
    add(LiberoReplacement{Team::A, no(21), no(5)});
    rally(Team::A);
    const EntryNumber wrong = add(LiberoReplacement{Team::A, no(11), no(21)});
    rally(Team::A);
    rally(Team::B);
    rally(Team::A);
    const auto found = late_faults(of("international-2021"), entries, entries.back().number);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].verdict.reason, Reason::libero_wrong_returner);
    EXPECT_EQ(found[0].first_entry, wrong);
    EXPECT_EQ(found[0].first_rally, 3);
    ASSERT_EQ(found[0].points.size(), 2U);
    EXPECT_TRUE(found[0].points[0].cancelled);
    EXPECT_TRUE(found[0].points[1].cancelled);
    EXPECT_EQ(found[0].if_moment_shown.score, (Score{2, 2}));
    EXPECT_EQ(found[0].if_moment_unknown.score, (Score{4, 2}));
}

// US national federation domestic rules, 2011-13, officials training answer of 20 April 2012 on
// rule 15.9.2: only the present term of service
TEST_F(History, TheProfileDecidesHowFarBackPointsGo) {
    rally(Team::A);
    add(LiberoReplacement{Team::A, no(21), no(5)});
    rally(Team::A);
    add(LiberoReplacement{Team::A, no(11), no(21)});
    rally(Team::A);
    rally(Team::B);
    rally(Team::A);
    const auto found = late_faults(of("us-domestic-2014"), entries, entries.back().number);
    ASSERT_FALSE(found.empty());
    ASSERT_EQ(found[0].points.size(), 2U);
    EXPECT_FALSE(found[0].points[0].cancelled);
    EXPECT_TRUE(found[0].points[1].cancelled);
    EXPECT_EQ(found[0].if_moment_shown.score, (Score{3, 2}));
}

/// What the table sees when the sheet of A, 1 to 6, was copied the other way round: 6 serves
/// after 1.
TEST_F(History, AMirroredSheetExplainsEveryService) {
    served(Team::A, 1, Team::B);
    rally(Team::A);
    served(Team::A, 6, Team::B);
    rally(Team::A);
    served(Team::A, 5, Team::B);
    rally(Team::A);
    served(Team::A, 4, Team::B);
    const auto explanations = explanations_of_wrong_server(of("international-2025"), entries,
                                                           Team::A, entries.back().number);
    ASSERT_FALSE(explanations.empty());
    EXPECT_EQ(explanations[0].kind, Explanation::Kind::lineup_mirrored);
    EXPECT_EQ(explanations[0].explained, 4);
    EXPECT_EQ(explanations[0].observed, 4);
    EXPECT_TRUE(explanations[0].record_wrong);
}

TEST_F(History, ASheetOnePlaceOnIsFound) {
    served(Team::A, 2, Team::B);
    rally(Team::A);
    served(Team::A, 3, Team::B);
    rally(Team::A);
    served(Team::A, 4, Team::B);
    const auto explanations = explanations_of_wrong_server(of("international-2025"), entries,
                                                           Team::A, entries.back().number);
    ASSERT_FALSE(explanations.empty());
    // A sheet shifted by one and one rotation too many look alike from the first service on.
    bool shifted = false;
    for (const Explanation& c : explanations)
        shifted |= c.kind == Explanation::Kind::lineup_shifted && c.steps == 1 && c.explained == 3;
    EXPECT_TRUE(shifted);
}

TEST_F(History, ASubstitutionThatWasNotEnteredIsFound) {
    served(Team::A, 1, Team::B);
    rally(Team::A);
    served(Team::A, 12, Team::B);
    rally(Team::A);
    served(Team::A, 3, Team::A);
    const auto explanations = explanations_of_wrong_server(of("international-2025"), entries,
                                                           Team::A, entries.back().number);
    ASSERT_FALSE(explanations.empty());
    EXPECT_EQ(explanations[0].kind, Explanation::Kind::substitution_missing);
    EXPECT_EQ(explanations[0].in, no(12));
    EXPECT_EQ(explanations[0].out, no(2));
    EXPECT_EQ(explanations[0].explained, 3);
}

TEST_F(History, AMissedRotationIsTheTeamsFault) {
    served(Team::A, 1, Team::B);
    rally(Team::A);
    served(Team::A, 1, Team::B);
    rally(Team::A);
    served(Team::A, 2, Team::B);
    const auto explanations = explanations_of_wrong_server(of("international-2025"), entries,
                                                           Team::A, entries.back().number);
    ASSERT_FALSE(explanations.empty());
    EXPECT_EQ(explanations[0].kind, Explanation::Kind::rotation_missed);
    EXPECT_FALSE(explanations[0].record_wrong);
    EXPECT_EQ(explanations[0].explained, 3);
}

TEST_F(History, ARightServerNeedsNoExplanation) {
    served(Team::A, 1, Team::B);
    rally(Team::A);
    served(Team::A, 2, Team::B);
    EXPECT_TRUE(explanations_of_wrong_server(of("international-2025"), entries, Team::A,
                                             entries.back().number)
                    .empty());
}

TEST_F(History, ACorrectionListsWhatAppearsAndWhatVanishes) {
    std::vector<Record> before;
    for (const Entry& e : entries) before.emplace_back(e.fact);
    before.emplace_back(Fact{Serve{Team::A, no(2)}});
    const auto wrong = static_cast<EntryNumber>(before.size());
    before.emplace_back(Fact{RallyWon{Team::A}});
    std::vector<Record> after = before;
    after.emplace_back(Amend{wrong, Serve{Team::A, no(1)}});
    after.emplace_back(Insert{wrong + 1, LiberoReplacement{Team::A, no(22), no(3)}});
    const auto changes = verdict_changes(of("international-2021"), before, after);
    ASSERT_EQ(changes.size(), 2U);
    EXPECT_EQ(changes[0].kind, VerdictChange::Kind::vanished);
    EXPECT_EQ(changes[0].before.reason, Reason::wrong_server);
    EXPECT_EQ(changes[1].kind, VerdictChange::Kind::appeared);
    EXPECT_EQ(changes[1].after.reason, Reason::libero_front_row);
}

/// At 1-0 the table names the wrong server of A; rallies and a card follow until it is seen.
struct WrongWord : History {
    std::vector<Record> records;
    EntryNumber word = 0;
    void SetUp() override {
        rally(Team::A);
        word = add(Note{});
        served(Team::A, 4, Team::A);
        add(Misconduct{Team::B, no(35), Sanction::warning});
        served(Team::A, 4, Team::A);
        for (const Entry& e : entries) records.emplace_back(e.fact);
    }
    [[nodiscard]] MatchState state_with(const Rules& rules) const {
        return fold(rules, effective(records).entries);
    }
};

// FIVB Casebook of the 2021-2024 cycle, chapter on positions: back to the score of the wrong word
TEST_F(WrongWord, OfficialsGoBackAndCardsStay) {
    const Rules& rules = of("international-2021");
    auto back = back_to_wrong_word(rules, records, word, Team::A);
    const auto* strikes = std::get_if<std::vector<Strike>>(&back);
    ASSERT_NE(strikes, nullptr);
    EXPECT_EQ(strikes->size(), 4U);
    for (const Strike& strike : *strikes) records.emplace_back(strike);
    const MatchState state = state_with(rules);
    EXPECT_EQ(state.set.score, (Score{1, 0}));
    EXPECT_EQ(expected_server(state.set.team.a), no(1));
    EXPECT_EQ(state.standing_count, 0);
    EXPECT_EQ(state.team.b.warned, 1);
}

// NFHS Case Book, last printed 2018-19, case 5.4.3 situation D: until the opponent serves again
TEST_F(WrongWord, InSchoolItIsTooLateOnceTheOpponentHasServed) {
    const Rules& rules = of("us-high-school-2024");
    EXPECT_TRUE(std::holds_alternative<std::vector<Strike>>(
        back_to_wrong_word(rules, records, word, Team::A)));
    records.emplace_back(Fact{Serve{Team::A, no(4)}});
    records.emplace_back(Fact{RallyWon{Team::B}});
    records.emplace_back(Fact{Serve{}});
    const auto back = back_to_wrong_word(rules, records, word, Team::A);
    const auto* late = std::get_if<TooLate>(&back);
    ASSERT_NE(late, nullptr);
    EXPECT_EQ(late->service, records.size());
    EXPECT_TRUE(std::holds_alternative<std::vector<Strike>>(
        back_to_wrong_word(of("international-2021"), records, word, Team::A)));
}

TEST_F(History, WithoutACorrectionNothingChanges) {
    std::vector<Record> records;
    for (const Entry& e : entries) records.emplace_back(e.fact);
    EXPECT_TRUE(verdict_changes(of("international-2021"), records, records).empty());
}

}  // namespace
}  // namespace courthand
