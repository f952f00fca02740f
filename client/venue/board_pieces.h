// A large snapshot or change of the board comes in pieces; they are shown together.
#pragma once

#include <cstddef>
#include <optional>

#include "courthand/v1/venue.pb.h"

namespace courthand::venue {

class BoardPieces {
  public:
    /// All pieces together: more than a board of 1,000 courts with 20,000 alerts has. A server that
    /// sends more is not believed.
    static constexpr std::size_t most_bytes = 128U * 1024U * 1024U;

    explicit BoardPieces(std::size_t most = most_bytes) : most_{most} {}

    /// Takes the next piece; false when there is too much: begin anew.
    [[nodiscard]] bool add(v1::WatchBoardResponse piece);
    /// Everything, once the last piece is there.
    [[nodiscard]] std::optional<v1::WatchBoardResponse> take();

  private:
    std::size_t most_;
    std::size_t bytes_ = 0;
    bool whole_ = false;
    v1::WatchBoardResponse joined_;
};

}  // namespace courthand::venue
