// Rows of matches that are kept from telling to telling are those of the book as it stands.
#include <gtest/gtest.h>

#include <functional>

#include "harbour_cup.h"
#include "match_rows.h"

namespace courthand::tests {
namespace {

using seats::MatchRows;
using venue::Board;
using venue::DeskBook;

struct Telling {
    const char* what;
    std::function<void(DeskBook&, Board&)> change;
};

TEST(MatchRows, FollowEveryTelling) {
    const std::vector<Telling> tellings{
        {"a point", [](auto& book, auto&) { book.results.at(0).set_scores.back().a += 1; }},
        {"a court", [](auto& book, auto&) { book.matches.at(0).court += 1; }},
        {"a colour", [](auto& book, auto&) { book.matches.at(1).first_colour = {0x123456}; }},
        {"a line-up",
         [](auto&, auto& board) {
             auto& teams = board.courts.at(0).teams;
             teams.a.line_up_checked = !teams.a.line_up_checked;
         }},
        {"a match less", [](auto& book, auto&) { book.matches.erase(book.matches.begin()); }},
        {"another order",
         [](auto& book, auto&) { std::swap(book.matches.front(), book.matches.back()); }},
        {"no result", [](auto& book, auto&) { book.results.clear(); }},
        {"no court", [](auto&, auto& board) { board.courts.clear(); }},
        {"no match", [](auto& book, auto&) { book.matches.clear(); }},
    };
    DeskBook book = harbour_cup_book();
    Board board = harbour_cup_board();
    const venue::MatchNames names;
    MatchRows kept;
    auto before = kept.of(book, board, names);
    for (const Telling& telling : tellings) {
        telling.change(book, board);
        const auto rows = kept.of(book, board, names);
        EXPECT_EQ(rows, MatchRows{}.of(book, board, names)) << telling.what;
        EXPECT_NE(rows, before) << telling.what;
        before = rows;
    }
}

}  // namespace
}  // namespace courthand::tests
