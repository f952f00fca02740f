// Where the record of a tournament is kept: what the desk has done, one fact behind the other. The
// interface, with a PostgreSQL twin (postgres/) and a twin in memory (memory_fact_store.h).
//
// Thread-safe. Every call may take as long as the database takes. Bytes are stored and handed out
// exactly as they were given; what they mean, and whether one may follow another, is decided above.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "server/domain/ids.h"
#include "server/store/match_store.h"
#include "server/store/status.h"

namespace courthand::server::tournament {

using FactId = Id<struct FactTag>;
/// Number of a fact in the record: 1, 2, 3 …
using FactNumber = std::uint32_t;

/// As long as the wire lets an entry of the record be.
inline constexpr std::size_t most_fact_bytes = 16 * 1024;
/// The words beside a fact, a reason or a note: a paragraph.
inline constexpr std::size_t most_beside_bytes = 500;
/// What one act of the desk may add: the matches of the largest bracket with their places.
inline constexpr std::size_t most_facts_per_append = 1024;
/// An event of 512 teams over four days has about a third of it.
inline constexpr FactNumber most_facts = 50'000;
inline constexpr std::size_t most_facts_per_page = 512;

/// The end of the record. Of an empty one: 0, and a hash of zeros.
struct FactHead {
    FactNumber number = 0;
    Hash hash{};
    friend bool operator==(const FactHead&, const FactHead&) = default;
};

/// Words that stand beside a fact, sealed by a hash in it, so that they can be erased.
struct BesideWords {
    std::string salt;
    std::string text;
    friend bool operator==(const BesideWords&, const BesideWords&) = default;
};

/// One fact as it stands in the record.
struct KeptFact {
    FactId id;  ///< made by who acted, the same on each retry
    FactNumber number = 0;
    DeviceId device;  ///< of the certificate with which it came; nil: the server itself
    Hash hash{};
    ServerTime stored_at{};  ///< set by the store
    std::shared_ptr<const std::string> bytes;
    std::optional<BesideWords> beside;  ///< nothing: there are none, or they were erased
    bool left_out = false;  ///< there are some elsewhere, and the event came here without them
};

/// The end of a match's record on which a fact rests: a result is that of this record only as long
/// as its table has written nothing more.
struct RecordEnd {
    MatchId match;
    Hash hash{};
};

struct FactAppend {
    enum class Fate : std::uint8_t {
        appended,
        already_had,  ///< every one of them stands in the record
        behind,       ///< the record has grown past `seen`; nothing was kept
        outwritten,   ///< the record of `match` ends otherwise; nothing was kept
    };
    Fate fate = Fate::behind;
    FactHead head;  ///< of the record as it is now
    MatchId match{};
    ServerTime stored_at{};  ///< of what was appended
};

class FactStore {
  public:
    virtual ~FactStore() = default;

    /// `not_found` when there is no such tournament.
    virtual Result<FactHead> head(TournamentId tournament) = 0;
    /// Facts after `after` in their order, `most` and `most_facts_per_page` at most.
    virtual Result<std::vector<KeptFact>> read(TournamentId tournament, FactNumber after,
                                               std::size_t most) = 0;
    /// Adds all or none behind `seen`, whose numbers the facts continue, and a feed item
    /// `tournament`. Either the answer is durable or a status says why not: `invalid` when they do
    /// not continue it or break a limit, `conflict` when one of their ids is taken.
    /// Of matches that the store has, the records end as `rests_on` says when the facts are added:
    /// no entry comes between the look and the fact. One that is not there has no end.
    virtual Result<FactAppend> append(TournamentId tournament, const FactHead& seen,
                                      std::span<const KeptFact> facts,
                                      std::span<const RecordEnd> rests_on) = 0;
    Result<FactAppend> append(TournamentId tournament, const FactHead& seen,
                              std::span<const KeptFact> facts) {
        return append(tournament, seen, facts, {});
    }
    /// Takes the words beside these facts away for good; the facts stay as they are. Adds an item
    /// `tournament` with their numbers to the feed when any were there, and answers how many.
    /// `invalid` for more than `most_facts_per_append`.
    virtual Result<std::size_t> erase_beside(TournamentId tournament,
                                             std::span<const FactNumber> facts) = 0;
};

/// `invalid` with the reason when these cannot stand behind `seen`, whatever is stored.
[[nodiscard]] Status fits(const FactHead& seen, std::span<const KeptFact> facts);

/// `invalid` when so many are not erased at once.
[[nodiscard]] Status fits_erasing(std::span<const FactNumber> facts);

/// `conflict`: an id stands in the record for what another device did, or for some of these only.
[[nodiscard]] Status id_taken();

/// What the feed says: the record has grown, and is read by number.
[[nodiscard]] FeedNotice grown();
/// The words beside these facts were erased.
[[nodiscard]] FeedNotice erased(std::span<const FactNumber> facts);
/// Of an item of the feed, the facts whose words were erased. None: the record has grown.
[[nodiscard]] std::vector<FactNumber> erased_in(const FeedItem& item);

}  // namespace courthand::server::tournament
