// The twin of the PostgreSQL store: same answers, nothing durable. Thread-safe.
#pragma once

#include <functional>
#include <map>
#include <mutex>
#include <unordered_map>
#include <vector>

#include "server/store/append_plan.h"
#include "server/store/match_store.h"

namespace courthand::server {

class MemoryMatchStore : public MatchStore {
  public:
    Result<std::vector<Tournament>> tournaments() override;
    Result<Tournament> create_tournament(TournamentId id, const std::string& name) override;
    Result<MatchPlan> create_match(const MatchPlan& plan) override;
    Result<MatchPlan> change_match(const MatchPlan& plan) override;
    Result<MatchPlan> change_unbegun(const MatchPlan& plan) override;
    Result<std::vector<StoredMatch>> matches(TournamentId tournament) override;
    Result<StoredMatch> match(MatchKey key) override;
    Result<MatchHead> grant_writer(const GrantWish& wish) override;
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
    void set_listener(Listener listener) override;
    /// Called for each epoch that begins with an entry, after it is kept and on its thread: here no
    /// audit stands in the same transaction.
    using ClaimListener = std::function<void(const EpochClaim&)>;
    void set_claim_listener(ClaimListener listener);

    /// As a database that was put back from a backup, or a standby that took over.
    Status renew_generation(TournamentId tournament) override;
    /// From now on every call fails with this status; an ok status ends it.
    void fail_with(Status status);
    /// As if the database had been put back to this position of the feed. `generation` is what it
    /// is called afterwards: the same when nobody noticed.
    void put_back(TournamentId tournament, FeedPosition position, Uuid generation);
    /// As if the row of this item were damaged and gone.
    void lose(TournamentId tournament, FeedPosition position);
    /// An entry of this id and hash stands in a record.
    [[nodiscard]] bool recorded(TournamentId tournament, EntryId id, const Hash& hash) const;
    /// Calls of `append` so far: how well pushes were grouped.
    [[nodiscard]] std::size_t appends() const;

  private:
    struct Shelf {
        Tournament tournament;
        std::map<MatchId, StoredMatch> matches;
        std::map<MatchId, Uuid> moved_in;  ///< generation in which the head was last moved
        std::map<MatchId, BranchCount> counts;
        std::map<EntryId, BranchEntry> beside;
        std::vector<Promotion> promoted;  ///< the trace of what was moved into a record
        std::vector<FeedItem> feed;       ///< by position
        std::unordered_map<EntryId, KnownEntry> known;
        std::map<MatchId, MatchSnapshot> snapshots;
    };

    Result<Shelf*> shelf_of(TournamentId tournament);
    Result<MatchPlan> change(const MatchPlan& plan, bool begun_too);
    static Result<StoredMatch*> match_of(Shelf& shelf, MatchId match);
    static StoredMatch with_branches(const Shelf& shelf, StoredMatch match);
    /// As far as the items name it.
    static AppendContext context_of(const Shelf& shelf, std::span<const AppendItem> items);
    /// After the feed has lost items.
    static void index(Shelf& shelf);
    static void keep(Shelf& shelf, const AppendPlan& plan, std::span<const AppendItem> items);
    static void promote(Shelf& shelf, const Promotion& promotion);
    static void describe(Shelf& shelf, MatchId match);
    static void describe(Shelf& shelf, MatchId match, FeedPosition position);
    void tell(TournamentId tournament);
    void tell_claims(const std::vector<EpochClaim>& claims);

    mutable std::mutex mutex_;
    Status failure_;
    std::size_t appends_ = 0;
    std::map<TournamentId, Shelf> shelves_;
    std::mutex listener_mutex_;
    Listener listener_;
    ClaimListener claim_listener_;
};

}  // namespace courthand::server
