// What a record calls for an alert for. Scripts say what happened; the rules core judges.
#include <gtest/gtest.h>

#include <set>

#include "match_kit.h"

namespace courthand::server {
namespace {

using alerts::Outcome;
using testing::conditions;
using testing::find_code;
using testing::ready_to_serve;

constexpr const char* fault = "libero-no-completed-rally";

TEST(MatchConditions, LegalPlayCallsForNothing) {
    EXPECT_TRUE(conditions(ready_to_serve + "libero A 21 for 5\nplay A4 B5 A1\n").empty());
}

TEST(MatchConditions, AnArmedFaultIsTheTablesAlone) {
    const auto armed = conditions(ready_to_serve +
                                  "libero A 21 for 5\nserve\nrally A\nlibero A 5 for 21\n"
                                  "libero A 22 for 6\n");
    EXPECT_EQ(find_code(armed, fault), nullptr);
}

TEST(MatchConditions, AnOpenFaultCarriesItsEvidence) {
    const auto open = conditions(ready_to_serve + testing::illegal_replacement);
    const auto* condition = find_code(open, fault);
    ASSERT_NE(condition, nullptr);
    EXPECT_EQ(condition->severity, Severity::critical);
    EXPECT_EQ(condition->kind, alerts::Kind::illegal_replacement);
    EXPECT_EQ(condition->team, Team::A);
    EXPECT_EQ(condition->team_name, "Harbour Lights");
    EXPECT_EQ(condition->score, (Score{1, 0}));
    EXPECT_NE(condition->text.find("22 for 6"), std::string::npos) << condition->text;
    EXPECT_NE(condition->reference.find("FIVB Official Volleyball Rules"), std::string::npos);
    ASSERT_EQ(condition->evidence.last_replacements.size(), 3U);
    EXPECT_EQ(condition->evidence.last_replacements.back().in, Jersey{22});
    ASSERT_TRUE(condition->evidence.after);
    EXPECT_NE(
        std::find(condition->evidence.after->begin(), condition->evidence.after->end(), Jersey{22}),
        condition->evidence.after->end());
    ASSERT_TRUE(condition->evidence.before);
    EXPECT_EQ(std::count(condition->evidence.before->begin(), condition->evidence.before->end(),
                         Jersey{22}),
              0);
    EXPECT_EQ(condition->evidence.raw.size(), condition->evidence.entries.size());
    EXPECT_EQ(condition->evidence.remedy,
              "point and service to Mill Lane; the places before the fault are restored");
    EXPECT_EQ(condition->outcome, Outcome::stands);
}

/// Set 2 has replacements of its own; those beside the fault are of set 1, up to its moment.
TEST(MatchConditions, TheEvidenceOfAnOldFaultHasTheReplacementsOfItsOwnSet) {
    const std::string set_two =
        "play A25\nset 2\n"
        "lineup A 1 2 3 4 5 6 liberos 21 22\n"
        "lineup B 31 32 33 34 35 36 liberos 41 none\n"
        "checked A\nchecked B\n"
        "libero A 22 for 6\nserve\nrally A\nlibero A 6 for 22\n";
    const auto then = conditions(ready_to_serve + testing::illegal_replacement);
    const auto* before = find_code(then, fault);
    ASSERT_NE(before, nullptr);
    ASSERT_EQ(before->evidence.last_replacements.size(), 3U);
    for (const std::string& later : {std::string{"rally B\n"}, "rally B\n" + set_two}) {
        const auto now = conditions(ready_to_serve + testing::illegal_replacement + later);
        const auto* condition = find_code(now, fault);
        ASSERT_NE(condition, nullptr);
        EXPECT_EQ(condition->set, 1U);
        EXPECT_EQ(condition->evidence.last_replacements, before->evidence.last_replacements);
    }
}

TEST(MatchConditions, AFaultNamesTheValuesItRestsOnThatWereNotSeenInPrint) {
    std::string college = ready_to_serve;
    college.replace(college.find("international-2025"), 18, "us-college-women-2024");
    const auto there = conditions(college + testing::illegal_replacement);
    const auto* condition = find_code(there, fault);
    ASSERT_NE(condition, nullptr);
    EXPECT_NE(condition->reference.find("NCAA"), std::string::npos) << condition->reference;
    EXPECT_NE(condition->reference.find("rests on values not seen in print: fault.cancels = "
                                        "present-term-of-service (memory)"),
              std::string::npos)
        << condition->reference;
    const auto here = conditions(ready_to_serve + testing::illegal_replacement);
    EXPECT_EQ(find_code(here, fault)->reference.find("not seen in print"), std::string::npos);
}

TEST(MatchConditions, TheSameRecordGivesTheSameIds) {
    const auto once = conditions(ready_to_serve + testing::illegal_replacement);
    const auto later = conditions(ready_to_serve + testing::illegal_replacement + "rally B\n");
    ASSERT_NE(find_code(once, fault), nullptr);
    ASSERT_NE(find_code(later, fault), nullptr);
    EXPECT_EQ(find_code(once, fault)->id, find_code(later, fault)->id);
}

TEST(MatchConditions, ARulingInTheRecordIsItsOutcome) {
    const auto accepted = conditions(ready_to_serve + testing::illegal_replacement +
                                     "ruling accept libero-no-completed-rally A\n");
    ASSERT_NE(find_code(accepted, fault), nullptr);
    EXPECT_EQ(find_code(accepted, fault)->outcome, Outcome::accepted);
    const auto overruled = conditions(ready_to_serve + testing::illegal_replacement +
                                      "ruling overrule libero-no-completed-rally A\n");
    ASSERT_NE(find_code(overruled, fault), nullptr);
    EXPECT_EQ(find_code(overruled, fault)->outcome, Outcome::overruled);
}

TEST(MatchConditions, AStruckEntryTakesItsFaultAlong) {
    // The wrong replacement was entry 14: @14 counts every fact of the script.
    const auto match = testing::match_of(ready_to_serve + testing::illegal_replacement);
    EntryNumber wrong = 0;
    for (const Entry& entry : effective(match.record->records).entries)
        if (const auto* made = std::get_if<LiberoReplacement>(&entry.fact))
            if (made->in == Jersey{22}) wrong = entry.number;
    ASSERT_NE(wrong, 0U);
    const auto corrected = conditions(ready_to_serve + testing::illegal_replacement + "strike @" +
                                      std::to_string(wrong) + "\n");
    EXPECT_EQ(find_code(corrected, fault), nullptr);
}

TEST(MatchConditions, AnotherLiberoInALaterSetDiffersFromTheDesignation) {
    const auto later =
        conditions(ready_to_serve + "play A25\nset 2\nlineup A 1 2 3 4 5 6 liberos 21 14\n");
    const auto* condition = find_code(later, "designation-changed");
    ASSERT_NE(condition, nullptr);
    EXPECT_EQ(condition->kind, alerts::Kind::libero_differs);
    EXPECT_EQ(condition->severity, Severity::high);
    EXPECT_EQ(condition->set, 2);
}

TEST(MatchConditions, AMissingLineUpIsToldForTheTeamThatOwesIt) {
    const auto between =
        conditions(ready_to_serve + "play A25\nset 2\nlineup A 1 2 3 4 5 6 liberos 21 22\n");
    const auto* condition = find_code(between, "lineup-missing");
    ASSERT_NE(condition, nullptr);
    EXPECT_EQ(condition->team, Team::B);
    EXPECT_EQ(condition->set, 2);
    EXPECT_EQ(std::count_if(between.begin(), between.end(),
                            [](const auto& one) { return one.code == "lineup-missing"; }),
              1);
}

// Half a minute before the end of an interval of three in one code; a minute where none is fixed.
TEST(MatchConditions, AMissingLineUpIsDueWhenTheProfileSays) {
    const auto due = [](std::string_view profile) {
        std::string script = ready_to_serve + "play A25\nset 2\n";
        script.replace(script.find("international-2025"), std::size("international-2025") - 1,
                       profile);
        return find_code(conditions(script), "lineup-missing")->raise_after;
    };
    EXPECT_EQ(due("international-2025"), std::chrono::seconds{120});
    EXPECT_EQ(due("us-college-women-2024"), std::chrono::seconds{150});
    EXPECT_EQ(due("us-high-school-2026"), std::chrono::seconds{120});
}

// Nobody has an interval before set 1: its sheets are due so long before the end of the warm-up.
TEST(MatchConditions, AMissingLineUpOfTheFirstSetIsDueByTheWarmUp) {
    const auto due = [](std::string_view profile) {
        std::string script = ready_to_serve.substr(0, ready_to_serve.find("lineup A"));
        script.replace(script.find("international-2025"), std::size("international-2025") - 1,
                       profile);
        return find_code(conditions(script), "lineup-missing")->raise_after;
    };
    EXPECT_EQ(due("international-2025"), std::chrono::seconds{540});
    EXPECT_EQ(due("us-college-women-2024"), std::chrono::seconds{420});
    EXPECT_EQ(due("us-high-school-2026"), std::chrono::seconds{480});
}

TEST(MatchConditions, AMissingLineUpPressesNobodyWhileTheMatchIsInterrupted) {
    const auto halted = conditions(ready_to_serve + "play A25\nset 2\ninterrupted\n");
    EXPECT_EQ(find_code(halted, "lineup-missing"), nullptr);
}

// The condition waits for the interval; the verdict once it was served without it does not.
TEST(MatchConditions, PlayWithoutALineUpWaitsForNothing) {
    const auto played = conditions(
        ready_to_serve + "play A25\nset 2\nlineup A 1 2 3 4 5 6 liberos 21 22\n" + "serve\n");
    const auto* condition = find_code(played, "lineup-missing");
    ASSERT_NE(condition, nullptr);
    EXPECT_TRUE(condition->pressing);
    EXPECT_FALSE(condition->raise_after);
}

TEST(MatchConditions, ACaptainOffCourtWithNobodyNamed) {
    const auto off = conditions(ready_to_serve + "sub A 12 for 3\nserve\n");
    const auto* condition = find_code(off, "captain-missing");
    ASSERT_NE(condition, nullptr);
    EXPECT_EQ(condition->severity, Severity::high);
    const auto named = conditions(ready_to_serve + "sub A 12 for 3\nserve\nrally A\ncaptain A 2\n");
    EXPECT_EQ(find_code(named, "captain-missing"), nullptr);
}

TEST(MatchConditions, ABlankLiberoBoxOnceTheSetStarts) {
    const std::string blank =
        "# common practice, no source: a blank second box\n"
        "profile us-domestic-2014\n"
        "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
        "team B \"Mill Lane\" players 31-38 41 captain 33\n"
        "toss serve A left A\nset 1\n"
        "lineup A 1 2 3 4 5 6 liberos 21\n"
        "lineup B 31 32 33 34 35 36 liberos 41 none\n"
        "checked A\nchecked B\n";
    EXPECT_EQ(find_code(conditions(blank), "libero-box-unconfirmed"), nullptr);
    EXPECT_NE(find_code(conditions(blank + "whistle\nserve\n"), "libero-box-unconfirmed"), nullptr);
}

TEST(MatchConditions, ARedesignationIsToldWithWhoAndWhen) {
    const auto made = conditions(ready_to_serve +
                                 "play A3\nunable A 21 injury\nunable A 22 injury\n"
                                 "redesignate A 14 for 21\n");
    const auto* condition = find_code(made, "redesignation-made");
    ASSERT_NE(condition, nullptr);
    EXPECT_EQ(condition->severity, Severity::medium);
    EXPECT_EQ(condition->score, (Score{3, 0}));
    EXPECT_NE(condition->text.find("14"), std::string::npos);
    EXPECT_NE(condition->text.find("21"), std::string::npos);
}

TEST(MatchConditions, EntriesOnABranchWaitForAPerson) {
    LiveMatch match = testing::match_of(ready_to_serve);
    match.branches = {1};
    const auto all = alerts::conditions_of(match, testing::names);
    ASSERT_NE(find_code(all, "record-forked"), nullptr);
    EXPECT_EQ(find_code(all, "record-forked")->severity, Severity::critical);
}

TEST(MatchConditions, ASecondForkIsAnAlertOfItsOwn) {
    LiveMatch match = testing::match_of(ready_to_serve);
    match.branches = {1, 3};
    std::set<std::string> ids;
    for (const auto& condition : alerts::conditions_of(match, testing::names))
        if (condition.code == "record-forked") ids.insert(condition.id);
    ASSERT_EQ(ids.size(), 2U);
    EXPECT_TRUE(ids.begin()->ends_with("/record-forked/branch1"));
    EXPECT_TRUE(ids.rbegin()->ends_with("/record-forked/branch3"));
}

TEST(MatchConditions, AWriterWhoseGrantWasLostIsToldOnceForEachEpoch) {
    LiveMatch match = testing::match_of(ready_to_serve);
    EXPECT_FALSE(alerts::recovery_condition(match));
    match.head.epoch = 3;
    match.head.recovered = true;
    const auto all = alerts::conditions_of(match, testing::names);
    const auto* condition = find_code(all, "writer-recovered");
    ASSERT_NE(condition, nullptr);
    EXPECT_EQ(condition->severity, Severity::high);
    EXPECT_TRUE(condition->id.ends_with("/writer-recovered/epoch3"));
    match.signed_by = {Signer::captain_a, Signer::captain_b, Signer::first_referee};
    EXPECT_FALSE(alerts::recovery_condition(match)) << "nothing is left to see";
}

TEST(MatchConditions, AWishToTakeOverNamesTheDeviceAndHowLongTheWriterWasNotHeard) {
    LiveMatch match = testing::match_of(ready_to_serve);
    EXPECT_FALSE(alerts::take_over_condition(match));
    match.asked = TakeOverAsked{DeviceId{testing::match_id(9).value}, {}};
    const auto asked = alerts::take_over_condition(match);
    ASSERT_TRUE(asked);
    EXPECT_EQ(asked->code, "take-over-asked");
    EXPECT_EQ(asked->severity, Severity::high);
    EXPECT_EQ(asked->asking, match.asked->device);
    EXPECT_LE(asked->id.size(), 128U);
    EXPECT_EQ(alerts::take_over_words(match.plan, std::chrono::seconds{250}),
              "Court 1, match 1: another device asks to go on; the device that writes has not been "
              "heard for 4 min");
    EXPECT_NE(alerts::take_over_words(match.plan, std::nullopt).find("since the server started"),
              std::string::npos);
    match.plan.name = "E1";
    EXPECT_EQ(
        alerts::take_over_words(match.plan, std::chrono::seconds{250}),
        "Court 1, E1: another device asks to go on; the device that writes has not been heard "
        "for 4 min");
    EXPECT_EQ(alerts::take_over_condition(match)->match_name, "E1");
    match.plan.name.clear();
    match.plan.number = 0;
    EXPECT_EQ(alerts::take_over_words(match.plan, std::nullopt)
                  .find("Court 1, match opened at the table:"),
              0U);
}

TEST(MatchConditions, RefusedEntriesAreToldWithPlaceCauseAndCure) {
    MatchPlan plan;
    plan.court = 4;
    plan.number = 12;
    Refusals::Refusal refusal;
    refusal.match = testing::match_id(1);
    refusal.device = DeviceId{testing::match_id(2).value};
    refusal.court = 4;
    refusal.number = 17;
    std::set<std::string> texts;
    for (const Cause cause : {Cause::unreadable, Cause::unknown_match, Cause::not_its_device,
                              Cause::other_court, Cause::id_used, Cause::full}) {
        refusal.cause = cause;
        const auto condition = alerts::refusal_condition(refusal, plan);
        EXPECT_EQ(condition.court, 4U);
        EXPECT_EQ(condition.severity, Severity::medium);
        EXPECT_EQ(condition.text.find("Court 4, match 12"), 0U) << condition.text;
        EXPECT_NE(condition.text.find("entry 17"), std::string::npos) << condition.text;
        texts.insert(condition.text);
    }
    EXPECT_EQ(texts.size(), 6U) << "each cause has words of its own";
}

TEST(MatchConditions, AnUnknownProfileIsNotJudged) {
    LiveMatch match = testing::match_of(ready_to_serve + testing::illegal_replacement);
    match.profile = nullptr;
    EXPECT_TRUE(alerts::conditions_of(match, testing::names).empty());
}

}  // namespace
}  // namespace courthand::server
