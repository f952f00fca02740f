#include "server/venue/board_pieces.h"

#include <utility>

namespace courthand::server::venue {

namespace {

// Header, cursor, flags, and tag and length of each part.
constexpr std::size_t frame_bytes = 512;
constexpr std::size_t part_frame_bytes = 8;

class Pieces {
  public:
    Pieces(bool snapshot, std::size_t most_bytes) : most_bytes_{most_bytes} {
        pieces_.emplace_back().set_snapshot(snapshot);
    }

    /// The piece that has room for a part of this size.
    v1::WatchBoardResponse& for_part(std::size_t bytes) {
        if (filled_ && used_ + bytes + part_frame_bytes > most_bytes_) {
            pieces_.emplace_back();
            used_ = frame_bytes;
        }
        used_ += bytes + part_frame_bytes;
        filled_ = true;
        return pieces_.back();
    }
    std::deque<v1::WatchBoardResponse> finish(const PieceCursors& cursors) {
        for (v1::WatchBoardResponse& piece : pieces_) {
            const bool last = &piece == &pieces_.back();
            piece.set_more(!last);
            piece.set_cursor(last ? cursors.after : cursors.before);
        }
        return std::move(pieces_);
    }

  private:
    std::size_t most_bytes_;
    std::size_t used_ = frame_bytes;
    bool filled_ = false;
    std::deque<v1::WatchBoardResponse> pieces_;
};

}  // namespace

std::deque<v1::WatchBoardResponse> pieces_of(BoardNews news, const std::set<std::uint32_t>& courts,
                                             const PieceCursors& cursors, std::size_t most_bytes) {
    const auto wanted = [&](std::uint32_t court) {
        return courts.empty() || court == 0 || courts.contains(court);
    };
    Pieces pieces{news.snapshot, most_bytes};
    for (const std::uint32_t court : news.removed_courts)
        if (wanted(court)) pieces.for_part(sizeof court).add_removed_courts(court);
    for (v1::CourtCard& card : news.cards)
        if (wanted(card.court()))
            *pieces.for_part(card.ByteSizeLong()).add_cards() = std::move(card);
    for (v1::Alert& alert : news.alerts)
        if (wanted(alert.court()))
            *pieces.for_part(alert.ByteSizeLong()).add_alerts() = std::move(alert);
    return pieces.finish(cursors);
}

}  // namespace courthand::server::venue
