// The Harbour Cup: an invented tournament with invented clubs and numbers, for tests and pictures.
#pragma once

#include "venue/board.h"
#include "venue/desk_book.h"
#include "venue/fork.h"

namespace courthand::tests {

/// 2026-05-16 14:05 at the venue, as the server's clock.
[[nodiscard]] venue::Moment harbour_cup_time();

/// Four courts, four alerts: one critical, one high, two medium.
[[nodiscard]] venue::Board harbour_cup_board();
/// The same day with twelve courts.
[[nodiscard]] venue::Board harbour_cup_hall();

/// So many courts, up to 32, all in play or before a set, with clubs whose names take 30
/// characters, every alert of the four courts, and one silent table.
[[nodiscard]] venue::Board harbour_cup_crowd(int courts);

[[nodiscard]] venue::DeskBook harbour_cup_book();

/// The board with one more alert, "a7": two tablets have written the match of court 1.
[[nodiscard]] venue::Board harbour_cup_forked();
/// Both records of it.
[[nodiscard]] venue::Fork harbour_cup_fork();

}  // namespace courthand::tests
