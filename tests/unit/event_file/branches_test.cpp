// What lies beside the record of a match is in the file, is checked, and counts for nothing.
#include <algorithm>
#include <functional>

#include "event_file_kit.h"

namespace courthand::event_file {
namespace {

using Lines = std::vector<std::string>;

TEST(Branches, AForkedEventIsWhole) {
    const Verdict verdict = kit::verdict_of(kit::forked_file());
    EXPECT_EQ(verdict.is, Verdict::Is::whole) << kit::told(verdict);
    EXPECT_EQ(verdict.entries, 5U) << "of the record";
    EXPECT_EQ(verdict.beside, 2U);
    EXPECT_EQ(beside_words(verdict), ", and 2 on branches");
    EXPECT_EQ(beside_words(kit::verdict_of(kit::small_file())), "");
}

TEST(Branches, WithoutAForkTheFileIsAsItWas) {
    EXPECT_EQ(kit::small_file().find("branch"), std::string::npos);
}

TEST(Branches, TheirBytesComeBack) {
    std::vector<std::string> bytes;
    for (const std::string& text : kit::lines_of(kit::forked_file())) {
        const auto read = read_line(text, 1);
        if (const auto* entry = std::get_if<BranchLine>(&std::get<Line>(read))) {
            bytes.push_back(entry->bytes);
            EXPECT_EQ(entry->branch, 1U);
            EXPECT_EQ(entry->signature, entry->number == 4 ? "signed" : "");
        }
    }
    EXPECT_EQ(bytes, wire::kit::two_beside());
}

struct Tampering {
    const char* name;
    std::function<void(Lines&)> with;
    const char* told;  ///< in a message
    Verdict::Is is = Verdict::Is::changed;
};

std::size_t place_of(const Lines& lines, const std::string& words) {
    const auto found = std::find_if(lines.begin(), lines.end(), [&](const std::string& line) {
        return line.find(words) != std::string::npos;
    });
    EXPECT_NE(found, lines.end()) << words;
    return static_cast<std::size_t>(found - lines.begin());
}

constexpr const char* fourth =
    "{\"branch\":1,\"of\":\"07070707-0707-0707-0707-070707070707\","
    "\"entry\":4,";
constexpr const char* fifth =
    "{\"branch\":1,\"of\":\"07070707-0707-0707-0707-070707070707\","
    "\"entry\":5,";

void change(Lines& lines, const char* which, const std::function<void(BranchLine&)>& how) {
    std::string& line = lines[place_of(lines, which)];
    BranchLine read = std::get<BranchLine>(std::get<Line>(read_line(line, 1)));
    how(read);
    line = written(read);
}

/// The same entry with other words of itself, and the hash that fits.
void rewrite(BranchLine& line, const std::function<void(v1::Entry&)>& how) {
    v1::Entry entry;
    ASSERT_TRUE(entry.ParseFromString(line.bytes));
    how(entry);
    line.bytes = entry.SerializeAsString();
    line.hash = wire::sha256(line.bytes);
}

const Tampering tamperings[] = {
    {"Bytes",
     [](Lines& lines) { change(lines, fourth, [](BranchLine& line) { line.bytes.back() ^= 1; }); },
     "entry 4 on branch 1 of match 07070707-0707-0707-0707-070707070707 was changed"},
    {"BytesWithTheirHash",
     [](Lines& lines) {
         change(lines, fifth, [](BranchLine& line) {
             rewrite(line, [](v1::Entry& entry) { entry.set_device_time_us(1); });
         });
     },
     "the entries on branches of the record of match 07070707-0707-0707-0707-070707070707 are "
     "others, or in another order"},
    {"AnotherDevice",
     [](Lines& lines) {
         change(lines, fifth, [](BranchLine& line) {
             rewrite(line,
                     [](v1::Entry& entry) { entry.set_device_id(wire::kit::id(5).to_bytes()); });
         });
     },
     "is of another device or epoch than its branch"},
    {"AnotherMatch",
     [](Lines& lines) {
         change(lines, fifth, [](BranchLine& line) {
             rewrite(line,
                     [](v1::Entry& entry) { entry.set_match_id(wire::kit::id(5).to_bytes()); });
         });
     },
     "belongs to another record, 05050505-0505-0505-0505-050505050505"},
    {"AnotherNumber",
     [](Lines& lines) { change(lines, fifth, [](BranchLine& line) { line.number = 9; }); },
     "entry 9 on branch 1 of match 07070707-0707-0707-0707-070707070707 says of itself that it is "
     "entry 5"},
    {"OneMissing",
     [](Lines& lines) {
         lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(place_of(lines, fifth)));
     },
     "1 entries lie on branches of the record of match 07070707-0707-0707-0707-070707070707 here, "
     "and there were 2"},
    {"AnotherOrder",
     [](Lines& lines) { std::swap(lines[place_of(lines, fourth)], lines[place_of(lines, fifth)]); },
     "are others, or in another order"},
    {"OneTwice",
     [](Lines& lines) {
         const std::size_t place = place_of(lines, fifth);
         const std::string line = lines[place];
         lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(place), line);
     },
     "is there twice, in the record or on a branch"},
    {"AnEntryOfTheRecord",
     [](Lines& lines) {
         change(lines, fourth, [](BranchLine& line) {
             line.bytes = wire::kit::five_entries()[3];
             line.hash = wire::sha256(line.bytes);
         });
     },
     "is there twice, in the record or on a branch"},
    {"BehindAnotherMatch",
     [](Lines& lines) {
         change(lines, fourth, [](BranchLine& line) { line.match = wire::kit::id(5); });
     },
     "does not stand behind its match"},
    {"NoBranch",
     [](Lines& lines) { change(lines, fourth, [](BranchLine& line) { line.branch = 0; }); },
     "\"branch\" must be a number from 1", Verdict::Is::unreadable},
};

class TamperedBranch : public ::testing::TestWithParam<Tampering> {};

TEST_P(TamperedBranch, IsFoundAndNamed) {
    Lines lines = kit::lines_of(kit::forked_file());
    GetParam().with(lines);
    kit::expect_told(lines, GetParam().is, GetParam().told);
}

INSTANTIATE_TEST_SUITE_P(Each, TamperedBranch, ::testing::ValuesIn(tamperings),
                         [](const auto& tampering) { return std::string{tampering.param.name}; });

/// No byte of the file can be another one without being told.
TEST(Branches, EveryChangedByteIsFound) {
    const std::string file = kit::forked_file();
    const std::size_t from = file.find("{\"branch\":1");
    for (std::size_t i = from; i < file.size(); i += 3) {
        std::string changed = file;
        changed[i] = static_cast<char>(changed[i] ^ 1);
        EXPECT_NE(kit::verdict_of(changed).is, Verdict::Is::whole) << i;
    }
}

}  // namespace
}  // namespace courthand::event_file
