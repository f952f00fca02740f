// A server that stands still without closing anything: the watches of a table and of a head seat
// have nothing to send and must notice all the same.
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <optional>
#include <thread>

#include "client/enrol/device_folder.h"
#include "client/sync/channel.h"
#include "tests/integration/client/venue_kit.h"
#include "venue/board_client.h"

namespace courthand::client {
namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

/// What is asked of an idle watch.
constexpr std::chrono::seconds noticed_within{15};

/// A process that stands still until the end of this.
class StandStill {
  public:
    explicit StandStill(pid_t pid) : pid_{pid} { ::kill(pid_, SIGSTOP); }
    StandStill(const StandStill&) = delete;
    StandStill& operator=(const StandStill&) = delete;
    ~StandStill() { ::kill(pid_, SIGCONT); }

  private:
    pid_t pid_;
};

TEST(Liveness, IdleWatchesNoticeADeadServerAndComeBack) {
    Venue venue;
    const auto table_folder = venue.enrol_table("table-1", 1);
    const auto keys = std::get<Credentials>(load_credentials(venue.enrol_seat("head", "head")));
    const auto table = open_table(table_folder);
    std::string match_id;
    ASSERT_TRUE(eventually([&] { return !(match_id = table->next_match()).empty(); }));
    std::atomic<venue::LinkState> board{venue::LinkState::connecting};
    venue::BoardClient head{make_channel(venue.host().address(), keys), "Head official"};
    head.start({[](const venue::Board&) {}, [&](const venue::Link& link) { board = link.state; }});
    const auto table_online = [&] {
        return table->status(match_id).link == SyncStatus::Link::online;
    };
    const auto board_live = [&] { return board == venue::LinkState::live; };
    ASSERT_TRUE(eventually([&] { return table_online() && board_live(); }));
    std::optional<Clock::duration> table_noticed;
    std::optional<Clock::duration> board_noticed;
    {
        const StandStill stopped{venue.host().pid()};
        const auto since = Clock::now();
        while (!(table_noticed && board_noticed) && Clock::now() - since < noticed_within + 5s) {
            if (!table_noticed && !table_online()) table_noticed = Clock::now() - since;
            if (!board_noticed && !board_live()) board_noticed = Clock::now() - since;
            std::this_thread::sleep_for(20ms);
        }
    }
    ASSERT_TRUE(table_noticed) << "the table still says that it is connected";
    ASSERT_TRUE(board_noticed) << "the head seat still says that it is connected";
    EXPECT_LE(*table_noticed, noticed_within);
    EXPECT_LE(*board_noticed, noticed_within);
    EXPECT_TRUE(eventually([&] { return table_online() && board_live(); })) << "both come back";
    head.stop();
}

}  // namespace
}  // namespace courthand::client
