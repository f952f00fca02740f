#include "tests/bench/backlog.h"

#include <grpcpp/grpcpp.h>

#include <algorithm>
#include <chrono>
#include <mutex>
#include <stdexcept>

#include "client/sync/back_off.h"
#include "courthand/v1/sync.grpc.pb.h"
#include "tests/bench/secure_channel.h"
#include "tests/bench/stop_asked.h"
#include "tests/bench/timetable.h"

namespace courthand::bench {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::chrono::hours longest_drain{1};
constexpr std::chrono::seconds connects_within{30};
constexpr std::chrono::seconds call_lasts{60};

/// One table. Its pushes follow each other, each begun by the answer of the one before.
class Drainer {
  public:
    Drainer(const std::string& address, const BacklogTable& table, Timetable& timetable,
            std::uint64_t seed)
        : table_{table},
          timetable_{timetable},
          channel_{secure_channel(address, table.device)},
          stub_{v1::Sync::NewStub(channel_)},
          back_off_{client::BackOff::Bounds{}, seed} {}

    [[nodiscard]] bool connect() {
        return channel_->WaitForConnected(std::chrono::system_clock::now() + connects_within);
    }
    void start() {
        const std::scoped_lock lock{mutex_};
        take_next();
    }
    /// Ends the push under way and begins no other.
    void stop() {
        const std::scoped_lock lock{mutex_};
        stopping_ = true;
        if (call_) call_->context.TryCancel();
    }
    [[nodiscard]] bool idle() const {
        const std::scoped_lock lock{mutex_};
        return call_ == nullptr && (stopping_ || done_ || !error_.empty());
    }
    [[nodiscard]] std::string error() const {
        const std::scoped_lock lock{mutex_};
        return error_;
    }
    [[nodiscard]] Drained drained() const {
        const std::scoped_lock lock{mutex_};
        return drained_;
    }
    [[nodiscard]] Clock::time_point ended_at() const {
        const std::scoped_lock lock{mutex_};
        return ended_at_;
    }

  private:
    struct Call {
        grpc::ClientContext context;
        v1::PushResponse response;
    };

    // All need the lock.
    void take_next() {
        auto next = table_.next();
        if (!next) {
            done_ = true;
            ended_at_ = Clock::now();
            return;
        }
        request_ = std::move(*next);
        push();
    }
    void push() {
        if (stopping_) return;
        call_ = std::make_shared<Call>();
        prepare(call_->context);
        call_->context.set_deadline(std::chrono::system_clock::now() + call_lasts);
        stub_->async()->Push(&call_->context, &request_, &call_->response,
                             [this, call = call_](const grpc::Status& status) {
                                 const std::scoped_lock lock{mutex_};
                                 call_ = nullptr;
                                 pushed(status, call->response);
                             });
    }
    void pushed(const grpc::Status& status, const v1::PushResponse& response) {
        if (status.error_code() == grpc::StatusCode::RESOURCE_EXHAUSTED) {
            ++drained_.turned_away;
            timetable_.after(back_off_.next(), [this] {
                const std::scoped_lock lock{mutex_};
                push();
            });
            return;
        }
        back_off_.reset();
        if (!status.ok()) {
            error_ = "a push failed: " + status.error_message();
            return;
        }
        for (const v1::PushResult& result : response.results()) {
            if (result.outcome() == v1::PushResult::OUTCOME_APPENDED) continue;
            error_ = "an entry was answered " + v1::PushResult::Outcome_Name(result.outcome()) +
                     ": " + result.message();
            return;
        }
        drained_.entries += static_cast<std::uint64_t>(response.results_size());
        take_next();
    }

    const BacklogTable& table_;
    Timetable& timetable_;
    std::shared_ptr<grpc::Channel> channel_;
    std::unique_ptr<v1::Sync::Stub> stub_;
    mutable std::mutex mutex_;
    client::BackOff back_off_;
    v1::PushRequest request_;
    std::shared_ptr<Call> call_;
    Drained drained_;
    std::string error_;
    Clock::time_point ended_at_;
    bool done_ = false;
    bool stopping_ = false;
};

/// All of them, ended in order whatever happens.
class Drainers {
  public:
    Drainers(const std::string& address, const std::vector<BacklogTable>& tables) {
        for (const BacklogTable& table : tables)
            all_.push_back(std::make_unique<Drainer>(address, table, timetable_, all_.size() + 1));
        for (const auto& drainer : all_)
            if (!drainer->connect()) throw std::runtime_error{"a table could not connect"};
    }
    ~Drainers() {
        timetable_.stop();
        for (const auto& drainer : all_) drainer->stop();
        for (const auto& drainer : all_)
            while (!drainer->idle()) std::this_thread::sleep_for(std::chrono::milliseconds{1});
    }
    Drainers(const Drainers&) = delete;
    Drainers& operator=(const Drainers&) = delete;

    Drained run() {
        const auto began = Clock::now();
        for (const auto& drainer : all_) drainer->start();
        for (const auto& drainer : all_)
            if (!wait_until(began + longest_drain, [&] { return drainer->idle(); }))
                throw std::runtime_error{"the backlog was not drained within an hour"};
        Drained sum;
        for (const auto& drainer : all_) {
            if (const std::string error = drainer->error(); !error.empty())
                throw std::runtime_error{error};
            sum.seconds = std::max(
                sum.seconds, std::chrono::duration<double>(drainer->ended_at() - began).count());
            sum.entries += drainer->drained().entries;
            sum.turned_away += drainer->drained().turned_away;
        }
        return sum;
    }

  private:
    Timetable timetable_;
    std::vector<std::unique_ptr<Drainer>> all_;
};

}  // namespace

Drained drain(const std::string& address, const std::vector<BacklogTable>& tables) {
    Drainers drainers{address, tables};
    return drainers.run();
}

}  // namespace courthand::bench
