#include "client/journal/salvage.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <set>

#include "client/journal/chain_hash.h"
#include "client/journal/files.h"
#include "client/journal/record_pages.h"
#include "client/journal/sqlite.h"

namespace courthand::client {
namespace {

constexpr std::size_t wal_header_bytes = 32;
constexpr std::size_t frame_header_bytes = 24;
const std::string* text_at(const RawRow& row, std::size_t column) {
    return std::get_if<std::string>(&row[column]);
}

std::optional<std::uint32_t> count_at(const RawRow& row, std::size_t column) {
    const auto* value = std::get_if<std::int64_t>(&row[column]);
    if (value == nullptr || *value < 0 || *value > UINT32_MAX) return std::nullopt;
    return static_cast<std::uint32_t>(*value);
}

bool sealed(const RawRow& row, std::int64_t seal) {
    const auto* value = std::get_if<std::int64_t>(&row.back());
    return value != nullptr && *value == seal;
}

/// Where rows come from. What SQLite read is what was committed last; raw pages and old frames of
/// the log hold what was replaced since, too, and only fill in what it could not read.
enum class Source : std::uint8_t { sqlite, raw };

/// Collects whole rows of all tables, told apart by their length and their seals.
class Collector {
  public:
    void take(const RawRow& row, Source source) {
        if (row.size() == entry_columns)
            take_entry(row, nullptr, source);
        else if (row.size() == entry_columns + 1)
            take_aside(row, source);
        else if (row.size() == 6)
            take_signature(row);
        else if (row.size() == 3)
            take_pair(row, source);
    }
    Salvage finish() {
        for (const std::string& id : match_order_)
            salvage_.matches.push_back(StoredMatch{id, sheets_[id]});
        // What was set aside may still lie in old pages of the record; it must not come back.
        auto& entries = salvage_.entries;
        const auto gone = std::remove_if(entries.begin(), entries.end(), [this](const auto& entry) {
            const std::int64_t value = seal(entry);
            return taken_aside_.contains(value) && !read_.contains(value);
        });
        entries.erase(gone, entries.end());
        return std::move(salvage_);
    }

  private:
    static constexpr std::size_t entry_columns = 10;

    void take_entry(const RawRow& row, const std::string* why, Source source) {
        // The log holds the same rows many times over. The first one counts: SQLite came first, so
        // its standing is the one committed last.
        const auto* seal_value = std::get_if<std::int64_t>(&row[entry_columns - 1]);
        if (seal_value == nullptr) return;
        auto& taken = why == nullptr ? taken_ : taken_aside_;
        if (taken.contains(*seal_value)) return;
        const auto epoch = count_at(row, 2);
        const auto seq = count_at(row, 3);
        if (!epoch || !seq) return;
        for (const std::size_t column : {1U, 4U, 5U, 6U, 7U, 8U})
            if (text_at(row, column) == nullptr) return;
        JournalEntry entry{*text_at(row, 1),
                           *epoch,
                           *seq,
                           *text_at(row, 4),
                           *text_at(row, 5),
                           *text_at(row, 6),
                           *text_at(row, 7),
                           standing_of(*text_at(row, 8))};
        if (*seal_value != seal(entry)) return;
        taken.insert(*seal_value);
        if (why == nullptr && source == Source::sqlite) read_.insert(*seal_value);
        if (why == nullptr)
            salvage_.entries.push_back(std::move(entry));
        else
            salvage_.aside.emplace_back(std::move(entry), *why);
    }
    void take_aside(const RawRow& row, Source source) {
        const std::string* why = text_at(row, entry_columns);
        if (why != nullptr) take_entry(row, why, source);
    }
    void take_signature(const RawRow& row) {
        const std::string* match_id = text_at(row, 1);
        const auto seq = count_at(row, 2);
        const std::string* hash = text_at(row, 3);
        const std::string* signature = text_at(row, 4);
        if (match_id == nullptr || !seq || hash == nullptr || signature == nullptr) return;
        KeptSignature kept{*match_id, *seq, *hash, *signature};
        const std::int64_t value = seal(kept);
        if (sealed(row, value)) salvage_.signatures.emplace(kept.hash, kept);
    }
    void take_pair(const RawRow& row, Source source) {
        const std::string* name = text_at(row, 0);
        const std::string* value = text_at(row, 1);
        if (name == nullptr || value == nullptr) return;
        if (sealed(row, setting_seal(*name, *value)) && newer(settings_read_, *name, source))
            salvage_.settings[*name] = *value;
        if (sealed(row, seal(StoredMatch{*name, *value})) && newer(sheets_read_, *name, source)) {
            if (!sheets_.contains(*name)) match_order_.push_back(*name);
            sheets_[*name] = *value;
        }
    }
    /// False when SQLite has read that row and this one is from the raw bytes.
    static bool newer(std::set<std::string>& read, const std::string& name, Source source) {
        if (source == Source::raw) return !read.contains(name);
        read.insert(name);
        return true;
    }

    Salvage salvage_;
    std::set<std::int64_t> taken_;
    std::set<std::int64_t> taken_aside_;
    std::set<std::int64_t> read_;  ///< of the record, by SQLite
    std::set<std::string> settings_read_;
    std::set<std::string> sheets_read_;
    std::vector<std::string> match_order_;
    std::map<std::string, std::string> sheets_;
};

/// As far as SQLite itself still reads the tables. It knows which rows were committed.
void through_sqlite(const std::filesystem::path& file, Collector& collector) {
    for (const char* query :
         {"SELECT id, match_id, epoch, seq, entry_id, prev_hash, hash, bytes, state, seal"
          " FROM entry NOT INDEXED ORDER BY id",
          "SELECT id, match_id, epoch, seq, entry_id, prev_hash, hash, bytes, state, seal, why"
          " FROM aside NOT INDEXED ORDER BY id",
          "SELECT id, match_id, seq, hash, signature, seal FROM signature NOT INDEXED ORDER BY id",
          "SELECT match_id, sheet, seal FROM match NOT INDEXED ORDER BY rowid",
          "SELECT name, value, seal FROM setting NOT INDEXED ORDER BY rowid"}) {
        try {
            sqlite::Database db{file.string()};
            // Only in this mode does SQLite look into a file that is shorter than it says.
            db.exec(
                "PRAGMA writable_schema=ON; PRAGMA locking_mode=EXCLUSIVE;"
                "PRAGMA query_only=ON");
            sqlite::Statement rows = db.prepare(query);
            const int columns = rows.columns();
            while (rows.step()) {
                RawRow row;
                for (int column = 0; column < columns; ++column)
                    row.push_back(rows.is_number(column) ? RawValue{rows.number(column)}
                                                         : RawValue{rows.bytes(column)});
                collector.take(row, Source::sqlite);
            }
        } catch (const sqlite::SqliteFailure&) {
            // The raw pages come next.
        }
    }
}

void through_pages(const std::string& data, std::size_t start, std::size_t before_page,
                   Collector& collector) {
    const auto take = [&collector](const RawRow& row) { collector.take(row, Source::raw); };
    std::size_t at = start;
    while (at + before_page < data.size()) {
        const std::string_view page =
            std::string_view{data}.substr(at + before_page, journal_page_bytes);
        const bool first = before_page == 0 && at == start;
        rows_of_page(page, first, take);
        // In the log, page 1 can be any frame; its rows are only the schema, so it is not needed.
        at += before_page + journal_page_bytes;
    }
}

}  // namespace

std::string_view Salvage::signature_of(const JournalEntry& entry) const {
    const auto found = signatures.find(entry.hash);
    return found == signatures.end() ? std::string_view{} : found->second.signature;
}

Salvage salvage(const std::filesystem::path& file) {
    Collector collector;
    // SQLite may check in or delete the log when it closes, so the raw bytes are read before.
    const std::string pages = bytes_of(file);
    const std::string log = bytes_of(file.string() + "-wal");
    through_sqlite(file, collector);
    through_pages(pages, 0, 0, collector);
    through_pages(log, wal_header_bytes, frame_header_bytes, collector);
    return collector.finish();
}

std::vector<JournalEntry> whole_chain(const std::vector<JournalEntry>& candidates,
                                      std::string_view match_id) {
    std::multimap<std::string, const JournalEntry*> followers;  // by the hash they follow
    for (const JournalEntry& entry : candidates) {
        if (entry.match_id != match_id || chain_hash(entry.bytes) != entry.hash) continue;
        followers.emplace(entry.prev_hash, &entry);
    }
    // Longest way from a hash on; a record is bounded, and a fork is a write that was taken back.
    std::vector<JournalEntry> best;
    std::vector<JournalEntry> path;
    const std::function<void(const std::string&)> walk = [&](const std::string& from) {
        bool end = true;
        const auto range = followers.equal_range(from);
        for (auto it = range.first; it != range.second; ++it) {
            if (it->second->seq != path.size() + 1) continue;
            end = false;
            path.push_back(*it->second);
            walk(it->second->hash);
            path.pop_back();
        }
        if (end && path.size() > best.size()) best = path;
    };
    walk(first_hash(match_id));
    return best;
}

}  // namespace courthand::client
