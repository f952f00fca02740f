// The append in one statement and one round trip, for pushes that merely go on with records whose
// heads this server knows: nearly all of them.
//
// What is known is only believed as far as the statement finds it true: it guards on generation,
// epoch, grant, writer, number and hash of every row it moves. When a guard misses, nothing of the
// statement stays, and the transaction of append_transaction.h decides and tells the heads anew.
#pragma once

#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

#include "server/store/postgres/append_transaction.h"

namespace courthand::server::postgres {

[[nodiscard]] Database::Statements quick_append_statements();

/// Heads of a tournament's matches as they were last seen. One thread at a time.
class HeadCache {
  public:
    /// Matches in play are far fewer; when it is full it begins anew.
    static constexpr std::size_t most_heads = 4096;

    struct Known {
        MatchHead head;
        bool entries_beside = false;  ///< something lies beside the record
    };

    /// Takes what a transaction saw. Another generation than before empties the cache first.
    void learn(const AppendOutcome& outcome);
    void forget() { heads_.clear(); }
    [[nodiscard]] const Known* find(MatchId match) const;
    void move(MatchId match, const MatchHead& head) { heads_.at(match).head = head; }
    [[nodiscard]] const Uuid& generation() const noexcept { return generation_; }

  private:
    Uuid generation_;
    std::unordered_map<MatchId, Known> heads_;
};

/// An append in which every item goes on with a known head.
struct QuickAppend {
    struct Moved {
        MatchId match;
        MatchHead before;
        MatchHead after;
        bool entries_beside = false;
    };
    Uuid generation;
    std::vector<Moved> matches;
    std::vector<std::size_t> which;  ///< for each item, its place in `matches`
    std::vector<MatchHead> heads;    ///< for each item, the head after it
};

/// Nothing when an item needs the transaction.
[[nodiscard]] std::optional<QuickAppend> quick_append(const HeadCache& cache,
                                                      std::span<const AppendItem> items);

/// Appends, one answer for each item. Throws pqxx::sql_error when a guard missed.
[[nodiscard]] std::vector<AppendResult> quick_append_in(pqxx::nontransaction& session,
                                                        TournamentId tournament,
                                                        const QuickAppend& append,
                                                        std::span<const AppendItem> items);

}  // namespace courthand::server::postgres
