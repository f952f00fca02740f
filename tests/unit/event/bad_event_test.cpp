// Every kind of mistake, with the place and the words a person is told.
#include <gtest/gtest.h>

#include <ostream>
#include <string>

#include "courthand/event_script/event_script.h"

namespace courthand::event {
namespace {

struct Mistake {
    std::string_view name;
    std::string text;
    std::uint32_t column;
    std::string_view message;  ///< whole
    std::string_view cure;     ///< part of it
};

std::ostream& operator<<(std::ostream& out, const Mistake& m) {
    return out << m.name;
}

std::vector<Mistake> mistakes() {
    return {
        {"Empty", "# only a comment", 1, "the script says nothing", "begin it with"},
        {"MistypedVerb", "brackte U16 single prefix M", 1,
         "'brackte' is no verb of an event script", "did you mean 'bracket'?"},
        {"UnknownVerb", "xyzzy", 1, "'xyzzy' is no verb of an event script", "README"},
        {"NameWithoutQuotes", "team Quayside in U16", 6,
         "a team's name in quotation marks must stand in quotation marks", "one word"},
        {"NameMissing", "team", 5, "a team's name in quotation marks is missing here", "add"},
        {"EmptyName", "team \"\" in U16", 6, "a team's name in quotation marks is empty", "write"},
        {"LongName", "team \"" + std::string(65, 'x') + "\" in U16", 6,
         "a team's name in quotation marks has more than 64 bytes", "shorten"},
        {"WordMissing", "team \"Quayside\" U16", 17, "'U16' stands where 'in' belongs",
         "write 'in' here"},
        {"StrangeWord", "team \"Quayside\" in U,16", 20, "'U,16' is not the code of a division",
         "letters, digits"},
        {"UnknownClause", "team \"Quayside\" in U16 clup \"Q\"", 24,
         "'clup' is not a clause of this line", "did you mean 'club'?"},
        {"NoDay", "tournament \"Cup\" from 2026-02-30 to 2026-03-01 zone Europe/London", 23,
         "'2026-02-30' is no day", "2026-11-28"},
        {"NoMoment", "place M1 court 2 at 9:30", 21, "'9:30' is no moment", "T09:30"},
        {"NoScore", "result M1 paper 25:20", 17, "'25:20' is not the score of a set", "25-20"},
        {"HighScore", "result M1 paper 250-20", 17, "'250-20' is not the score of a set",
         "0 to 199"},
        {"NoSets", "result M1 paper", 16, "sets such as 25-20 is missing here", "add"},
        {"SixSets", "result M1 paper 1-0 1-0 1-0 1-0 1-0 1-0", 37,
         "more than the 5 that stand in one fact", "leave some out"},
        {"Choice", "result M1 papre 25-20", 11,
         "'papre' is not 'table', 'paper' or 'signed-record'", "did you mean 'paper'?"},
        {"Number", "court 0", 7, "the number of a court cannot be 0", "1 to 1000"},
        {"NotANumber", "court first", 7, "'first' stands where the number of a court belongs",
         "in digits"},
        {"Source", "sides M1 first M2 second bye", 16,
         "'M2' is not a team, a place, a match or 'bye'", "winner M7"},
        {"PlaceOfNothing", "sides M1 first 2 A second bye", 18, "'A' stands where 'of' belongs",
         "write 'of' here"},
        {"HeadHash", "result M1 table 25-20 head 12ab", 28,
         "'12ab' is not the head hash of a record", "64 digits"},
        {"EvenBestOf", "match F1 in U16 first bye second bye format best-of 4", 53,
         "best of 4 can end in a draw", "sets 2"},
        {"Words", "note words wet", 12,
         "the words in quotation marks must stand in quotation marks", "one word"},
        {"AfterTheWords", "note words \"wet\" match M1", 18,
         "'match' is more than this line can hold", "put # before"},
        {"LineBreakInAName", "team \"Quay\\nside\" in U16", 6,
         "a team's name in quotation marks runs over more than one line", "one line"},
        {"Expectation", "expect sied M1 first bye", 8, "'sied' is not something to expect",
         "did you mean 'side'?"},
        {"FindingWord", "expect finding score-imposible", 16,
         "'score-imposible' is not a kind of finding", "did you mean 'score-impossible'?"},
        {"OpenQuote", "team \"Quayside in U16", 6,
         "a quoted text without its closing quotation mark", "same line"},
        {"NotUtf8", "team \"caf\xE9\" in U16", 10, "a byte that is not part of a UTF-8 character",
         "UTF-8"},
        {"LongLine", "note words \"" + std::string(500, 'x') + "\"", 501,
         "the line has 513 characters, 500 are allowed", "shorten"},
    };
}

class BadEvent : public ::testing::TestWithParam<Mistake> {};

TEST_P(BadEvent, NamesPlaceMistakeAndCure) {
    const Mistake& expected = GetParam();
    const auto read = read_event(expected.text);
    const auto* const error = std::get_if<ScriptError>(&read);
    ASSERT_NE(error, nullptr) << "the script was read without an error";
    EXPECT_EQ(error->message, expected.message);
    EXPECT_EQ(error->line, 1u);
    EXPECT_EQ(error->column, expected.column) << error->message;
    EXPECT_NE(error->cure.find(expected.cure), std::string::npos) << "cure: " << error->cure;
}

INSTANTIATE_TEST_SUITE_P(Table, BadEvent, ::testing::ValuesIn(mistakes()),
                         [](const ::testing::TestParamInfo<Mistake>& row) {
                             return std::string{row.param.name};
                         });

TEST(BadEvent, LinesAreCountedThroughCommentsAndEmptyOnes) {
    const std::string good = "tournament \"Cup\" from 2026-11-28 to 2026-11-29 zone Europe/London";
    for (const std::string end : {"\n", "\r\n"}) {
        const auto read = read_event("# Harbour Cup" + end + end + good + end + "  # a note" + end +
                                     "  team Quayside in U16" + end);
        const auto* const error = std::get_if<ScriptError>(&read);
        ASSERT_NE(error, nullptr);
        EXPECT_EQ(error->line, 5u);
        EXPECT_EQ(error->column, 8u);
    }
}

TEST(BadEvent, AFileThatIsTooLargeIsRefused) {
    const auto read = read_event(std::string(largest_event_script + 1, '\n'));
    EXPECT_TRUE(std::holds_alternative<ScriptError>(read));
}

}  // namespace
}  // namespace courthand::event
