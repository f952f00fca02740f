// News of the board cut into messages that every receiver can take.
#pragma once

#include <cstdint>
#include <deque>
#include <set>
#include <string>

#include "courthand/v1/venue.pb.h"
#include "server/venue/board.h"
#include "wire/answer_limit.h"

namespace courthand::server::venue {

/// Of one message, in bytes. A quarter of what a device takes leaves room for a header and keeps
/// one watcher from holding up the others on a thin line.
inline constexpr std::size_t most_piece_bytes = wire::most_answer_bytes / 4;

/// Cursors for the pieces: those before the last name what the watcher has already, so that one who
/// is cut off in between starts where he was.
struct PieceCursors {
    std::string before;  ///< empty: nothing yet
    std::string after;
};

/// At least one piece, each below `most_bytes` unless one card or alert is larger by itself. Only
/// `courts` and what belongs to no court; no courts named: all. All but the last say `more`.
[[nodiscard]] std::deque<v1::WatchBoardResponse> pieces_of(
    BoardNews news, const std::set<std::uint32_t>& courts, const PieceCursors& cursors,
    std::size_t most_bytes = most_piece_bytes);

}  // namespace courthand::server::venue
