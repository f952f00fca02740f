// Papers of an event: the same state gives the same bytes, every team and place can be read, and
// each sheet is A4.
#include "papers_kit.h"

#include <algorithm>
#include <chrono>
#include <functional>
#include <sstream>
#include <thread>

#include "courthand/event/duty.h"
#include "courthand/event/summary.h"
#include "server/papers/bracket_trees.h"
#include "server/papers/match_words.h"

namespace courthand::server::papers {
namespace {

bool holds(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

std::size_t sheets_of(const std::string& pdf, const std::string& name) {
    const std::string facts = kit::facts_of(pdf, name);
    return std::stoul(facts.substr(facts.find("Pages:") + 6));
}

TEST(Papers, TheSameStateGivesTheSameBytes) {
    const auto state = kit::case_of("harbour-cup-24-teams.event");
    const std::string first = kit::pdf_of(state);
    // A clock in the file would show a second.
    std::this_thread::sleep_for(std::chrono::milliseconds{1100});
    EXPECT_TRUE(first == kit::pdf_of(state));
}

TEST(Papers, AnotherResultGivesOtherBytes) {
    const std::string script = kit::bracket_of(4, "single", 1);
    EXPECT_FALSE(kit::pdf_of(event::testing::state_of(script)) ==
                 kit::pdf_of(event::testing::state_of(kit::bracket_of(4, "single", 2))));
}

TEST(Papers, EveryTeamPlaceAndResultCanBeRead) {
    const auto state = kit::case_of("harbour-cup-24-teams.event");
    const std::string text = kit::text_of(kit::pdf_of(state), "harbour-cup");
    for (const event::Team& team : state.teams) EXPECT_TRUE(holds(text, team.name)) << team.name;
    for (const auto& [name, ref] : state.match_names) EXPECT_TRUE(holds(text, name)) << name;
    for (const char* pool : {"pool A", "pool B", "pool C", "pool D", "pool E", "pool F"})
        EXPECT_TRUE(holds(text, pool)) << pool;
    EXPECT_TRUE(holds(text, "Final places"));
    EXPECT_TRUE(holds(text, "25-20 25-22"));
    EXPECT_TRUE(holds(text, "28 to 29 November 2026"));
    EXPECT_TRUE(holds(text, fmt::format("as of fact {}, hash 0123456789abcdef", state.last())));
    // Each place of the list stands on one line with its team.
    const event::Summary summary = event::summary(state);
    for (const event::TeamPlace& place : summary.finals.front().places) {
        const std::string number = place.first == place.last
                                       ? fmt::format("{}", place.first)
                                       : fmt::format("{}-{}", place.first, place.last);
        bool found = false;
        std::istringstream lines{text};
        for (std::string line; std::getline(lines, line);)
            found = found || (holds(line, " " + number + " ") && holds(line, place.team));
        EXPECT_TRUE(found) << number << " " << place.team;
    }
}

/// A line of the paper that has all of these words.
bool has_line(const std::string& text, const std::vector<std::string>& words) {
    std::istringstream lines{text};
    for (std::string line; std::getline(lines, line);)
        if (std::all_of(words.begin(), words.end(),
                        [&](const std::string& word) { return holds(line, word); }))
            return true;
    return false;
}

TEST(Papers, TheOrderOfPlayTellsWhoWorksEachMatch) {
    const std::string cup = event::testing::small_cup() +
                            "court 1\ncourt 2\nperson 3 official\nperson 4 official\n"
                            "person 5 official\ncrew \"Blue\" persons 4 5\n"
                            "place A1 court 2 at 2026-11-28T09:00\n"
                            "place A2 court 1 at 2026-11-28T10:30\n"
                            "place M1 court 1 at 2026-11-29T09:15\n"
                            "duty A2 workers \"Mill Lane\" crew \"Blue\" first-referee 3\n"
                            "duty M1 workers loser A1 first-referee 3 second-referee 4\n";
    const auto state = event::testing::state_of(cup);
    ASSERT_TRUE(state.findings.empty()) << state.findings.front().fault.message;
    const auto work = event::workers_of(state, *state.find_match("A1"));
    ASSERT_TRUE(work);
    const std::string by_order =
        state.teams[state.divisions[0].settled[*work].team].name;  // of A1, by the pool's order
    const std::string pdf = kit::pdf_of(state);
    const std::string text = kit::text_of(pdf, "order-of-play");
    const std::size_t plan = text.rfind("order of play");
    ASSERT_NE(plan, std::string::npos);
    for (const std::string& part : {text.substr(0, plan), text.substr(plan)}) {
        EXPECT_TRUE(has_line(part, {"A1", "09:00", by_order}));
        EXPECT_TRUE(has_line(part, {"A2", "10:30", "Mill Lane  ", " 3  ", "Blue"}));
    }
    const std::string sheet = text.substr(plan);
    EXPECT_TRUE(has_line(sheet, {"M1", "09:15", "loser of A1", "3, 4"}));
    EXPECT_TRUE(has_line(sheet, {"Court 1, 28 November 2026"}));
    EXPECT_TRUE(has_line(sheet, {"Court 1, 29 November 2026"}));
    EXPECT_LT(sheet.find("10:30"), sheet.find("09:15")) << "of a later day";
    EXPECT_LT(sheet.find("09:15"), sheet.find("09:00")) << "of a later court";
    EXPECT_TRUE(has_line(sheet, {"Without a court yet"}));
    EXPECT_TRUE(has_line(sheet, {"M2"}));
}

TEST(Papers, WithoutACourtThereIsNoOrderOfPlayButThatOfThePools) {
    const std::string text = kit::text_of(
        kit::pdf_of(event::testing::state_of(event::testing::small_cup())), "no-courts");
    EXPECT_FALSE(holds(text, "Without a court yet"));
    EXPECT_TRUE(has_line(text, {"A1", "Quayside", "Ropewalk", "Harbour Lights"}))
        << "who plays, and who works it by the pool's order";
}

TEST(Papers, EverySheetIsA4AndNumbered) {
    const std::string pdf = kit::pdf_of(kit::case_of("harbour-cup-24-teams.event"));
    const std::string sizes = kit::printed_by("pdfinfo -l 99 {} | grep size:", pdf, "harbour-cup");
    std::istringstream lines{sizes};
    std::size_t sheets = 0;
    for (std::string line; std::getline(lines, line);)
        if (holds(line, "Page ")) {
            ++sheets;
            EXPECT_TRUE(holds(line, "(A4)")) << line;
        }
    EXPECT_GT(sheets, 6U);
    EXPECT_EQ(sheets, sheets_of(pdf, "harbour-cup"));
    const std::string text = kit::text_of(pdf, "harbour-cup");
    EXPECT_TRUE(holds(text, fmt::format("sheet {0} of {0}", sheets)));
}

TEST(Papers, ABracketOfSixtyFourGoesOverSeveralSheets) {
    const auto state = event::testing::state_of(kit::bracket_of(64, "single", 40));
    const std::string text = kit::text_of(kit::pdf_of(state), "bracket-of-64");
    for (int t = 1; t <= 64; ++t) EXPECT_TRUE(holds(text, fmt::format("Pier {}", t))) << t;
    for (int m = 1; m <= 63; ++m) EXPECT_TRUE(holds(text, fmt::format("M{}", m))) << m;
    EXPECT_TRUE(holds(text, "places 1 to 2"));
    EXPECT_TRUE(holds(text, "winner of M62"));
}

struct Shape {
    int teams;
    const char* kind;
};

/// Every match outside the pools stands in a piece, and each piece fits a sheet.
TEST(Papers, EveryMatchOfEveryBracketIsDrawn) {
    for (const Shape& shape : {Shape{2, "single"}, Shape{5, "double"}, Shape{16, "double"},
                               Shape{33, "consolation"}, Shape{64, "single"}, Shape{64, "double"},
                               Shape{64, "consolation"}, Shape{64, "placement"}}) {
        const auto state = event::testing::state_of(kit::bracket_of(shape.teams, shape.kind, 0));
        const event::Division& division = state.divisions.front();
        std::vector<int> drawn(division.matches.size(), 0);
        const std::function<void(const TreeNode&)> visit = [&](const TreeNode& node) {
            ++drawn[node.match];
            for (const TreeNode& before : node.before) visit(before);
        };
        for (const TreePiece& piece : tree_pieces(division)) {
            EXPECT_LE(leaves_of(piece.root), most_leaves) << shape.teams << shape.kind;
            EXPECT_LE(rounds_of(piece.root), most_rounds) << shape.teams << shape.kind;
            visit(piece.root);
        }
        for (std::size_t m = 0; m < drawn.size(); ++m)
            EXPECT_GE(drawn[m], 1) << division.graph.matches[m].name << shape.kind;
    }
}

TEST(Papers, ALongNameIsCutAndLeavesItsNeighboursAlone) {
    const std::string name(60, 'W');
    std::string script = kit::bracket_of(4, "single", 1);
    script.replace(script.find("Pier 1"), 6, name);
    script += "draw U16 serpentine pools 1\n";
    const std::string text =
        kit::text_of(kit::pdf_of(event::testing::state_of(script)), "long-name");
    // What was cut from sight can still be copied out of the file.
    EXPECT_TRUE(holds(text, name));
    EXPECT_TRUE(holds(text, "Pier 4"));
}

/// No word on the paper covers another one or leaves the sheet.
TEST(Papers, NoWordCoversAnother) {
    std::string long_names = kit::bracket_of(24, "double", 12);
    for (int t = 1; t <= 9; ++t)
        long_names.replace(long_names.find(fmt::format("Pier {}\"", t)), 6,
                           fmt::format("{} {}", t, std::string(58, "WAi"[t % 3])));
    const std::pair<const char*, event::TournamentState> papers[] = {
        {"harbour-cup", kit::case_of("harbour-cup-24-teams.event")},
        {"bracket-of-64", event::testing::state_of(kit::bracket_of(64, "double", 60))},
        {"long-names", event::testing::state_of(long_names + "draw U16 serpentine pools 3\n")}};
    for (const auto& [name, state] : papers) {
        const std::vector<kit::Word> words = kit::words_of(kit::pdf_of(state), name);
        EXPECT_GT(words.size(), 100U) << name;
        for (std::size_t i = 0; i < words.size(); ++i) {
            const kit::Word& one = words[i];
            EXPECT_TRUE(one.left >= 0 && one.right <= one.sheet_width - 28) << name << one.text;
            for (std::size_t j = i + 1; j < words.size() && words[j].sheet == one.sheet; ++j)
                EXPECT_FALSE(one.covers(words[j])) << name << ", sheet " << one.sheet << ": "
                                                   << one.text << " and " << words[j].text;
        }
    }
}

TEST(Papers, NamesInOtherScriptsComeOut) {
    std::string script = kit::bracket_of(2, "single", 0);
    script.replace(script.find("Pier 1"), 6, "Гавань Ø λιμήν");
    EXPECT_TRUE(
        holds(kit::text_of(kit::pdf_of(event::testing::state_of(script)), "scripts"), "Гавань Ø"));
}

TEST(Papers, AnEventOfWhichNothingIsKnownIsAPaperToo) {
    EXPECT_EQ(sheets_of(kit::pdf_of({}), "nothing"), 1U);
}

/// A division of `pools` pools by hand, each of `teams` teams.
std::string pools_of(int pools, int teams, const std::string& division) {
    std::string script =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-28 zone Europe/London\n" + division;
    for (int t = 1; t <= pools * teams; ++t) script += fmt::format("team \"Pier {}\" in U16\n", t);
    script += fmt::format("draw U16 by-hand pools {}\n", pools);
    for (int t = 0; t < pools * teams; ++t)
        script +=
            fmt::format("move-team \"Pier {}\" to {}\n", t + 1, static_cast<char>('A' + t / teams));
    return script;
}

constexpr const char* unnamed =
    "division U16 profile international-2021 chain international-2017 format best-of 3\n";

TEST(Papers, APoolOfTheStandingsStaysOnOneSheet) {
    // Of all sizes, so that some pool would be cut by the end of a sheet.
    for (const int teams : {3, 4, 5, 6, 7, 8}) {
        const std::string script = pools_of(12, teams, unnamed);
        const std::string pdf = kit::pdf_of(event::testing::state_of(script));
        const std::string name = fmt::format("pools-of-{}", teams);
        std::istringstream text{kit::printed_by("pdftotext -l 12 -layout {} -", pdf, name)};
        std::size_t standings = 0;
        std::size_t of_pool = 0;  // rows since the heading of a pool
        bool within = false;
        for (std::string line; std::getline(text, line);) {
            const bool new_sheet = !line.empty() && line.front() == '\f';
            if (new_sheet) {
                EXPECT_TRUE(of_pool == 0 || of_pool == static_cast<std::size_t>(teams))
                    << name << ": a sheet ends after " << of_pool << " teams";
                if (!holds(line, "standings") && standings > 0) break;
                of_pool = 0;
            }
            within = within || holds(line, "standings");
            if (holds(line, "standings")) ++standings;
            if (!within) continue;
            if (holds(line, "Pool "))
                of_pool = 0;
            else if (holds(line, "Pier "))
                ++of_pool;
        }
        EXPECT_GT(standings, 1U) << name << ": one sheet shows nothing";
    }
}

TEST(Papers, ADivisionWithoutANameIsCalledByItsCode) {
    for (const char* division :
         {unnamed,
          "division U16 profile international-2021 chain international-2017 called \"  \" "
          "format best-of 3\n"}) {
        const std::string script = pools_of(2, 4, division) +
                                   "bracket U16 single prefix M to-place 2\n"
                                   "result A1 paper 25-20 25-20\n";
        const std::string text =
            kit::text_of(kit::pdf_of(event::testing::state_of(script)), "unnamed");
        for (const char* title : {"U16, standings", "U16, pool A", "U16, bracket", "U16, results"})
            EXPECT_TRUE(holds(text, title)) << title;
    }
}

TEST(Papers, BothLegsOfADoubleRoundRobinStandInTheTable) {
    std::string script = pools_of(1, 4, unnamed);
    script.resize(script.find("draw"));
    script += "draw U16 serpentine pools 1 second-leg\n";
    const auto state = event::testing::state_of(script);
    ASSERT_EQ(state.match_names.size(), 12U);
    // The sheet of the pool alone: the list of results has all of them anyway.
    const std::string text =
        kit::printed_by("pdftotext -f 2 -l 2 -layout {} -", kit::pdf_of(state), "two-legs");
    ASSERT_TRUE(holds(text, "pool A"));
    for (const auto& [name, ref] : state.match_names) EXPECT_TRUE(holds(text, name)) << name;
}

TEST(Papers, APoolLargerThanASheetGoesOn) {
    std::string script = kit::bracket_of(14, "single", 0);
    script.resize(script.find("bracket"));
    script += "draw U16 by-hand pools 1\n";
    for (int t = 1; t <= 14; ++t) script += fmt::format("move-team \"Pier {}\" to A\n", t);
    const auto state = event::testing::state_of(script);
    ASSERT_EQ(state.divisions.front().pools.size(), 1U);
    ASSERT_EQ(state.match_names.size(), 91U);
    const std::string text = kit::text_of(kit::pdf_of(state), "pool-of-14");
    EXPECT_TRUE(holds(text, "Pier 14"));
    for (const auto& [name, ref] : state.match_names) EXPECT_TRUE(holds(text, name)) << name;
}

TEST(MatchWords, DaysAreWrittenOut) {
    const event::Date day = *event::date_of("2026-11-28");
    EXPECT_EQ(days_words(day, day), "28 November 2026");
    EXPECT_EQ(days_words(day, *event::date_of("2026-11-29")), "28 to 29 November 2026");
    EXPECT_EQ(days_words(day, *event::date_of("2027-01-02")), "28 November 2026 to 2 January 2027");
    EXPECT_EQ(days_words({}, {}), "");
}

}  // namespace
}  // namespace courthand::server::papers
