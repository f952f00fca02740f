// What the check of an event file finds: each kind of thing is tampered with, and the message names
// the thing and its line.
#include <algorithm>
#include <functional>

#include "event_file_kit.h"
#include "tests/unit/event/played_event.h"

namespace courthand::event_file {
namespace {

using Lines = std::vector<std::string>;

std::size_t line_with(const Lines& lines, const std::string& words) {
    const auto found = std::find_if(lines.begin(), lines.end(), [&](const std::string& line) {
        return line.find(words) != std::string::npos;
    });
    EXPECT_NE(found, lines.end()) << words;
    return static_cast<std::size_t>(found - lines.begin());
}
std::string& at(Lines& lines, const std::string& words) {
    return lines[line_with(lines, words)];
}
void replace(std::string& line, const std::string& old, const std::string& by) {
    const auto place = line.find(old);
    ASSERT_NE(place, std::string::npos) << old << " in " << line;
    line.replace(place, old.size(), by);
}
/// Other bytes for a line of a fact or entry, with the hash that fits them.
template <class Kind>
void change_bytes(std::string& line, const std::function<void(Kind&)>& change) {
    Kind read = std::get<Kind>(std::get<Line>(read_line(line, 1)));
    change(read);
    line = written(read);
}

TEST(Verifier, AnEventAsItWasWrittenIsWhole) {
    const Verdict verdict = kit::verdict_of(kit::small_file());
    EXPECT_EQ(verdict.is, Verdict::Is::whole) << kit::told(verdict);
    EXPECT_EQ(verdict.name, "Harbour Cup");
    EXPECT_EQ(verdict.head.seq, 23U);
    EXPECT_EQ(verdict.matches, 1U);
    EXPECT_EQ(verdict.entries, 5U);
}

TEST(Verifier, TheSameRecordsGiveTheSameBytes) {
    EXPECT_EQ(kit::small_file(), kit::small_file());
}

TEST(Verifier, ErasedWordsLeaveItWhole) {
    std::vector<kit::KeptFact> facts = kit::kept(kit::small_cup());
    facts[11].beside.reset();
    const std::string file = kit::file_of(facts);
    EXPECT_EQ(file.find("Robin"), std::string::npos);
    EXPECT_NE(file.find("\"beside\":\"erased\""), std::string::npos);
    EXPECT_EQ(kit::verdict_of(file).is, Verdict::Is::whole) << kit::told(kit::verdict_of(file));
}

struct Tampering {
    const char* name;
    std::function<void(Lines&)> with;
    const char* told;  ///< in a message
    Verdict::Is is = Verdict::Is::changed;
};

class Tampered : public ::testing::TestWithParam<Tampering> {};

TEST_P(Tampered, IsFoundAndNamed) {
    Lines lines = kit::lines_of(kit::small_file());
    GetParam().with(lines);
    kit::expect_told(lines, GetParam().is, GetParam().told);
}

void remove_line(Lines& lines, const std::string& words) {
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(line_with(lines, words)));
}
void swap_lines(Lines& lines, const std::string& one, const std::string& other) {
    std::swap(at(lines, one), at(lines, other));
}
/// A fact that says something else, as one who knows the format would write it.
void say_instead(Lines& lines, std::uint32_t number, const event::Fact& fact) {
    change_bytes<FactLine>(at(lines, "{\"fact\":" + std::to_string(number) + ","),
                           [&](FactLine& line) {
                               v1::TournamentEntry entry;
                               ASSERT_TRUE(entry.ParseFromString(line.bytes));
                               wire::to_proto(fact, *entry.mutable_fact());
                               line.bytes = entry.SerializeAsString();
                               line.hash = wire::sha256(line.bytes);
                           });
}

const Tampering tamperings[] = {
    {"BytesOfAFact",
     [](Lines& lines) {
         change_bytes<FactLine>(at(lines, "{\"fact\":4,"),
                                [](FactLine& line) { line.bytes.back() ^= 1; });
     },
     "5: fact 4 was changed: its bytes are not those of its hash"},
    {"AFactWithItsHash",
     [](Lines& lines) {
         say_instead(lines, 4, event::TeamEntered{"Seven Sisters", "U16", ""});
     },
     "6: fact 5 was written after other bytes than those of fact 4"},
    {"TheLastFactWithItsHash",
     [](Lines& lines) { say_instead(lines, 23, event::PlanPublished{1}); },
     "the record of the tournament does not end with the hash that is told here"},
    {"AFactMissing", [](Lines& lines) { remove_line(lines, "{\"fact\":7,"); },
     "8: fact 7 is missing before fact 8"},
    {"SeveralFactsMissing",
     [](Lines& lines) {
         for (const char* fact : {"{\"fact\":7,", "{\"fact\":8,", "{\"fact\":9,"})
             remove_line(lines, fact);
     },
     "8: fact 7 to 9 are missing before fact 10"},
    {"TheFirstFactMissing", [](Lines& lines) { remove_line(lines, "{\"fact\":1,"); },
     "2: fact 1 is missing before fact 2"},
    {"TheLastFactMissing", [](Lines& lines) { remove_line(lines, "{\"fact\":23,"); },
     "the record of the tournament ends with entry 22 here, and it had 23"},
    {"FactsInAnotherOrder", [](Lines& lines) { swap_lines(lines, "{\"fact\":5,", "{\"fact\":8,"); },
     "6: fact 8 stands where fact 5 is expected, which stands on line 9: the order was changed"},
    {"AFactTwice",
     [](Lines& lines) {
         const std::size_t place = line_with(lines, "{\"fact\":5,");
         const std::string line = lines[place];
         lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(place), line);
     },
     "7: fact 5 is there twice, first on line 6"},
    {"NumbersOfFactsChanged",
     [](Lines& lines) {
         replace(at(lines, "{\"fact\":5,"), "{\"fact\":5,", "{\"fact\":95,");
         replace(at(lines, "{\"fact\":6,"), "{\"fact\":6,", "{\"fact\":5,");
         replace(at(lines, "{\"fact\":95,"), "{\"fact\":95,", "{\"fact\":6,");
         swap_lines(lines, "{\"fact\":5,", "{\"fact\":6,");
     },
     "6: fact 5 says of itself that it is fact 6"},
    {"WordsBeside", [](Lines& lines) { replace(at(lines, "Robin"), "Robin", "Alex"); },
     "13: fact 12: the words beside it were changed"},
    {"WordsTakenAway",
     [](Lines& lines) {
         change_bytes<FactLine>(at(lines, "Robin"), [](FactLine& line) { line.beside = {}; });
     },
     "13: fact 12: the words beside it are missing and are not marked as erased"},
    {"WordsWhereNoneWere",
     [](Lines& lines) {
         change_bytes<FactLine>(at(lines, "{\"fact\":3,"), [](FactLine& line) {
             line.beside = {Beside::State::words, std::string(16, 's'), "first"};
         });
     },
     "4: fact 3: the words beside it were changed"},
    {"ErasedWhereNoneWere",
     [](Lines& lines) {
         change_bytes<FactLine>(at(lines, "{\"fact\":3,"), [](FactLine& line) {
             line.beside = {Beside::State::erased, {}, {}};
         });
     },
     "4: fact 3: no words stood beside it, so that none can be erased"},
    {"AFactOfAnotherTournament",
     [](Lines& lines) { replace(lines.front(), "2a2a2a2a-", "2b2a2a2a-"); },
     "2: fact 1 belongs to another record, 2a2a2a2a-2a2a-2a2a-2a2a-2a2a2a2a2a2a"},
    {"BytesOfAnEntry",
     [](Lines& lines) {
         change_bytes<EntryLine>(at(lines, "{\"entry\":2,"),
                                 [](EntryLine& line) { line.bytes.back() ^= 1; });
     },
     "entry 2 of match 07070707-0707-0707-0707-070707070707 was changed"},
    {"AnEntryWithItsHash",
     [](Lines& lines) {
         change_bytes<EntryLine>(at(lines, "{\"entry\":4,"), [](EntryLine& line) {
             v1::Entry entry;
             ASSERT_TRUE(entry.ParseFromString(line.bytes));
             wire::to_proto(Record{Fact{RallyWon{Team::B}}}, entry);
             line.bytes = entry.SerializeAsString();
             line.hash = wire::sha256(line.bytes);
         });
     },
     "entry 5 of match 07070707-0707-0707-0707-070707070707 was written after other bytes"},
    {"AnEntryMissing", [](Lines& lines) { remove_line(lines, "{\"entry\":3,"); },
     "entry 3 of match 07070707-0707-0707-0707-070707070707 is missing"},
    {"TheEndOfAMatchMissing", [](Lines& lines) { remove_line(lines, "{\"entry\":5,"); },
     "fact 13: the result of A1 rests on an entry of record "
     "07070707-0707-0707-0707-070707070707 that is not in the file"},
    {"EntriesInAnotherOrder",
     [](Lines& lines) { swap_lines(lines, "{\"entry\":2,", "{\"entry\":3,"); },
     "the order was changed"},
    {"AMatchMissing",
     [](Lines& lines) {
         remove_line(lines, "{\"match\":");
         while (std::any_of(lines.begin(), lines.end(),
                            [](const auto& line) { return line.starts_with("{\"entry\""); }))
             remove_line(lines, "{\"entry\"");
     },
     "record 07070707-0707-0707-0707-070707070707 is told of and is not there"},
    {"ADraw",
     [](Lines& lines) {
         std::string& draw = at(lines, "{\"draw\":\"U16\"");
         replace(draw, "Quayside", "Somebody");
         replace(draw, "Ropewalk", "Quayside");
         replace(draw, "Somebody", "Ropewalk");
     },
     "the draw of U16 is wrong: the facts of the event give another one"},
    {"ADrawMissing", [](Lines& lines) { remove_line(lines, "{\"draw\":"); },
     "the draw of U16 is not told"},
    {"ADrawOfNothing",
     [](Lines& lines) {
         std::string draw = at(lines, "{\"draw\":");
         replace(draw, "U16", "U18");
         lines.insert(lines.end() - 1, draw);
     },
     "the draw of U18 is told, and the facts give none"},
    {"APlaceOfAPool",
     [](Lines& lines) {
         std::string& pool = at(lines, "{\"places\":\"U16\",\"pool\":\"A\"");
         replace(pool, "\"place\":1", "\"place\":9");
         replace(pool, "\"place\":2", "\"place\":1");
         replace(pool, "\"place\":9", "\"place\":2");
     },
     "the order of pool A in U16 is wrong"},
    {"AFinalPlace",
     [](Lines& lines) {
         std::string& finals = at(lines, "{\"final\":\"U16\"");
         replace(finals, "\"first\":1,\"last\":1", "\"first\":2,\"last\":2");
     },
     "the list of final places of U16 is wrong"},
    {"TheEndOfARecord",
     [](Lines& lines) {
         std::string& end = at(lines, "{\"record\":\"07070707");
         replace(end, "\"entries\":5", "\"entries\":6");
     },
     "ends with entry 5 here, and it had 6"},
    {"ABrokenLine", [](Lines& lines) { at(lines, "{\"fact\":6,").resize(40); },
     "7: this line is broken at its character 41", Verdict::Is::unreadable},
    {"AKeyThatIsMissing",
     [](Lines& lines) { replace(at(lines, "{\"fact\":6,"), "\"hash\"", "\"hush\""); },
     "7: \"hush\" is not known here", Verdict::Is::unreadable},
    {"AnotherVersion",
     [](Lines& lines) { replace(lines.front(), "\"version\":1", "\"version\":2"); },
     "1: the file has version 2, and this program knows version 1", Verdict::Is::unreadable},
    {"NoEventFile", [](Lines& lines) { lines.front() = "team,number,name"; },
     "1: this is no event file", Verdict::Is::unreadable},
    {"NoHead", [](Lines& lines) { lines.erase(lines.begin()); },
     "1: this is no event file: its first line does not say which event it is",
     Verdict::Is::unreadable},
};

INSTANTIATE_TEST_SUITE_P(Each, Tampered, ::testing::ValuesIn(tamperings),
                         [](const auto& tampering) { return std::string{tampering.param.name}; });

TEST(Verifier, AnEndThatDoesNotFitIsFound) {
    Lines lines = kit::lines_of(kit::small_file());
    replace(at(lines, "{\"match\":"), "\"court\":3", "\"court\":4");
    std::string file;
    for (const std::string& line : lines) file += line + '\n';
    const Verdict verdict = kit::verdict_of(file);
    EXPECT_EQ(verdict.is, Verdict::Is::changed);
    EXPECT_NE(kit::told(verdict).find("the plan of a match"), std::string::npos)
        << kit::told(verdict);
}

TEST(Verifier, EachCutIsFound) {
    const Lines lines = kit::lines_of(kit::small_file());
    std::string file;
    for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
        EXPECT_NE(kit::verdict_of(file).is, Verdict::Is::whole) << i;
        file += lines[i] + '\n';
    }
    EXPECT_NE(kit::told(kit::verdict_of(file)).find("the file has no end: it was cut off"),
              std::string::npos);
}

/// No byte of the file can be another one without being told.
TEST(Verifier, EveryChangedByteIsFound) {
    const std::string file = kit::small_file();
    for (std::size_t i = 0; i < file.size(); i += 7) {
        std::string changed = file;
        changed[i] = static_cast<char>(changed[i] ^ 1);
        EXPECT_NE(kit::verdict_of(changed).is, Verdict::Is::whole)
            << i << " of " << file.size() << ": " << file.substr(i < 20 ? 0 : i - 20, 40);
    }
}

TEST(Verifier, ALineWithoutAnEndIsRefusedAndNotSwallowed) {
    const Verdict verdict = kit::verdict_of(std::string(3 * most_line_bytes, '{'));
    EXPECT_EQ(verdict.is, Verdict::Is::unreadable);
    EXPECT_NE(kit::told(verdict).find("at most 1048576 are allowed"), std::string::npos);
}

TEST(Verifier, TheHashOnAPaperNamesItsFact) {
    std::istringstream in{kit::small_file()};
    Verifier verifier;
    take_lines(in, verifier);
    const std::string hash = wire::to_hex(wire::sha256(kit::kept(kit::small_cup())[9].bytes));
    EXPECT_EQ(verifier.fact_of_hash(hash.substr(0, 16)), 10U);
    EXPECT_EQ(verifier.fact_of_hash("0123456789abcdef"), std::nullopt);
}

/// A draw that somebody took back counts no more, and neither do seeds that were taken back later.
TEST(Verifier, TheDrawThatCountsIsRepeated) {
    const std::string opening = kit::small_cup().substr(0, kit::small_cup().find("bracket"));
    const Verdict verdict = kit::verdict_of(kit::file_of(
        kit::kept(opening + "take-back 10\ntake-back 9\ndraw U16 serpentine pools 3\n"
                            "move-team \"Mill Lane\" to A with \"Harbour Lights\"\n")));
    // Its match rests on no fact here.
    EXPECT_EQ(verdict.is, Verdict::Is::whole) << kit::told(verdict);
}

/// Events as desks make them, with mistakes and what was taken back: each is whole, and not without
/// any one of its lines.
TEST(Verifier, RandomEventsAreWholeAndMissEachLineThatIsTakenAway) {
    for (unsigned seed = 1; seed <= 12; ++seed) {
        std::vector<event::Said> said;
        for (event::Fact& fact : event::testing::PlayedEvent{seed}.facts(120)) {
            // Of the record of a table that nobody has here.
            if (const auto* result = std::get_if<event::ResultConfirmed>(&fact);
                result && event::is_from_record(result->from))
                fact = event::NoteWritten{};
            said.push_back({std::move(fact), seed % 3 == 0 ? "a reason" : ""});
        }
        const std::string file = kit::file_of(kit::kept(said));
        const Verdict whole = kit::verdict_of(file);
        ASSERT_EQ(whole.is, Verdict::Is::whole) << seed << "\n" << kit::told(whole);
        const Lines lines = kit::lines_of(file);
        for (std::size_t i = seed % 5; i + 1 < lines.size(); i += 5) {
            Lines fewer = lines;
            fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
            ASSERT_NE(kit::verdict_of(kit::with_end(fewer)).is, Verdict::Is::whole)
                << seed << ": " << lines[i];
        }
    }
}

}  // namespace
}  // namespace courthand::event_file
