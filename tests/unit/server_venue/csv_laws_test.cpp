// What holds for every table and every text: what is written is read back, no cell computes, and no
// text breaks the reader.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "server/desk/csv.h"
#include "server/desk/csv_writer.h"
#include "server/desk/roster_file.h"

namespace courthand::server::desk {
namespace {

using Table = std::vector<std::vector<std::string>>;

class Draw {
  public:
    explicit Draw(unsigned seed) : random_{seed} {}
    std::size_t below(std::size_t limit) { return random_() % limit; }
    std::string text(std::string_view letters, std::size_t most) {
        std::string out;
        for (std::size_t n = below(most + 1); n > 0; --n) out += letters[below(letters.size())];
        return out;
    }
    Table table() {
        Table out(1 + below(6));
        const std::size_t columns = 1 + below(6);
        for (auto& row : out)
            for (std::size_t c = 0; c < columns; ++c)
                row.push_back(text("ab \"',;\t\r\n=+-@9\xC3", 8));
        return out;
    }

  private:
    std::mt19937 random_;
};

bool blank(const std::vector<std::string>& row) {
    return std::all_of(row.begin(), row.end(),
                       [](const std::string& cell) { return cell.empty(); });
}

TEST(CsvLaws, WhatIsWrittenIsReadBack) {
    Draw draw{20261128};
    for (int round = 0; round < 20'000; ++round) {
        Table table = draw.table();
        // A first row of more semicolons than commas would be taken for another kind of file; the
        // writer has titles of ours there.
        for (std::string& cell : table.front()) cell = "title";
        CsvWriter out;
        for (const auto& row : table) {
            for (const std::string& cell : row) out.text(cell);
            out.end_row();
        }
        const auto read = read_csv(out.bytes());
        const auto* rows = std::get_if<std::vector<CsvRow>>(&read);
        ASSERT_NE(rows, nullptr) << std::get<CsvError>(read).message << "\n" << out.bytes();
        std::erase_if(table, blank);
        ASSERT_EQ(rows->size(), table.size()) << out.bytes();
        for (std::size_t r = 0; r < table.size(); ++r) {
            ASSERT_EQ((*rows)[r].cells.size(), table[r].size()) << out.bytes();
            for (std::size_t c = 0; c < table[r].size(); ++c)
                ASSERT_EQ(unguarded((*rows)[r].cells[c]), table[r][c]) << out.bytes();
        }
    }
}

TEST(CsvLaws, NoCellIsTakenForAFormula) {
    Draw draw{7};
    for (int round = 0; round < 20'000; ++round) {
        const std::string text = draw.text("=+-@\t\r'a\"", 5);
        const std::string cell = guarded(text);
        EXPECT_EQ(unguarded(cell), text);
        EXPECT_TRUE(cell.empty() ||
                    std::string_view{"=+-@\t\r"}.find(cell.front()) == std::string_view::npos)
            << cell;
    }
}

/// Rows or an error that names a line of the file, whatever the text is.
TEST(CsvLaws, AnyTextIsReadOrRefusedAtALineOfIt) {
    Draw draw{1895};
    for (int round = 0; round < 50'000; ++round) {
        const std::string text =
            draw.text(std::string_view{"a,;\t\"\r\n \xEF\xBB\xBF\xFF\0=", 15}, 60);
        const auto breaks = static_cast<std::size_t>(
            std::count_if(text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r'; }));
        const auto read = read_csv(text);
        if (const auto* error = std::get_if<CsvError>(&read)) {
            EXPECT_GE(error->line, 1U);
            EXPECT_LE(error->line, breaks + 1);
            EXPECT_FALSE(error->cure.empty());
        } else {
            std::uint32_t before = 0;
            for (const CsvRow& row : std::get<std::vector<CsvRow>>(read)) {
                EXPECT_GT(row.line, before);
                EXPECT_LE(row.line, breaks + 1);
                before = row.line;
            }
        }
        for (const RosterError& error : read_roster_file(text).errors) {
            EXPECT_LE(error.line, breaks + 1);
            EXPECT_FALSE(error.cure.empty()) << error.message;
        }
    }
}

/// A table of players in which one byte is another: never more teams than rows, never both a fault
/// and silence.
TEST(CsvLaws, AChangedByteOfAListIsReadOrTold) {
    const std::string list =
        "team,number,name,captain,libero,club,colour,role,division\n"
        "Tern Bay,4,\"Kim, of the bay\",yes,,Tern Bay,1f3a5f,player,U16\n"
        "Tern Bay,7,,,yes,Tern Bay,1f3a5f,,U16\n"
        "Tern Bay,,Robin,,,Tern Bay,,coach,U16\n"
        ",,Alex,,,,,official,\n";
    ASSERT_TRUE(read_roster_file(list).errors.empty());
    for (std::size_t i = 0; i < list.size(); ++i)
        for (const char other : {'\0', '"', ',', ';', '\n', '\r', 'x', '9', '\xE9'}) {
            std::string changed = list;
            changed[i] = other;
            const RosterFile file = read_roster_file(changed);
            EXPECT_LE(file.teams.size(), 6U);
            for (const RosterError& error : file.errors) EXPECT_LE(error.line, 6U);
        }
}

}  // namespace
}  // namespace courthand::server::desk
