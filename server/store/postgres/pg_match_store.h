// The store of matches in PostgreSQL. Thread-safe.
//
// The sequencer of a tournament is whoever holds its row: positions of the feed are given and
// committed in one order, whichever server appends. Other servers hear of it by NOTIFY, a little
// later and at most once for many commits.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>

#include "server/store/match_store.h"
#include "server/store/postgres/database.h"
#include "server/store/postgres/quick_append.h"

namespace courthand::server::postgres {

class FeedListener;
class FeedNotifier;

class PgMatchStore final : public MatchStore {
  public:
    /// `database` must outlive the store and must not have been used yet.
    explicit PgMatchStore(Database& database);
    ~PgMatchStore() override;

    Result<std::vector<Tournament>> tournaments() override;
    Result<Tournament> create_tournament(TournamentId id, const std::string& name) override;
    Result<MatchPlan> create_match(const MatchPlan& plan) override;
    Result<MatchPlan> change_match(const MatchPlan& plan) override;
    Result<MatchPlan> change_unbegun(const MatchPlan& plan) override;
    Result<std::vector<StoredMatch>> matches(TournamentId tournament) override;
    Result<StoredMatch> match(MatchKey key) override;
    Result<MatchHead> grant_writer(const GrantWish& wish) override;
    Status renew_generation(TournamentId tournament) override;
    Result<StoredMatch> ask_take_over(MatchKey key, DeviceId device) override;
    Result<MatchHead> answer_take_over(MatchKey key, DeviceId device, bool consent,
                                       const std::string& reason) override;
    Result<std::vector<StoredEntry>> read_record(MatchKey key, EntryNumber after,
                                                 std::size_t most) override;
    Result<TournamentView> view(TournamentId tournament) override;
    Result<std::vector<MatchSnapshot>> snapshots(TournamentId tournament) override;
    Status keep_snapshot(TournamentId tournament, const MatchSnapshot& snapshot) override;
    Result<std::vector<AppendResult>> append(TournamentId tournament,
                                             std::span<const AppendItem> items) override;
    Result<FeedPage> read_feed(const FeedQuery& query) override;
    Result<FeedPosition> publish(TournamentId tournament, const FeedNotice& notice) override;
    /// Starts listening to the other servers on a thread and a connection of its own; an empty
    /// listener ends it.
    void set_listener(Listener listener) override;
    /// Called for what this store commits; another store of the program listens to the others.
    void set_own_listener(Listener listener);
    /// Something was committed here, by this store or another: tells the listener and the other
    /// servers. Does not block.
    void tell(TournamentId tournament);

  private:
    /// In one statement when the heads are known; nothing when the transaction must decide.
    /// `doubt`: the statement may be kept all the same.
    std::optional<Result<std::vector<AppendResult>>> append_quickly(
        TournamentId tournament, std::span<const AppendItem> items, bool& doubt);
    Result<std::vector<AppendResult>> append_with_care(TournamentId tournament,
                                                       std::span<const AppendItem> items);
    Result<MatchPlan> change(const MatchPlan& plan, const char* statement);
    /// Something was committed, here or elsewhere.
    void hear(TournamentId tournament);

    Database& database_;
    std::mutex append_mutex_;
    std::map<TournamentId, HeadCache> known_heads_;
    std::mutex listener_mutex_;
    Listener listener_;
    std::unique_ptr<FeedListener> feed_listener_;
    std::unique_ptr<FeedNotifier> feed_notifier_;
};

/// For other stores that add to the feed in a transaction of their own: take the sequencer's row
/// early, commit soon after.
[[nodiscard]] FeedPosition lock_sequencer(pqxx::work& work, TournamentId tournament);
/// Adds one item at the next position; needs the sequencer's row.
FeedPosition add_feed_item(pqxx::work& work, TournamentId tournament, FeedPosition head,
                           const FeedNotice& notice);

}  // namespace courthand::server::postgres
