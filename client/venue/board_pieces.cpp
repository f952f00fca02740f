#include "venue/board_pieces.h"

#include <utility>

namespace courthand::venue {

bool BoardPieces::add(v1::WatchBoardResponse piece) {
    bytes_ += piece.ByteSizeLong();
    if (bytes_ > most_) return false;
    whole_ = !piece.more();
    if (bytes_ == piece.ByteSizeLong())
        joined_ = std::move(piece);
    else
        joined_.MergeFrom(piece);
    return true;
}

std::optional<v1::WatchBoardResponse> BoardPieces::take() {
    if (!whole_) return std::nullopt;
    whole_ = false;
    bytes_ = 0;
    return std::exchange(joined_, {});
}

}  // namespace courthand::venue
