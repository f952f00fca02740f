// Every kind of mistake, with the place and the words a person is told.
#include <gtest/gtest.h>

#include <ostream>
#include <string>

#include "courthand/script/script.h"

namespace courthand {
namespace {

struct Mistake {
    std::string_view name;
    std::string text;
    std::uint32_t line;
    std::uint32_t column;
    std::string_view message;  ///< whole
    std::string_view cure;     ///< part of it
};

std::ostream& operator<<(std::ostream& out, const Mistake& m) {
    return out << m.name;
}

/// A good first line, so that the mistake is in line 2.
std::string second(const std::string& line) {
    return "profile international-2021\n" + line + "\n";
}

std::string many_rallies() {
    std::string text = "profile international-2021\n";
    for (int i = 0; i < 31; ++i) text += "play A100\n";
    return text;
}

std::vector<Mistake> mistakes() {
    return {
        {"NoProfile", "# only a comment\n", 1, 1, "the script names no profile", "profile int"},
        {"Empty", "", 1, 1, "the script names no profile", "begin it with"},
        {"ProfileNotFirst", "whistle\n", 1, 1, "'whistle' comes before the profile",
         "profile international-2025"},
        {"UnknownProfile", "profile international-2020\n", 1, 9,
         "'international-2020' is not a known profile", "did you mean 'international-202"},
        {"ProfileTwice", second("profile international-2021"), 2, 9,
         "a second profile; 'international-2021' is in force", "keep one"},
        {"ProfileMissing", "profile\n", 1, 8, "the id of a profile is missing here", "add"},
        {"MistypedVerb", second("libreo A 21 for 5"), 2, 1, "'libreo' is no verb of a script",
         "did you mean 'libero'?"},
        {"LongVerb", second("substitution A 11 for 1"), 2, 1,
         "'substitution' is no verb of a script", "did you mean 'sub'?"},
        {"UnknownVerb", second("xyzzy"), 2, 1, "'xyzzy' is no verb of a script",
         "shared-core/SCRIPT.md, under Words"},
        {"ReasonOfAnotherName", second("ruling accept double-substitution A"), 2, 15,
         "'double-substitution' is not a reason code", "substitution"},
        {"UnknownReason", second("ruling accept xyzzy A"), 2, 15, "'xyzzy' is not a reason code",
         "shared-core/SCRIPT.md, under Words"},
        {"QuotedVerb", second("\"serve\""), 2, 1, "a quoted text stands where a verb belongs",
         "without quotation marks"},
        {"NotATeam", second("rally C"), 2, 7, "'C' is not a team", "capital letters"},
        {"SmallLetter", second("rally a"), 2, 7, "'a' is not a team", "capital letters"},
        {"TeamMissing", second("rally  # who?"), 2, 6, "a team, A or B is missing here", "add"},
        {"NumberMissing", second("libero A 21 for"), 2, 16,
         "the number of the player who goes out is missing here", "add"},
        {"NumberTooLarge", second("libero A 121 for 5"), 2, 10,
         "the number of the player who comes in cannot be 121", "0 to 99"},
        {"NumberInWords", second("libero A two for 5"), 2, 10,
         "'two' stands where the number of the player who comes in belongs", "in digits"},
        {"NegativeNumber", second("injury A -4"), 2, 10,
         "'-4' stands where a player's number belongs", "0 to 99"},
        {"HugeNumber", second("injury A 99999999999999999999"), 2, 10,
         "'99999999999999999999' stands where a player's number belongs", "0 to 99"},
        {"ForMissing", second("libero A 21 5"), 2, 13, "'5' stands where 'for' belongs",
         "write 'for' here"},
        {"ForAtTheEnd", second("sub A 11"), 2, 9, "the word 'for' is missing here", "'for'"},
        {"TooMuch", second("rally A 5"), 2, 9, "'5' is more than this line can hold",
         "put # before"},
        {"CommentWithoutSpace", second("rally A#now"), 2, 7, "'A#now' is not a team", "A or B"},
        {"SevenPairs", second("sub A 1 for 2 3 for 4 5 for 6 7 for 8 9 for 10 11 for 12 13 for 14"),
         2, 65, "more than 6 pairs in one request", "second request"},
        {"PlayerTwice", second("team A \"Harbour Lights\" players 1-6 4"), 2, 37,
         "player 4 is listed twice", "once"},
        {"BackwardRun", second("team A players 6-1"), 2, 16,
         "'6-1' is neither a number nor a run of numbers", "smaller one first"},
        {"RunTooLarge", second("team A players 90-120"), 2, 16,
         "'90-120' is neither a number nor a run of numbers", "0 to 99"},
        {"TooManyPlayers", second("team A players 1-30"), 2, 16, "more than 24 players",
         "leave out"},
        {"NoPlayers", second("team A players"), 2, 15, "a player's number is missing here", "add"},
        {"NameWithoutQuotes", second("team A Harbour players 1-6"), 2, 8,
         "'Harbour' stands where 'players' belongs", "write 'players' here"},
        {"EmptyName", second("team A \"\" players 1-6"), 2, 8, "the team's name is empty",
         "between the quotation marks"},
        {"LongName", second("team A \"" + std::string(81, 'x') + "\" players 1-6"), 2, 8,
         "the name has more than 80 characters", "shorten"},
        {"OtherName", second("team A \"Quayside\" players 1-6\nteam A \"Ropewalk\" players 1-6"), 3,
         8, "this team is already called 'Quayside'", "leave the name out"},
        {"SetTooEarly", second("team A players 1-6\nset 1"), 3, 5,
         "a set starts before team B is listed", "above the first 'set' line"},
        {"SetNumber", second("set 6"), 2, 5, "the number of the set cannot be 6", "1 to 5"},
        {"OpenQuote", second("remark \"wet floor"), 2, 8,
         "a quoted text without its closing quotation mark", "on the same line"},
        {"QuoteInsideWord", second("remark wet\"floor\""), 2, 11, "a quotation mark inside a word",
         "put a space"},
        {"QuoteRunsOn", second("remark \"wet\"floor"), 2, 13,
         "a quoted text runs into the next word", "put a space"},
        {"StrangeEscape", second("remark \"wet \\floor\""), 2, 13,
         "a backslash that introduces nothing", "\\\\ for a backslash"},
        {"TextWithoutQuotes", second("remark wet"), 2, 8, "the text must stand in quotation marks",
         "one word"},
        {"Sanction", second("misconduct A 4 penalyt"), 2, 16, "'penalyt' is not a sanction",
         "did you mean 'penalty'?"},
        {"DelayExpulsion", second("delay A expulsion"), 2, 9, "'expulsion' is not a delay sanction",
         "warning, penalty"},
        {"ReasonMistyped", second("ruling accept libero-frontrow A"), 2, 15,
         "'libero-frontrow' is not a reason code", "did you mean 'libero-front-row'?"},
        {"Decision", second("ruling reject wrong-server A"), 2, 8, "'reject' is not a decision",
         "accept, overrule"},
        {"Expectation", second("expect scroe 1 1"), 2, 8, "'scroe' is not something to expect",
         "did you mean 'score'?"},
        {"Remedy", second("expect open wrong-server A remedy forgive"), 2, 35,
         "'forgive' is not a remedy", "point-and-service"},
        {"FivePlaces", second("expect court A 1 2 3 4 5"), 2, 25,
         "a player's number is missing here", "add"},
        {"EvenBestOf", second("format best-of 4"), 2, 16, "best of 4 can end in a draw", "sets 2"},
        {"FormatClause", second("format best-of 3 pionts 25"), 2, 18,
         "'pionts' is not a clause of the format", "did you mean 'points'?"},
        {"EmptyFormat", second("format"), 2, 7, "a clause of the format is missing here", "add"},
        {"RunOfRallies", second("play A4 C5"), 2, 9, "'C5' is not a run of rallies", "A4"},
        {"RunOfNone", second("play A0"), 2, 6, "'A0' is not a run of rallies", "1 to 199"},
        {"EntryZero", second("strike @0"), 2, 8, "there is no earlier entry 0", "@1 to @1"},
        {"LaterEntry", second("whistle\nstrike @3"), 3, 8, "there is no earlier entry 3",
         "@1 to @2"},
        {"EntryWithoutAt", second("strike 1"), 2, 8, "'1' is not an entry number", "@12"},
        {"InsertOfAnExpectation", second("insert @1 expect none"), 2, 11, "'expect' says no fact",
         "one fact"},
        {"InsertOfNothing", second("insert @1"), 2, 10, "the fact is missing here", "add"},
        {"TooManyEntries", many_rallies(), 31, 6, "more than 6000 entries", "split the file"},
        {"LongLine", second("remark \"" + std::string(500, 'x') + "\""), 2, 501,
         "the line has 509 characters, 500 are allowed", "shorten"},
        {"LargeFile", std::string(largest_script + 1, '\n'), 1, 1,
         "the file has 1048577 bytes, 1048576 are allowed", "right file"},
        {"NotUtf8", second("remark \"caf\xE9\""), 2, 12,
         "a byte that is not part of a UTF-8 character", "UTF-8"},
        {"Overlong", second("remark \"\xC0\xAF\""), 2, 9,
         "a byte that is not part of a UTF-8 character", "UTF-8"},
        {"Surrogate", second("remark \"\xED\xA0\x80\""), 2, 9,
         "a byte that is not part of a UTF-8 character", "UTF-8"},
        {"ControlCharacter", second("rally\x01 A"), 2, 6, "a control character (code 1)",
         "plain text"},
        {"ColumnsAreCharacters", second("team A \"Mühle Ölmühle\" plaiers 1-6"), 2, 24,
         "'plaiers' stands where 'players' belongs", "write 'players' here"},
        {"ColumnsAfterTabs", second("\trally\tC"), 2, 8, "'C' is not a team", "A or B"},
    };
}

class BadScript : public testing::TestWithParam<Mistake> {};

TEST_P(BadScript, NamesPlaceMistakeAndCure) {
    const Mistake& expected = GetParam();
    const std::variant<Script, ScriptError> read = read_script(expected.text);
    const auto* const error = std::get_if<ScriptError>(&read);
    ASSERT_NE(error, nullptr) << "the script was read without an error";
    EXPECT_EQ(error->message, expected.message);
    EXPECT_EQ(error->line, expected.line) << error->message;
    EXPECT_EQ(error->column, expected.column) << error->message;
    EXPECT_NE(error->cure.find(expected.cure), std::string::npos) << "cure: " << error->cure;
}

INSTANTIATE_TEST_SUITE_P(Table, BadScript, testing::ValuesIn(mistakes()),
                         [](const testing::TestParamInfo<Mistake>& row) {
                             return std::string{row.param.name};
                         });

}  // namespace
}  // namespace courthand
