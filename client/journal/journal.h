// The journal of a device: every entry it wrote, as the exact bytes that are hashed and sent, and
// what the device must know to go on without a server.
//
// One SQLite file in the device's folder (write-ahead log, synchronous = FULL), held by one
// process at a time. An entry is on the disk before `append` returns. A damaged file is never
// overwritten: what can be shown to be whole is copied to a new one, the old one is set aside
// under a name, and the loss is listed. Thread-safe.
//
// Writing gives back an error value. Reading throws UnreadableJournal, and only when the disk fails
// under a journal that was whole when it was opened.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "client/journal/high_water.h"
#include "client/journal/rows.h"

namespace courthand::wire {
class ReadEntry;
}  // namespace courthand::wire

namespace courthand::client {

namespace sqlite {
class Database;
class SqliteFailure;
}  // namespace sqlite

struct JournalError {
    enum class Kind : std::uint8_t {
        full_disk,     ///< no room; works again as soon as there is
        in_use,        ///< another program holds the journal
        newer_schema,  ///< written by a later version; nothing was touched
        unusable,      ///< the folder or file cannot be written
        damaged,       ///< the disk gave back something else than was written
        too_large,     ///< an entry or sheet over its limit
        out_of_order,  ///< the entry does not follow the last one of its match
    };
    Kind kind = Kind::unusable;
    std::string message;  ///< sentences for the person at the device, with the cure
};

/// What a damaged journal cost, for one match.
struct Loss {
    std::string match_id;
    std::uint32_t kept = 0;       ///< entries 1 to `kept` are whole
    std::uint32_t last_seen = 0;  ///< highest entry known to have existed; at least `kept`
    /// "Match …: entries 1 to 87 are kept, 88 to 93 are lost."
    [[nodiscard]] std::string text() const;
};

/// Set when the journal was damaged and had to be made anew.
struct Recovery {
    std::filesystem::path set_aside;       ///< the damaged file, untouched
    std::vector<Loss> losses;              ///< one for each match that is or may be shorter now
    std::vector<std::string> sheets_lost;  ///< matches whose entries are kept without their sheet
    bool identity_lost = false;            ///< settings of the device could not be read in full
    [[nodiscard]] std::string text() const;
};

class Journal {
  public:
    struct Options {
        /// Pages of 8 KiB the file may have; 0: as many as the disk holds.
        std::int64_t most_pages = 0;
    };

    /// Opens the journal in `folder`, making folder and file when they are not there.
    [[nodiscard]] static std::variant<std::unique_ptr<Journal>, JournalError> open(
        const std::filesystem::path& folder, const Options& options);
    [[nodiscard]] static std::variant<std::unique_ptr<Journal>, JournalError> open(
        const std::filesystem::path& folder) {
        return open(folder, Options{});
    }
    [[nodiscard]] static std::filesystem::path file(const std::filesystem::path& folder);

    Journal(const Journal&) = delete;
    Journal& operator=(const Journal&) = delete;
    ~Journal();

    /// What opening had to repair; nothing when all was well.
    [[nodiscard]] const std::optional<Recovery>& recovery() const noexcept { return recovery_; }

    /// Writes one entry, durably. It must follow the last one of its match. `signature` is that of
    /// the device that made it, kept when that is another one; empty: none.
    [[nodiscard]] std::optional<JournalError> append(const JournalEntry& entry,
                                                     std::string_view signature = {});
    /// An entry that was read, on its way into the journal.
    struct Arrival {
        const wire::ReadEntry& entry;
        std::string_view signature;  ///< as above
        EntryStanding standing = EntryStanding::waiting;
    };
    /// The same for entries that were read, whose bytes are not hashed again: in their order, in
    /// one commit, all or none.
    [[nodiscard]] std::optional<JournalError> append(std::span<const Arrival> entries);
    [[nodiscard]] std::optional<JournalError> append(const wire::ReadEntry& entry,
                                                     std::string_view signature = {}) {
        const Arrival alone{entry, signature};
        return append(std::span{&alone, 1});
    }
    /// All entries of a match in order.
    [[nodiscard]] std::vector<JournalEntry> entries(std::string_view match_id) const;
    /// The oldest entries of a match that the server does not have yet, up to `most`.
    [[nodiscard]] std::vector<JournalEntry> waiting(std::string_view match_id,
                                                    std::size_t most) const;
    /// As `waiting`, but only entries after number `after`, and also those that the server refused
    /// or keeps beside the record. Not what is set aside.
    [[nodiscard]] std::vector<JournalEntry> unsettled(std::string_view match_id,
                                                      std::uint32_t after, std::size_t most) const;
    /// Matches with waiting entries, oldest first.
    [[nodiscard]] std::vector<std::string> matches_waiting() const;
    /// Entries of one match that are not in the server's record.
    struct Tally {
        std::string match_id;
        std::size_t waiting = 0;
        std::size_t refused = 0;
        std::size_t beside = 0;
        std::size_t aside = 0;  ///< set aside, and not with the server
        friend bool operator==(const Tally&, const Tally&) = default;
    };
    /// Of all matches that have such entries, oldest first.
    [[nodiscard]] std::vector<Tally> unsettled() const;
    /// Matches with entries, oldest first.
    [[nodiscard]] std::vector<std::string> matches_recorded() const;
    [[nodiscard]] std::optional<JournalEntry> entry(std::string_view match_id,
                                                    std::uint32_t seq) const;
    /// Kept signature of an entry of another device; empty: none.
    [[nodiscard]] std::string signature(std::string_view match_id, std::uint32_t seq) const;
    /// Number of the last entry of a match with this standing; 0: none.
    [[nodiscard]] std::uint32_t last_seq(std::string_view match_id, EntryStanding standing) const;
    /// Number of the first entry of a match with this standing; 0: none.
    [[nodiscard]] std::uint32_t first_seq(std::string_view match_id, EntryStanding standing) const;
    [[nodiscard]] std::size_t waiting_count() const;
    [[nodiscard]] std::size_t waiting_count(std::string_view match_id) const {
        return count(match_id, EntryStanding::waiting);
    }
    /// Entries of a match with this standing.
    [[nodiscard]] std::size_t count(std::string_view match_id, EntryStanding standing) const;
    /// Number of the last entry of a match; 0: none.
    [[nodiscard]] std::uint32_t last_seq(std::string_view match_id) const;
    /// What the server said of entries of one match, by entry number.
    struct Settled {
        std::uint32_t seq = 0;
        EntryStanding standing = EntryStanding::acknowledged;
    };
    using Settings = std::vector<std::pair<std::string, std::string>>;
    /// With it, in the same commit, what else is to be kept.
    [[nodiscard]] std::optional<JournalError> settle(std::string_view match_id,
                                                     const std::vector<Settled>& settled,
                                                     const Settings& settings = {});
    /// The server turns out to have only the first `head` entries: the rest waits again.
    [[nodiscard]] std::optional<JournalError> wait_again_after(std::string_view match_id,
                                                               std::uint32_t head);
    /// Takes the entries after number `head` out of the record, so that another device's can follow
    /// there. Only what the server keeps on a branch or has refused may go, and what waits behind a
    /// refused one: `out_of_order` otherwise. Nothing is deleted; the rows stay in the file and in
    /// an export, and those that the server does not have are offered on.
    [[nodiscard]] std::optional<JournalError> set_aside_after(std::string_view match_id,
                                                              std::uint32_t head,
                                                              std::string_view why);
    /// An entry that is set aside.
    struct Aside {
        std::int64_t id = 0;  ///< in the order of setting aside
        JournalEntry entry;
        std::string signature;  ///< as `signature`
    };
    enum class Which : std::uint8_t {
        not_sent,  ///< neither in the server's record nor on a branch there
        all,
    };
    /// Of a match, only those with an id over `after`, in their order, up to `most`.
    [[nodiscard]] std::vector<Aside> aside(std::string_view match_id, std::int64_t after,
                                           std::size_t most, Which which = Which::not_sent) const;
    /// What the server said of entries that are set aside, by their id.
    [[nodiscard]] std::optional<JournalError> settle_aside(
        const std::vector<std::pair<std::int64_t, EntryStanding>>& settled);

    /// Matches this device was given or made, in the order in which they came.
    [[nodiscard]] std::vector<StoredMatch> matches() const;
    [[nodiscard]] std::optional<StoredMatch> match(std::string_view match_id) const;
    /// Settings: identity, server address, cursors. Empty when not set.
    [[nodiscard]] std::string setting(std::string_view name) const;
    /// True when it was ever set, also to nothing.
    [[nodiscard]] bool has_setting(std::string_view name) const;
    /// Drops the oldest settings that were set to nothing and whose name begins with `prefix`, but
    /// for the newest `most`.
    [[nodiscard]] std::optional<JournalError> trim_settings(std::string_view prefix,
                                                            std::size_t most);
    /// Settings whose name begins with `prefix` and whose value is not empty, by name.
    [[nodiscard]] std::vector<std::pair<std::string, std::string>> settings(
        std::string_view prefix) const;
    /// Rows and the settings that say how far they go, all or nothing.
    [[nodiscard]] std::optional<JournalError> store(
        const std::vector<StoredMatch>& matches,
        const std::vector<std::pair<std::string, std::string>>& settings);

    /// As `store`, and what is overwritten goes from the files, too: no copy of a page stays in the
    /// write-ahead log. When that fails the rows are stored all the same and the wiping is owed,
    /// also after a restart: opening tries again, and so does `wipe_owed`.
    [[nodiscard]] std::optional<JournalError> store_wiping(
        const std::vector<StoredMatch>& matches,
        std::vector<std::pair<std::string, std::string>> settings);
    /// Does what an earlier wiping could not; nothing when none is owed.
    [[nodiscard]] std::optional<JournalError> wipe_owed();

  private:
    Journal(std::filesystem::path folder, std::unique_ptr<sqlite::Database> db,
            std::optional<Recovery> recovery);
    struct NewRow {
        JournalEntry entry;
        std::string true_hash;  ///< what the bytes of the entry hash to
        std::string_view signature;
    };
    [[nodiscard]] std::optional<JournalError> append_rows(std::span<const NewRow> rows);
    /// Under mutex_, in a transaction. Why the row does not follow the last one of its match.
    [[nodiscard]] std::optional<JournalError> append_row(const NewRow& row);
    /// Runs `change` in one transaction.
    template <class Change>
    [[nodiscard]] std::optional<JournalError> write(Change change);
    [[nodiscard]] std::vector<JournalEntry> read_entries(std::string_view condition,
                                                         std::string_view match_id,
                                                         std::int64_t first,
                                                         std::int64_t second) const;
    [[nodiscard]] std::uint32_t seq_of(std::string_view query, std::string_view match_id) const;
    [[nodiscard]] JournalError explain(const sqlite::SqliteFailure& failure) const;

    std::filesystem::path folder_;
    mutable std::mutex mutex_;
    std::unique_ptr<sqlite::Database> db_;
    HighWater high_water_;
    std::optional<Recovery> recovery_;
};

}  // namespace courthand::client
