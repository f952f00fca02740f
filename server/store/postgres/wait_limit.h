// Ends waits to which PostgreSQL itself sets no limit.
//
// A commit waits for the synchronous standby for as long as it takes, and neither statement_timeout
// nor a limit of the network ends that: the server is alive and the connection is good. Here the
// client does. First it asks the server to give up, as a person would: then the commit is kept by
// this server alone and reported as done, which is why its outcome must not be believed. When that
// does not help either, the connection is cut.
#pragma once

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <list>
#include <memory>
#include <mutex>
#include <pqxx/pqxx>
#include <thread>
#include <utility>

namespace courthand::server::postgres {

/// Thread-safe. It outlives its watches.
class WaitLimit {
  public:
    using Connection = std::shared_ptr<pqxx::connection>;
    /// A server that was asked to give up does so within milliseconds.
    static constexpr std::chrono::milliseconds gives_up_within{1000};

    /// How the thread is started that looks after the waits; it may throw std::system_error. Tests
    /// have one that does.
    using StartThread = std::function<std::thread(std::function<void()>)>;

    explicit WaitLimit(std::chrono::milliseconds limit, StartThread start = start_thread)
        : limit_{limit}, start_{std::move(start)} {}
    ~WaitLimit();
    WaitLimit(const WaitLimit&) = delete;
    WaitLimit& operator=(const WaitLimit&) = delete;

  private:
    using Steady = std::chrono::steady_clock::time_point;
    enum class Step : std::uint8_t { waits, asked, cut };
    struct Wait {
        Connection connection;
        Steady until{};  ///< of the step
        Step step = Step::waits;
    };
    using Waits = std::list<Wait>;

  public:
    /// One wait, by one thread.
    class Watch {
      public:
        explicit Watch(WaitLimit& limit) : limit_{limit} {}
        ~Watch() { (void)end(); }
        Watch(const Watch&) = delete;
        Watch& operator=(const Watch&) = delete;

        /// From here on the limit counts; once. Throws std::system_error when there is no thread to
        /// be had that would end the wait: then do not wait.
        void begin(Connection connection);
        /// The wait is over. True: the limit has ended it, and the connection must not be used any
        /// more, since the request to give up may still be on its way.
        [[nodiscard]] bool end();

      private:
        WaitLimit& limit_;
        Waits::iterator wait_{};
        bool begun_ = false;
        bool ended_by_limit_ = false;
    };

  private:
    static std::thread start_thread(std::function<void()> body) {
        return std::thread{std::move(body)};
    }
    void run();
    void act_on(Wait& wait, Steady now);

    const std::chrono::milliseconds limit_;
    const StartThread start_;
    std::mutex mutex_;
    std::condition_variable wake_;
    Waits waits_;
    bool sleeps_ = false;  ///< until somebody waits; otherwise it looks by itself
    bool stop_ = false;
    std::thread thread_;  ///< from the first wait on
};

}  // namespace courthand::server::postgres
