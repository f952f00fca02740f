// What the signatures in a record stand for, entry by entry.
#include "courthand/match/signatures.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace courthand {
namespace {

using enum Signer;

constexpr Signature by(Signer signer) {
    return {signer};
}

/// The end of a match that is signed by all without whom it is not closed: entries 3 to 5.
std::vector<Record> closed() {
    return {Fact{SetStarted{1}}, Fact{RallyWon{Team::A}}, Fact{by(captain_a)}, Fact{by(captain_b)},
            Fact{by(first_referee)}};
}

SignerSet after(std::vector<Record> records, const std::vector<Record>& more) {
    records.insert(records.end(), more.begin(), more.end());
    return Signatures{records}.under_record();
}

constexpr SignerSet all_three{captain_a, captain_b, first_referee};

TEST(Signatures, CloseAMatchWhenBothCaptainsAndTheFirstRefereeHaveSigned) {
    Signatures signatures;
    signatures.take(Fact{SetStarted{1}});
    signatures.take(Fact{RallyWon{Team::A}});
    EXPECT_EQ(missing_to_close(signatures.under_record()),
              (std::vector{captain_a, captain_b, first_referee}));
    signatures.take(Fact{by(scorer)});
    signatures.take(Fact{by(captain_b)});
    EXPECT_EQ(missing_to_close(signatures.under_record()), (std::vector{captain_a, first_referee}));
    signatures.take(Fact{by(coach_a)});
    EXPECT_EQ(missing_to_close(signatures.under_record()), (std::vector{captain_a, first_referee}))
        << "no rule lets a coach sign for the captain after the match";
    signatures.take(Fact{by(captain_a)});
    signatures.take(Fact{by(first_referee)});
    EXPECT_TRUE(missing_to_close(signatures.under_record()).empty());
}

TEST(Signatures, AnEntryThatSaysWhoSignsNotCountsForNobody) {
    EXPECT_TRUE(after({}, {Fact{Note{Note::Kind::signature}}}).empty());
    EXPECT_EQ(after(closed(), {Fact{Note{Note::Kind::signature}}}), all_three);
}

struct Behind {
    const char* what;
    std::vector<Record> more;
    SignerSet stay;
};

TEST(Signatures, AreOfWhatWasRecordedWhenTheyWereGiven) {
    const std::vector<Behind> table{
        {"a remark", {Fact{Note{Note::Kind::remark}}}, all_three},
        {"who officiates", {Fact{Note{Note::Kind::officials}}}, all_three},
        {"a protest", {Fact{Protest{Team::B}}}, all_three},
        {"another signature", {Fact{by(scorer)}}, {captain_a, captain_b, first_referee, scorer}},
        {"the same once more", {Fact{by(captain_a)}}, all_three},
        {"a rally", {Fact{RallyWon{Team::B}}}, {}},
        {"a ruling", {Fact{Ruling{}}}, {}},
        {"a score", {Fact{ScoreCorrection{}}}, {}},
        {"one signature struck", {Strike{4}}, {captain_a, first_referee}},
        {"given again", {Strike{4}, Fact{by(captain_b)}}, all_three},
        {"a rally struck", {Strike{2}}, {}},
        {"a rally amended", {Amend{2, RallyWon{Team::B}}}, {}},
        {"a rally inserted", {Insert{1, RallyWon{Team::B}}}, {}},
        {"a correction of nothing", {Strike{99}}, {}},
        {"a correction taken back", {Strike{2}, Strike{6}}, {}},
        {"signed anew", {Strike{2}, Fact{by(captain_b)}}, {captain_b}},
        {"a signature amended", {Amend{4, by(captain_a)}}, {}},
    };
    for (const Behind& behind : table)
        EXPECT_EQ(after(closed(), behind.more), behind.stay) << behind.what;
}

TEST(Signatures, OfAListStandUntilThatListChanges) {
    const std::vector<Record> lists{Fact{Roster{.team = Team::A}}, Fact{Roster{.team = Team::B}},
                                    Fact{by(captain_a)}, Fact{by(coach_a)}, Fact{by(coach_b)}};
    const auto of = [&](std::vector<Record> more) {
        std::vector<Record> records = lists;
        records.insert(records.end(), more.begin(), more.end());
        return Signatures{records}.under_lists();
    };
    EXPECT_EQ(of({}), (SignerSet{captain_a, coach_a, coach_b}));
    EXPECT_EQ(of({Fact{Toss{}}}), (SignerSet{captain_a, coach_a, coach_b})) << "no list changed";
    EXPECT_EQ(of({Fact{Roster{.team = Team::A}}}), (SignerSet{coach_b}));
    EXPECT_EQ(of({Amend{2, Roster{.team = Team::B}}}), (SignerSet{captain_a, coach_a}));
    EXPECT_EQ(of({Strike{2}}), (SignerSet{captain_a, coach_a}));
    EXPECT_EQ(of({Amend{2, Roster{.team = Team::B}}, Strike{6}}), (SignerSet{captain_a, coach_a}));
    EXPECT_EQ(of({Strike{3}}), (SignerSet{coach_a, coach_b})) << "the signature itself";
    EXPECT_EQ(of({Fact{SetStarted{1}}, Fact{by(captain_b)}}),
              (SignerSet{captain_a, coach_a, coach_b}))
        << "lists are signed before the match";
    EXPECT_EQ(of({Fact{SetStarted{1}}, Strike{5}}), (SignerSet{captain_a, coach_a}));
}

/// Lists may be signed as long as no set stands as begun, however that came about.
TEST(Signatures, OfAListAreGivenAgainAfterASetThatWasBegunByMistake) {
    const Fact begun{SetStarted{1}};
    const Fact toss{Toss{}};
    const std::vector<Behind> table{
        {"a set begun", {begun}, {}},
        {"and undone", {begun, Strike{3}}, {captain_a, coach_b}},
        {"undone and done again", {begun, Strike{3}, Strike{4}}, {}},
        {"undone in the end", {begun, Strike{3}, Strike{4}, Strike{5}}, {captain_a, coach_b}},
        {"begun twice, undone once", {begun, begun, Strike{3}}, {}},
        {"begun twice, both undone", {begun, begun, Strike{4}, Strike{3}}, {captain_a, coach_b}},
        {"something else undone", {begun, toss, Strike{4}}, {}},
        {"inserted", {Insert{2, SetStarted{1}}}, {}},
        {"inserted and undone", {Insert{2, SetStarted{1}}, Strike{3}}, {captain_a, coach_b}},
        {"amended into something else", {begun, Amend{3, toss}}, {captain_a, coach_b}},
        {"and that undone", {begun, Amend{3, toss}, Strike{4}}, {}},
        {"amended into it", {toss, Amend{3, SetStarted{1}}}, {}},
        {"that amended away", {toss, Amend{3, begun}, Amend{3, toss}}, {captain_a, coach_b}},
        {"and back", {toss, Amend{3, begun}, Amend{3, toss}, Strike{5}}, {}},
        {"amended into it and undone", {toss, Amend{3, begun}, Strike{3}}, {captain_a, coach_b}},
        {"amended and undone", {begun, Amend{3, begun}, Strike{3}}, {captain_a, coach_b}},
    };
    for (const Behind& behind : table) {
        std::vector<Record> records{Fact{Roster{.team = Team::A}}, Fact{Roster{.team = Team::B}}};
        records.insert(records.end(), behind.more.begin(), behind.more.end());
        for (const Signer signer : {captain_a, coach_b}) records.push_back(Fact{by(signer)});
        EXPECT_EQ(Signatures{records}.under_lists(), behind.stay) << behind.what;
    }
}

/// Every record of four facts and corrections about the start of a set: lists can be signed exactly
/// when no set start is left of it.
TEST(Signatures, OfAListGoByTheSetStartsThatCount) {
    const std::vector<Fact> facts{Toss{}, SetStarted{1}};
    std::vector<Record> choices;
    for (const Fact& fact : facts) {
        choices.emplace_back(fact);
        choices.emplace_back(Insert{1, fact});
        for (const EntryNumber target : {1U, 2U, 3U}) choices.emplace_back(Amend{target, fact});
    }
    for (const EntryNumber target : {1U, 2U, 3U, 4U}) choices.emplace_back(Strike{target});
    constexpr std::size_t length = 4;
    std::size_t all = 1;
    for (std::size_t i = 0; i < length; ++i) all *= choices.size();
    for (std::size_t which = 0; which < all; ++which) {
        std::vector<Record> records;
        for (std::size_t i = 0, rest = which; i < length; ++i, rest /= choices.size())
            records.push_back(choices[rest % choices.size()]);
        const Effective left = effective(records);
        const bool begun = std::any_of(
            left.entries.begin(), left.entries.end(),
            [](const Entry& entry) { return std::holds_alternative<SetStarted>(entry.fact); });
        records.push_back(Fact{by(captain_a)});
        ASSERT_EQ(Signatures{records}.under_lists().has(captain_a), !begun) << which;
    }
}

TEST(Signatures, StandUnderAResultOnlyOnceTheMatchIsOver) {
    MatchState state;
    const Signatures signatures{closed()};
    EXPECT_TRUE(signed_result(state, signatures).empty());
    state.set.stage = Stage::match_over;
    EXPECT_EQ(signed_result(state, signatures), all_three);
}

TEST(Signatures, ChangeOverWithTheTeams) {
    EXPECT_EQ(turned({captain_a, coach_b, scorer}), (SignerSet{captain_b, coach_a, scorer}));
    EXPECT_EQ(turned({captain_a, captain_b}), (SignerSet{captain_a, captain_b}));
}

}  // namespace
}  // namespace courthand
