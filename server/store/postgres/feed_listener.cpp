#include "server/store/postgres/feed_listener.h"

#include <chrono>

namespace courthand::server::postgres {
namespace {

/// How long the thread may take to notice that it shall end.
constexpr long wait_us = 200'000;
constexpr int pauses_before_retry = 3;

class Receiver final : public pqxx::notification_receiver {
  public:
    Receiver(pqxx::connection& connection, const std::function<void(TournamentId)>& heard)
        : pqxx::notification_receiver{connection, feed_channel}, heard_{heard} {}

    void operator()(const std::string& payload, int) override {
        if (const auto id = uuid_from_text(payload)) heard_(TournamentId{*id});
    }

  private:
    const std::function<void(TournamentId)>& heard_;
};

}  // namespace

FeedListener::FeedListener(Database& database, std::function<void(TournamentId)> heard)
    : database_{database}, heard_{std::move(heard)}, thread_{[this] { run(); }} {}

FeedListener::~FeedListener() {
    stop_ = true;
    thread_.join();
}

void FeedListener::run() {
    while (!stop_) {
        Database::Opened opened = database_.open();
        if (opened.connection) {
            try {
                listen_on(*opened.connection);
            } catch (...) {
                // The reason does not matter: a new connection is made, and all is read again.
                (void)status_of_current_exception("listening");
            }
        }
        if (!stop_) pause();
    }
}

void FeedListener::listen_on(pqxx::connection& connection) {
    const Receiver receiver{connection, heard_};
    heard_(TournamentId{});
    while (!stop_) connection.await_notification(0, wait_us);
}

void FeedListener::pause() {
    for (int i = 0; i < pauses_before_retry && !stop_; ++i)
        std::this_thread::sleep_for(std::chrono::microseconds{wait_us});
}

}  // namespace courthand::server::postgres
