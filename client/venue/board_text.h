// The board as lines of plain text, for a terminal without a display.
#pragma once

#include <string>

#include "venue/board.h"
#include "venue/link.h"

namespace courthand::venue {

/// One line for each court and each alert, the alerts worst and oldest first. Ends with a newline.
[[nodiscard]] std::string board_text(const Board& board, const Link& link);

}  // namespace courthand::venue
