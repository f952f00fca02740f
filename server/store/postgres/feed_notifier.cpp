#include "server/store/postgres/feed_notifier.h"

#include "server/store/postgres/feed_listener.h"

namespace courthand::server::postgres {

FeedNotifier::FeedNotifier(Database& database) : database_{database}, thread_{[this] { run(); }} {}

FeedNotifier::~FeedNotifier() {
    {
        const std::scoped_lock lock{mutex_};
        stop_ = true;
    }
    wake_.notify_all();
    thread_.join();
}

void FeedNotifier::announce(TournamentId tournament) {
    {
        const std::scoped_lock lock{mutex_};
        grown_.insert(tournament);
    }
    wake_.notify_one();
}

void FeedNotifier::run() {
    std::unique_lock lock{mutex_};
    while (true) {
        wake_.wait(lock, [this] { return stop_ || !grown_.empty(); });
        if (stop_) return;
        std::set<TournamentId> grown;
        grown.swap(grown_);
        lock.unlock();
        tell(grown);
        lock.lock();
        if (wake_.wait_for(lock, tells_every, [this] { return stop_; })) return;
    }
}

void FeedNotifier::tell(const std::set<TournamentId>& grown) {
    try {
        if (!connection_) {
            connection_ = database_.open().connection;
            if (!connection_) return;
            // What is lost in a crash was of no use any more.
            pqxx::nontransaction{*connection_}.exec("set synchronous_commit = off");
        }
        for (const TournamentId& tournament : grown)
            pqxx::nontransaction{*connection_}.exec("select pg_notify('" +
                                                    std::string{feed_channel} + "', '" +
                                                    to_text(tournament) + "')");
    } catch (...) {
        // The reason does not matter: the others look by themselves, and the next word gets a new
        // connection.
        (void)status_of_current_exception("notifying");
        connection_.reset();
    }
}

}  // namespace courthand::server::postgres
