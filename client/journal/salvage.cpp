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

/// Collects whole rows of all three tables, told apart by their seals.
class Collector {
  public:
    void take(const RawRow& row) {
        if (row.size() == 10)
            take_entry(row);
        else if (row.size() == 3)
            take_pair(row);
    }
    Salvage finish() {
        for (const std::string& id : match_order_)
            salvage_.matches.push_back(StoredMatch{id, sheets_[id]});
        return std::move(salvage_);
    }

  private:
    void take_entry(const RawRow& row) {
        // The log holds the same rows many times over.
        const auto* seal_value = std::get_if<std::int64_t>(&row.back());
        if (seal_value == nullptr || taken_.count(*seal_value) != 0) return;
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
        taken_.insert(*seal_value);
        salvage_.entries.push_back(std::move(entry));
    }
    void take_pair(const RawRow& row) {
        const std::string* name = text_at(row, 0);
        const std::string* value = text_at(row, 1);
        if (name == nullptr || value == nullptr) return;
        if (sealed(row, setting_seal(*name, *value))) salvage_.settings[*name] = *value;
        if (sealed(row, seal(StoredMatch{*name, *value}))) {
            if (!sheets_.count(*name)) match_order_.push_back(*name);
            sheets_[*name] = *value;
        }
    }

    Salvage salvage_;
    std::set<std::int64_t> taken_;
    std::vector<std::string> match_order_;
    std::map<std::string, std::string> sheets_;
};

/// As far as SQLite itself still reads the tables. It knows which rows were committed.
void through_sqlite(const std::filesystem::path& file, Collector& collector) {
    for (const char* query :
         {"SELECT id, match_id, epoch, seq, entry_id, prev_hash, hash, bytes, state, seal"
          " FROM entry NOT INDEXED ORDER BY id",
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
                collector.take(row);
            }
        } catch (const sqlite::SqliteFailure&) {
            // The raw pages come next.
        }
    }
}

void through_pages(const std::string& data, std::size_t start, std::size_t before_page,
                   Collector& collector) {
    const auto take = [&collector](const RawRow& row) { collector.take(row); };
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
