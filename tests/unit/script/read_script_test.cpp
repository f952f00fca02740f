#include <gtest/gtest.h>

#include "script_of.h"

namespace courthand {
namespace {

constexpr std::string_view opening =
    "profile international-2021\n"
    "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
    "team B \"Mill Lane\" players 31-38 41 captain 33\n";

/// The records of a script made of the usual opening and `rest`, without the opening ones.
std::vector<Record> records_of(std::string_view rest) {
    std::vector<Record> all = records(script_of(std::string{opening} + std::string{rest}));
    constexpr std::ptrdiff_t opening_records = 3;
    if (all.size() >= 3) all.erase(all.begin(), all.begin() + opening_records);
    return all;
}

/// The only fact of a line.
Fact fact_of(std::string_view line) {
    const std::vector<Record> all = records_of(line);
    EXPECT_EQ(all.size(), 1U) << line;
    return all.empty() ? Fact{} : std::get<Fact>(all.front());
}

Expectation expectation_of(std::string_view line) {
    const Script script = script_of(std::string{opening} + std::string{line});
    if (script.lines.empty()) return {};
    const auto* const e = std::get_if<Expectation>(&script.lines.back().content);
    EXPECT_NE(e, nullptr) << line;
    return e == nullptr ? Expectation{} : *e;
}

Jersey j(std::uint8_t n) {
    return Jersey{n};
}

TEST(ReadScript, TakesSourceProfileAndNames) {
    const Script script =
        script_of("# Rule 6.1, memory\n# a second comment\n" + std::string{opening});
    EXPECT_EQ(script.source, "Rule 6.1, memory");
    EXPECT_EQ(script.profile, "international-2021");
    EXPECT_EQ(script.names.a, "Harbour Lights");
    EXPECT_EQ(script.names.b, "Mill Lane");
}

TEST(ReadScript, OpensWithTheFormatOfTheProfile) {
    const std::vector<Record> all = records(script_of(opening));
    ASSERT_EQ(all.size(), 3U);
    const MatchFormat standard = find_profile("international-2021")->rules.format;
    EXPECT_EQ(std::get<Fact>(all[0]), Fact{MatchOpened{standard}});
}

TEST(ReadScript, ReadsEveryFieldOfAFormat) {
    const std::vector<Record> all =
        records(script_of("profile us-domestic-2014\nformat best-of 3 points 21 deciding 11 lead 1 "
                          "cap 27 deciding-cap 17 start 4 switch 6\n"));
    ASSERT_EQ(all.size(), 1U);
    const MatchFormat expected{.sets = 3,
                               .all_sets_played = 0,
                               .points = 21,
                               .deciding_points = 11,
                               .lead = 1,
                               .cap = 27,
                               .deciding_cap = 17,
                               .start_score = 4,
                               .switch_at = 6};
    EXPECT_EQ(std::get<Fact>(all[0]), Fact{MatchOpened{expected}});
}

TEST(ReadScript, ReadsAFixedNumberOfSets) {
    const std::vector<Record> all =
        records(script_of("profile us-domestic-2014\nformat sets 2 cap 27\n"));
    ASSERT_EQ(all.size(), 1U);
    const auto& format = std::get<MatchOpened>(std::get<Fact>(all[0])).format;
    EXPECT_EQ(format.sets, 2);
    EXPECT_EQ(format.all_sets_played, 1);
    EXPECT_EQ(format.cap, 27);
}

TEST(ReadScript, ReadsRunsOfPlayers) {
    const std::vector<Record> all = records(script_of(opening));
    const auto& roster = std::get<Roster>(std::get<Fact>(all[1]));
    EXPECT_EQ(roster.count, 12);
    EXPECT_EQ(roster.players[5], j(6));
    EXPECT_EQ(roster.players[6], j(11));
    EXPECT_EQ(roster.players[11], j(22));
    EXPECT_EQ(roster.captain, j(3));
}

TEST(ReadScript, ReadsLineUpsWithBothBoxes) {
    LineUp sheet{.team = Team::A, .order = {j(1), j(2), j(3), j(4), j(5), j(6)}};
    EXPECT_EQ(fact_of("lineup A 1 2 3 4 5 6"), Fact{sheet});
    sheet.liberos[0] = {LiberoBox::Mark::number, j(21)};
    EXPECT_EQ(fact_of("lineup A 1 2 3 4 5 6 liberos 21"), Fact{sheet});
    EXPECT_EQ(fact_of("lineup A 1 2 3 4 5 6 liberos 21 ?"), Fact{sheet});
    sheet.liberos[1] = {LiberoBox::Mark::none, {}};
    sheet.captain = j(3);
    EXPECT_EQ(fact_of("lineup A 1 2 3 4 5 6 liberos 21 none captain 3"), Fact{sheet});
    sheet.order[5] = Jersey::none();
    EXPECT_EQ(fact_of("lineup A 1 2 3 4 5 none liberos 21 none captain 3"), Fact{sheet});
}

TEST(ReadScript, ReadsBoxesSettledLater) {
    EXPECT_EQ(fact_of("box B 2 none"),
              (Fact{LiberoBoxSettled{Team::B, 1, {LiberoBox::Mark::none, {}}}}));
    EXPECT_EQ(fact_of("box A 1 21"),
              (Fact{LiberoBoxSettled{Team::A, 0, {LiberoBox::Mark::number, j(21)}}}));
}

TEST(ReadScript, ReadsPlay) {
    EXPECT_EQ(fact_of("toss serve B left A"), (Fact{Toss{Team::B, Team::A}}));
    EXPECT_EQ(fact_of("set 3"), Fact{SetStarted{3}});
    EXPECT_EQ(fact_of("checked B"), Fact{LineUpChecked{Team::B}});
    EXPECT_EQ(fact_of("whistle"), Fact{Whistle{}});
    EXPECT_EQ(fact_of("serve"), Fact{Serve{}});
    EXPECT_EQ(fact_of("serve B 34"), (Fact{Serve{Team::B, j(34)}}));
    EXPECT_EQ(fact_of("rally B"), Fact{RallyWon{Team::B}});
    EXPECT_EQ(fact_of("replay"), Fact{Replay{}});
    EXPECT_EQ(fact_of("libero A 21 for 5"), (Fact{LiberoReplacement{Team::A, j(21), j(5)}}));
    EXPECT_EQ(fact_of("switch"), Fact{CourtSwitch{}});
    EXPECT_EQ(fact_of("interval"), Fact{Interval{}});
    EXPECT_EQ(fact_of("positional-fault A"), (Fact{PositionalFault{Team::A, {}, {}}}));
    EXPECT_EQ(fact_of("positional-fault A 5 6"), (Fact{PositionalFault{Team::A, j(5), j(6)}}));
    EXPECT_EQ(fact_of("interrupted"), Fact{Interrupted{}});
    EXPECT_EQ(fact_of("resumed other-court"), Fact{Resumed{Resumed::How::other_court}});
    EXPECT_EQ(
        fact_of("ruling accept wrong-server A moment-unknown"),
        (Fact{Ruling{Ruling::Decision::accept_moment_unknown, Reason::wrong_server, Team::A}}));
    EXPECT_EQ(fact_of("timeout B"), Fact{TimeOut{Team::B}});
}

TEST(ReadScript, ReadsSubstitutions) {
    Substitution request{.team = Team::A, .count = 2};
    request.pairs[0] = {j(11), j(1)};
    request.pairs[1] = {j(13), j(5)};
    EXPECT_EQ(fact_of("sub A 11 for 1 13 for 5"), Fact{request});
    EXPECT_EQ(fact_of("exceptional B 37 for 31 expulsion"),
              (Fact{ExceptionalSubstitution{Team::B, j(37), j(31), Cause::expulsion}}));
}

TEST(ReadScript, ReadsPeople) {
    EXPECT_EQ(fact_of("captain A 4"), (Fact{GameCaptain{Team::A, j(4)}}));
    EXPECT_EQ(fact_of("unable A 21"), (Fact{LiberoUnable{Team::A, j(21), Cause::declared}}));
    EXPECT_EQ(fact_of("unable A 21 injury"), (Fact{LiberoUnable{Team::A, j(21), Cause::injury}}));
    EXPECT_EQ(fact_of("redesignate A 11 for 21"), (Fact{Redesignation{Team::A, j(21), j(11)}}));
    EXPECT_EQ(fact_of("misconduct A 4 penalty"),
              (Fact{Misconduct{Team::A, j(4), Sanction::penalty}}));
    EXPECT_EQ(fact_of("misconduct A bench warning"),
              (Fact{Misconduct{Team::A, Jersey::none(), Sanction::warning}}));
    EXPECT_EQ(fact_of("delay B penalty"), (Fact{Delay{Team::B, Sanction::penalty}}));
    EXPECT_EQ(fact_of("improper B"), Fact{ImproperRequest{Team::B}});
    EXPECT_EQ(fact_of("injury A 0"), (Fact{Injury{Team::A, j(0)}}));
    EXPECT_EQ(fact_of("recovery A 99"), (Fact{Recovery{Team::A, j(99)}}));
}

TEST(ReadScript, ReadsWhatOfficialsDecide) {
    EXPECT_EQ(fact_of("ruling overrule wrong-server B"),
              (Fact{Ruling{Ruling::Decision::overrule, Reason::wrong_server, Team::B}}));
    EXPECT_EQ(fact_of("incomplete A match"), (Fact{Incomplete{Team::A, Incomplete::Scope::match}}));
    EXPECT_EQ(fact_of("default B"), Fact{Default{Team::B}});
    EXPECT_EQ(fact_of("score-fix 8 6"), (Fact{ScoreCorrection{{8, 6}}}));
}

TEST(ReadScript, KeepsTextBesideTheFact) {
    const Script script =
        script_of(std::string{opening} + "remark \"a \\\"wet\\\" floor # here\"  # comment\n");
    EXPECT_EQ(script.lines.back().text, "a \"wet\" floor # here");
    EXPECT_EQ(std::get<Record>(script.lines.back().content), Record{Fact{Note{}}});
}

TEST(ReadScript, WritesPlayOutAsWholeRallies) {
    const std::vector<Record> all = records_of("play A2 B");
    ASSERT_EQ(all.size(), 6U);
    EXPECT_EQ(all[0], Record{Fact{Serve{}}});
    EXPECT_EQ(all[3], Record{Fact{RallyWon{Team::A}}});
    EXPECT_EQ(all[5], Record{Fact{RallyWon{Team::B}}});
}

TEST(ReadScript, NumbersEntriesFromTheFormatOn) {
    const std::vector<Record> all = records_of(
        "toss serve A left A\nstrike last\ninsert @2 remark \"late\"\n"
        "amend @4 toss serve B left A\nstrike @1\n");
    ASSERT_EQ(all.size(), 5U);
    EXPECT_EQ(all[1], Record{Strike{4}});
    EXPECT_EQ(all[2], (Record{Insert{2, Note{}}}));
    EXPECT_EQ(all[3], (Record{Amend{4, Toss{Team::B, Team::A}}}));
    EXPECT_EQ(all[4], Record{Strike{1}});
}

TEST(ReadScript, ReadsExpectedVerdicts) {
    const Expectation e =
        expectation_of("expect open wrong-server A remedy point-and-service B cancel 2");
    EXPECT_EQ(e.kind, Expectation::Kind::open);
    EXPECT_EQ(e.reason, Reason::wrong_server);
    EXPECT_EQ(e.team, Team::A);
    EXPECT_TRUE(e.has_remedy && e.remedy_has_team && e.has_cancel);
    EXPECT_EQ(e.action, Action::point_and_service);
    EXPECT_EQ(e.remedy_team, Team::B);
    EXPECT_EQ(e.cancel, 2);
    EXPECT_FALSE(expectation_of("expect armed wrong-server A").has_remedy);
    EXPECT_EQ(expectation_of("expect raised timeout-limit B remedy refuse").kind,
              Expectation::Kind::raised);
    EXPECT_EQ(expectation_of("expect cleared libero-front-row A").kind, Expectation::Kind::cleared);
}

TEST(ReadScript, ReadsExpectedState) {
    EXPECT_EQ(expectation_of("expect score 3 4 set 2").set, 2);
    EXPECT_EQ(expectation_of("expect score 3 4").score, (Score{3, 4}));
    EXPECT_EQ(expectation_of("expect sets A 2 B 1").score, (Score{2, 1}));
    EXPECT_EQ(expectation_of("expect server B 34").numbers[0], j(34));
    EXPECT_EQ(expectation_of("expect court A 2 3 4 5 6 none").numbers[5], Jersey::none());
    EXPECT_EQ(expectation_of("expect libero A off").kind, Expectation::Kind::libero_off);
    const Expectation on = expectation_of("expect libero A on 21 for 5");
    EXPECT_EQ(on.kind, Expectation::Kind::libero_on);
    EXPECT_EQ(on.numbers[1], j(5));
    EXPECT_EQ(expectation_of("expect captain A none").numbers[0], Jersey::none());
    EXPECT_EQ(expectation_of("expect liberos A 21").count, 1);
    EXPECT_EQ(expectation_of("expect liberos A").count, 0);
    EXPECT_EQ(expectation_of("expect subs B 4").count, 4);
}

TEST(ReadScript, ToleratesWindowsLineEndsAndAByteOrderMark) {
    const Script script =
        script_of("\xEF\xBB\xBF# source\r\nprofile international-2021\r\n\r\nwhistle\r\n");
    EXPECT_EQ(script.source, "source");
    EXPECT_EQ(script.lines.size(), 2U);
}

TEST(ReadScript, RemembersTheLineOfEachEntry) {
    const Script script = script_of("profile international-2021\n\nplay A2\n  whistle\n");
    ASSERT_EQ(script.lines.size(), 6U);
    EXPECT_EQ(script.lines[0].line, 1U);
    EXPECT_EQ(script.lines[4].line, 3U);
    EXPECT_EQ(script.lines[5].line, 4U);
}

}  // namespace
}  // namespace courthand
