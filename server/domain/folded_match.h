// One match with the fold that makes its state, entry by entry.
//
// Not thread-safe; the keeper of matches guards it.
#pragma once

#include <memory>
#include <vector>

#include "server/domain/match_observer.h"

namespace courthand::server {

/// An entry as it joins the record.
struct NewEntry {
    EntryNumber number = 0;
    Hash hash{};
    ServerTime stored_at{};
    std::shared_ptr<const std::string> bytes;
    SharedEntry read{};  ///< null: the bytes are read here
};

class FoldedMatch {
  public:
    /// With an empty record, whatever the head says: the entries follow.
    explicit FoldedMatch(const StoredMatch& match);
    /// From a snapshot: it rests.
    explicit FoldedMatch(LiveMatch live);
    ~FoldedMatch();
    FoldedMatch(FoldedMatch&&) noexcept;
    FoldedMatch& operator=(FoldedMatch&&) noexcept;

    [[nodiscard]] const LiveMatch& live() const noexcept { return live_; }

    /// Takes plan, writer and branches as the store has them now; the end of the record stays that
    /// of the fold. True when something a watcher sees has changed.
    bool describe(const StoredMatch& match);
    /// A branch has an entry.
    void add_branch(std::uint32_t branch);

    /// The record is in the store only; nothing can be appended.
    [[nodiscard]] bool rests() const noexcept { return fold_ == nullptr; }
    void rest();
    /// Goes on with the fold of another one, which was made from the record to the same entry.
    void go_on(FoldedMatch&& folded);

    /// The store has lost this entry: what follows cannot be folded, which is told with the match.
    void give_up_at(EntryNumber missing);
    /// Nothing more is folded, because this program is at fault; entries are kept as they come.
    void give_up_by_own_fault();
    [[nodiscard]] bool met_own_fault() const noexcept { return met_own_fault_; }

    struct Appended {
        bool threw = false;      ///< the fold; from this entry on nothing is folded
        bool corrected = false;  ///< earlier entries count differently now
        std::vector<RaisedVerdict> raised;
    };
    /// The next entry: its number must be that of the last one plus 1. The match must not rest.
    Appended append(const NewEntry& entry);

  private:
    struct Fold;
    [[nodiscard]] Appended fold_entry(const NewEntry& entry);
    void open_fold();
    void show_folded(EntryNumber last);
    [[nodiscard]] TeamWords words_in(EntryNumber entry) const;
    void note_counting(std::span<const Entry> entries);

    LiveMatch live_;
    bool met_own_fault_ = false;
    std::shared_ptr<Fold> fold_;
};

}  // namespace courthand::server
