// Team lists as people write them, good and bad: a fault names row, column and cure.
#include <gtest/gtest.h>

#include <set>

#include "client/venue/roster_example.h"
#include "server/desk/csv.h"
#include "server/desk/csv_writer.h"
#include "server/desk/roster_file.h"

namespace courthand::server::desk {
namespace {

std::vector<CsvRow> rows(std::string_view text) {
    auto read = read_csv(text);
    EXPECT_TRUE(std::holds_alternative<std::vector<CsvRow>>(read));
    return std::get<std::vector<CsvRow>>(read);
}

using Cells = std::vector<std::string>;

TEST(Csv, QuotedCellsHoldSeparatorsQuotesAndLineEnds) {
    const auto read = rows("a,b\r\n\"x, y\",\"say \"\"hi\"\"\"\r\n\"two\nlines\",z\r\n");
    ASSERT_EQ(read.size(), 3U);
    EXPECT_EQ(read[1].cells, (Cells{"x, y", "say \"hi\""}));
    EXPECT_EQ(read[2].cells, (Cells{"two\nlines", "z"}));
    EXPECT_EQ(read[2].line, 3U);
}

TEST(Csv, ByteOrderMarkAndSemicolonsOfOfficePrograms) {
    const auto read = rows("\xEF\xBB\xBFteam;number\nQuayside;7\n");
    ASSERT_EQ(read.size(), 2U);
    EXPECT_EQ(read[0].cells, (Cells{"team", "number"}));
    EXPECT_EQ(read[1].cells, (Cells{"Quayside", "7"}));
}

TEST(Csv, TabsTrailingBlanksEmptyRowsAndAMissingLastLineEnd) {
    const auto read = rows("team\tnumber\n\n \t \nQuayside \t 7");
    ASSERT_EQ(read.size(), 2U);
    EXPECT_EQ(read[1].cells, (Cells{"Quayside", "7"}));
    EXPECT_EQ(read[1].line, 4U);
}

TEST(Csv, AQuoteThatIsNeverClosedIsNamedByItsLine) {
    const auto read = read_csv("a,b\n1,\"two\n3,4\n");
    ASSERT_TRUE(std::holds_alternative<CsvError>(read));
    EXPECT_EQ(std::get<CsvError>(read).line, 2U);
    EXPECT_FALSE(std::get<CsvError>(read).cure.empty());
}

TEST(Csv, AStrayQuoteIsAnError) {
    EXPECT_TRUE(std::holds_alternative<CsvError>(read_csv("a\nx\"y\n")));
    EXPECT_TRUE(std::holds_alternative<CsvError>(read_csv("a\n\"x\"y\n")));
}

const RosterError& only_error(const RosterFile& file) {
    EXPECT_EQ(file.errors.size(), 1U);
    static const RosterError none;
    return file.errors.empty() ? none : file.errors.front();
}

TEST(RosterFile, ReadsTeamsWithTheirPlayers) {
    const auto file = read_roster_file(
        "Team,Number,Captain,Libero,Colour,Club\n"
        "Quayside,7,yes,,#1F3A5F,Quayside\n"
        "Quayside,0,,x,,Quayside\n"
        "Saltmarsh,99,,,,\n");
    ASSERT_TRUE(file.errors.empty()) << file.errors.front().message;
    ASSERT_EQ(file.teams.size(), 2U);
    EXPECT_EQ(file.teams[0].colour, "1f3a5f");
    ASSERT_EQ(file.teams[0].players.size(), 2U);
    EXPECT_TRUE(file.teams[0].players[0].captain);
    EXPECT_EQ(file.teams[0].players[1].number, Jersey{0});
    EXPECT_TRUE(file.teams[0].players[1].libero);
    EXPECT_FALSE(file.teams[0].players[1].name.has_value());
    EXPECT_EQ(file.teams[1].club, "");
}

struct BadFile {
    const char* what;
    const char* csv;
    std::uint32_t line;
    const char* column;
};

class RosterFault : public ::testing::TestWithParam<BadFile> {};

TEST_P(RosterFault, NamesRowColumnAndCure) {
    const auto file = read_roster_file(GetParam().csv);
    const RosterError& error = only_error(file);
    EXPECT_EQ(error.line, GetParam().line) << error.message;
    EXPECT_EQ(error.column, GetParam().column) << error.message;
    EXPECT_FALSE(error.message.empty());
    EXPECT_FALSE(error.cure.empty());
}

INSTANTIATE_TEST_SUITE_P(
    All, RosterFault,
    ::testing::Values(
        BadFile{"number is a word", "team,number\nQuayside,seven\n", 2, "number"},
        BadFile{"number too large", "team,number\nQuayside,7\nQuayside,100\n", 3, "number"},
        BadFile{"negative number", "team,number\nQuayside,-1\n", 2, "number"},
        BadFile{"number missing", "team,number\nQuayside,\n", 2, "number"},
        BadFile{"number twice", "team,number\nQuayside,7\nQuayside,07\n", 3, "number"},
        BadFile{"team missing", "team,number\n,7\n", 2, "team"},
        BadFile{"two captains", "team,number,captain\nQuayside,7,x\nQuayside,8,x\n", 3, "captain"},
        BadFile{"captain neither yes nor no", "team,number,captain\nQuayside,7,maybe\n", 2,
                "captain"},
        BadFile{"colour is a word", "team,number,colour\nQuayside,7,blue\n", 2, "colour"},
        BadFile{"two colours", "team,number,colour\nQ,7,112233\nQ,8,445566\n", 3, "colour"},
        BadFile{"unknown column", "team,number,height\nQuayside,7,190\n", 1, "height"},
        BadFile{"column missing", "team\nQuayside\n", 1, "number"},
        BadFile{"column twice", "team,number,number\nQuayside,7,8\n", 1, "number"},
        BadFile{"too many cells", "team,number\nQuayside,7,8\n", 2, ""},
        BadFile{"empty", "", 0, ""}, BadFile{"header only", "team,number\n", 0, ""},
        BadFile{"not UTF-8", "team,number\nQuays\xE4ide,7\n", 2, ""},
        BadFile{"UTF-16 with its mark", "\xFF\xFEt", 0, ""},
        BadFile{"a workbook", "PK\x03\x04....", 0, ""},
        BadFile{"a control character", "team,number\nQuay\x01side,7\n", 2, ""},
        BadFile{"two teams of one name in two clubs", "team,number,club\nQ,7,North\nQ,8,South\n", 3,
                "club"},
        BadFile{"two teams of one name in two divisions",
                "team,number,division\nQ,7,U16\nQ,8,U18\n", 3, "division"},
        BadFile{"one team written in two ways", "team,number\nMill Lane,7\nMill lane,8\n", 3,
                "team"},
        BadFile{"a line end in a name", "team,number\n\"Mill\nLane\",7\n", 2, "team"},
        BadFile{"two pools of the last event", "team,number,last pool\nQ,7,A\nQ,8,B\n", 3,
                "last pool"},
        BadFile{"a pool of two words", "team,number,last pool\nQ,7,Pool A\n", 2, "last pool"},
        BadFile{"an official has no last pool", "team,number,role,last pool\n,,official,A\n", 2,
                "last pool"},
        BadFile{"a division of two words", "team,number,division\nQ,7,Under 16\n", 2, "division"},
        BadFile{"an unknown role", "team,number,role\nQ,7,player\nQ,8,mascot\n", 3, "role"},
        BadFile{"a coach with a number", "team,number,role\nQ,7,coach\n", 2, "number"},
        BadFile{"a coach of no team", "team,number,role\n,,coach\n", 2, "team"},
        BadFile{"a coach who is captain", "team,number,role,captain\nQ,,coach,yes\n", 2, "captain"},
        BadFile{"an official of a team", "team,number,role\nQ,,official\n", 2, "team"},
        BadFile{"quote not closed", "team,number\n\"Quayside,7\n", 2, ""}),
    [](const auto& param) {
        std::string name{param.param.what};
        for (char& c : name)
            if (c == ' ' || c == '-') c = '_';
        return name;
    });

TEST(RosterFile, EveryFaultOfAFileIsToldAtOnce) {
    const auto file = read_roster_file("team,number\nQuayside,x\n,7\nQuayside,8\nQuayside,8\n");
    ASSERT_EQ(file.errors.size(), 3U);
    EXPECT_EQ(file.errors[0].line, 2U);
    EXPECT_EQ(file.errors[1].line, 3U);
    EXPECT_EQ(file.errors[2].line, 5U);
}

TEST(RosterFile, EveryFaultOfALineIsToldAtOnce) {
    const std::string endless(65, 'x');
    const auto file = read_roster_file("team,club,number,name,captain,libero,colour\n" + endless +
                                       "," + endless + ",x," + endless + ",maybe,perhaps,blue\n");
    std::set<std::string> columns;
    for (const RosterError& error : file.errors) {
        EXPECT_EQ(error.line, 2U);
        columns.insert(error.column);
    }
    EXPECT_EQ(columns, (std::set<std::string>{"team", "club", "number", "name", "captain", "libero",
                                              "colour"}));
}

TEST(RosterFile, EveryLineOfAnotherEncodingIsNamed) {
    const auto file = read_roster_file("team,number\nQuays\xE4ide,7\nQuayside,8\nQuays\xE4ide,9\n");
    ASSERT_EQ(file.errors.size(), 2U);
    EXPECT_EQ(file.errors[0].line, 2U);
    EXPECT_EQ(file.errors[1].line, 4U);
}

TEST(RosterFile, TheCharacterOfAnotherEncodingIsNamed) {
    const auto file = read_roster_file("team,number\nMøle \xE4nd,7\n");
    EXPECT_EQ(only_error(file).message,
              "character 6 of this line (byte E4) is not UTF-8; in ISO 8859-1 it would be \"ä\"");
    EXPECT_NE(only_error(file).cure.find("UTF-8"), std::string::npos);
    using namespace std::string_view_literals;
    const auto wide = read_roster_file("t\0e\0a\0m\0"sv);
    EXPECT_NE(only_error(wide).message.find("UTF-16"), std::string::npos);
}

TEST(RosterFile, ReadsDivisionsCoachesAndOfficials) {
    const auto file = read_roster_file(
        "\xEF\xBB\xBFrole;team;number;name;division\r\n"
        ";Quayside;7;;U16\r\n"
        "Coach;Quayside;;\"Robin; of the quay\";\r\n"
        "official;;;Kim;\r\n"
        "worker;;;;\r\n"
        "player;Saltmarsh;7;;U18\r\n");
    ASSERT_TRUE(file.errors.empty()) << file.errors.front().message;
    ASSERT_EQ(file.teams.size(), 2U);
    EXPECT_EQ(file.teams[0].division, "U16");
    EXPECT_EQ(file.teams[1].division, "U18");
    const std::vector<RosterPerson> people{
        {3, event::Role::coach, "Quayside", "Robin; of the quay"},
        {4, event::Role::official, "", "Kim"},
        {5, event::Role::worker, "", std::nullopt}};
    EXPECT_TRUE(file.people == people);
}

TEST(RosterFile, WhatWasGuardedAgainstFormulasComesBackAsItWas) {
    CsvWriter out;
    out.text("team").text("number").text("name").end_row();
    out.text("=Quay+Side").number(7).text("@Kim").end_row();
    EXPECT_NE(out.bytes().find("'=Quay+Side,7,'@Kim"), std::string::npos) << out.bytes();
    const auto file = read_roster_file(out.bytes());
    ASSERT_TRUE(file.errors.empty()) << file.errors.front().message;
    EXPECT_EQ(file.teams.front().name, "=Quay+Side");
    EXPECT_EQ(file.teams.front().players.front().name, "@Kim");
}

TEST(RosterFile, TheExampleOnTheDesksPageIsRead) {
    const auto file = read_roster_file(venue::roster_example);
    ASSERT_TRUE(file.errors.empty()) << file.errors.front().message;
    ASSERT_EQ(file.teams.size(), 1U);
    EXPECT_EQ(file.teams[0].players.size(), 3U);
    EXPECT_TRUE(file.teams[0].players[2].libero);
    EXPECT_EQ(file.teams[0].division, "U16");
    EXPECT_EQ(file.teams[0].last_pool, "C");
    ASSERT_EQ(file.people.size(), 2U);
    EXPECT_EQ(file.people[0].role, event::Role::coach);
    EXPECT_EQ(file.people[0].team, "Tern Bay");
    EXPECT_EQ(file.people[1].role, event::Role::official);
}

TEST(RosterFile, ATeamOfTwentyFivePlayersIsTooLong) {
    std::string csv = "team,number\n";
    for (int number = 1; number <= 25; ++number) csv += "Quayside," + std::to_string(number) + "\n";
    const RosterFile file = read_roster_file(csv);
    const RosterError& error = only_error(file);
    EXPECT_EQ(error.line, 26U);
}

}  // namespace
}  // namespace courthand::server::desk
