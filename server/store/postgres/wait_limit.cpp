#include "server/store/postgres/wait_limit.h"

#include <sys/socket.h>

#include <algorithm>
#include <exception>
#include <utility>

namespace courthand::server::postgres {
namespace {

/// On a thread of its own, which nobody waits for: a server that stands still does not answer this
/// either. There are never more of them than there were connections.
void ask_to_give_up(WaitLimit::Connection connection) {
    try {
        std::thread{[connection = std::move(connection)] {
            try {
                connection->cancel_query();
            } catch (const std::exception&) {
                // It cannot be asked: the connection is cut a little later.
            }
        }}.detach();
    } catch (const std::exception&) {
        // Nor is there a thread to be had.
    }
}

}  // namespace

WaitLimit::~WaitLimit() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    if (thread_.joinable()) thread_.join();
}

void WaitLimit::Watch::begin(Connection connection) {
    bool sleeps = false;
    {
        const std::scoped_lock lock{limit_.mutex_};
        if (!limit_.thread_.joinable())
            limit_.thread_ = limit_.start_([&limit = limit_] { limit.run(); });
        const auto until = std::chrono::steady_clock::now() + limit_.limit_;
        wait_ = limit_.waits_.insert(limit_.waits_.end(), {std::move(connection), until});
        begun_ = true;
        sleeps = std::exchange(limit_.sleeps_, false);
    }
    if (sleeps) limit_.wake_.notify_one();
}

bool WaitLimit::Watch::end() {
    if (!std::exchange(begun_, false)) return ended_by_limit_;
    const std::scoped_lock lock{limit_.mutex_};
    ended_by_limit_ = wait_->step != Step::waits;
    limit_.waits_.erase(wait_);
    return ended_by_limit_;
}

// A wait that begins later ends later: while it looks by itself, nobody need wake it.
void WaitLimit::run() {
    std::unique_lock lock{mutex_};
    while (!stop_) {
        if (waits_.empty()) {
            sleeps_ = true;
            wake_.wait(lock, [this] { return stop_ || !sleeps_; });
            continue;
        }
        const auto next = std::min_element(
            waits_.begin(), waits_.end(),
            [](const Wait& one, const Wait& other) { return one.until < other.until; });
        const auto now = std::chrono::steady_clock::now();
        // A copy: the wait may be over and gone meanwhile.
        const Steady until = std::min(next->until, now + limit_);
        if (next->until <= now)
            act_on(*next, now);
        else
            wake_.wait_until(lock, until, [this] { return stop_; });
    }
}

/// Needs the lock: with it, the connection of a wait is not closed.
void WaitLimit::act_on(Wait& wait, Steady now) {
    if (wait.step == Step::waits) {
        wait.step = Step::asked;
        wait.until = now + gives_up_within;
        ask_to_give_up(wait.connection);
        return;
    }
    wait.step = Step::cut;
    wait.until = Steady::max();
    (void)::shutdown(wait.connection->sock(), SHUT_RDWR);
}

}  // namespace courthand::server::postgres
