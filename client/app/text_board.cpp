#include "client/app/text_board.h"

#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <mutex>
#include <optional>
#include <thread>

#include <fmt/format.h>

#include "client/app/enrolled_seat.h"
#include "client/app/stop_signal.h"
#include "venue/board_client.h"
#include "venue/board_text.h"

namespace courthand::client {
namespace {

using namespace std::chrono_literals;

/// What the network told last; written by its threads, read by the printing one.
class Latest {
  public:
    void take(const venue::Board& board) {
        const std::scoped_lock lock{mutex_};
        board_ = board;
        fresh_ = true;
    }
    void take(const venue::Link& link) {
        const std::scoped_lock lock{mutex_};
        link_ = link;
        fresh_ = true;
    }
    /// The text, when something was told since the last call.
    [[nodiscard]] std::optional<std::string> text() {
        const std::scoped_lock lock{mutex_};
        if (!fresh_) return std::nullopt;
        fresh_ = false;
        return venue::board_text(board_, link_);
    }

  private:
    std::mutex mutex_;
    venue::Board board_;
    venue::Link link_;
    bool fresh_ = false;
};

void print(const std::string& text) {
    // A terminal shows one board, a log shows all of them.
    if (isatty(STDOUT_FILENO) != 0) std::fputs("\033[H\033[2J", stdout);
    std::fputs(text.c_str(), stdout);
    std::fputs("\n", stdout);
    std::fflush(stdout);
}

}  // namespace

int run_text_board(const SeatOptions& options) {
    const auto seat = enrolled_seat(options);
    if (const auto* wrong = std::get_if<std::string>(&seat)) {
        fmt::print(stderr, "{}\n", *wrong);
        return exit_failed;
    }
    const auto& known = std::get<EnrolledSeat>(seat);
    venue::BoardClient client{open_channel(known), "Head official", board_options(known)};
    Latest latest;
    client.start({[&latest](const venue::Board& board) { latest.take(board); },
                  [&latest](const venue::Link& link) { latest.take(link); }});
    while (!stop_asked()) {
        if (const auto text = latest.text()) print(*text);
        for (int i = 0; i < 10 && !stop_asked(); ++i) std::this_thread::sleep_for(100ms);
    }
    client.stop();
    return exit_fine;
}

}  // namespace courthand::client
