#include "client/journal/opening.h"

#include <algorithm>
#include <cerrno>
#include <map>
#include <set>
#include <system_error>

#include <fmt/format.h>

#include "client/journal/chain_hash.h"
#include "client/journal/files.h"
#include "client/journal/high_water.h"
#include "client/journal/salvage.h"
#include "client/journal/schema.h"

namespace courthand::client {
namespace fs = std::filesystem;
namespace {

/// Thrown inside this file when a row is not as it was written.
struct Damaged {};
/// Thrown when a later program wrote the file.
struct Newer {
    std::int64_t schema = 0;
};

void verify_schema_number(sqlite::Database& db) {
    const std::int64_t header = db.number("PRAGMA user_version");
    if (header == 0 && db.number("SELECT COUNT(*) FROM sqlite_schema") == 0) return;
    sqlite::Statement row = db.prepare("SELECT value, seal FROM setting WHERE name = 'schema'");
    if (!row.step()) throw Damaged{};
    const std::string text = row.bytes(0);
    if (row.number(1) != setting_seal("schema", text) || text != fmt::format("{}", header))
        throw Damaged{};
    if (header > journal_schema) throw Newer{header};
}

JournalEntry sealed_part(const sqlite::Statement& row) {
    return JournalEntry{row.bytes(0),
                        static_cast<std::uint32_t>(row.number(1)),
                        static_cast<std::uint32_t>(row.number(2)),
                        row.bytes(3),
                        row.bytes(4),
                        row.bytes(5),
                        row.bytes(6),
                        EntryStanding::waiting};
}

void verify_entries(sqlite::Database& db, std::map<std::string, std::uint32_t>& heads) {
    std::map<std::string, std::string> last_hash;
    sqlite::Statement rows = db.prepare(
        "SELECT match_id, epoch, seq, entry_id, prev_hash, hash, bytes, seal FROM entry NOT INDEXED"
        " ORDER BY id");
    while (rows.step()) {
        const JournalEntry entry = sealed_part(rows);
        const auto known = last_hash.find(entry.match_id);
        const std::string expected =
            known == last_hash.end() ? first_hash(entry.match_id) : known->second;
        if (rows.number(7) != seal(entry) || entry.seq != heads[entry.match_id] + 1 ||
            entry.prev_hash != expected || chain_hash(entry.bytes) != entry.hash)
            throw Damaged{};
        heads[entry.match_id] = entry.seq;
        last_hash[entry.match_id] = entry.hash;
    }
}

void verify_other_rows(sqlite::Database& db) {
    sqlite::Statement signatures =
        db.prepare("SELECT match_id, seq, hash, signature, seal FROM signature NOT INDEXED");
    while (signatures.step())
        if (signatures.number(4) !=
            seal(KeptSignature{signatures.bytes(0),
                               static_cast<std::uint32_t>(signatures.number(1)),
                               signatures.bytes(2), signatures.bytes(3)}))
            throw Damaged{};
    sqlite::Statement aside = db.prepare(
        "SELECT match_id, epoch, seq, entry_id, prev_hash, hash, bytes, seal FROM aside NOT "
        "INDEXED");
    while (aside.step())
        if (aside.number(7) != seal(sealed_part(aside))) throw Damaged{};
    sqlite::Statement matches = db.prepare("SELECT match_id, sheet, seal FROM match NOT INDEXED");
    while (matches.step())
        if (matches.number(2) != seal(StoredMatch{matches.bytes(0), matches.bytes(1)}))
            throw Damaged{};
    sqlite::Statement settings = db.prepare("SELECT name, value, seal FROM setting NOT INDEXED");
    while (settings.step())
        if (settings.number(2) != setting_seal(settings.bytes(0), settings.bytes(1)))
            throw Damaged{};
}

/// Nothing less than reading it all shows that a journal is whole; a season's file takes
/// milliseconds.
void verify(sqlite::Database& db, const fs::path& folder) {
    if (db.text("PRAGMA integrity_check(1)") != "ok") throw Damaged{};
    std::map<std::string, std::uint32_t> heads;
    verify_entries(db, heads);
    verify_other_rows(db);
    for (const auto& [match_id, seq] : HighWater{high_water_file(folder)}.marks())
        if (heads[match_id] < seq) throw Damaged{};
}

bool means_damage(const sqlite::SqliteFailure& failure) {
    switch (failure.code()) {
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
        case SQLITE_ERROR:  // a table that is no longer there under its name
        case SQLITE_SCHEMA:
        case SQLITE_FORMAT:
        case SQLITE_MISMATCH:
        case SQLITE_CONSTRAINT:
        case SQLITE_TOOBIG:
            return true;
        case SQLITE_IOERR:
            return failure.extended_code() == SQLITE_IOERR_SHORT_READ;
        default:
            return false;
    }
}

std::unique_ptr<sqlite::Database> open_whole(const fs::path& folder, std::int64_t most_pages) {
    const fs::path file = journal_file(folder);
    const bool was_there = fs::exists(file) && fs::file_size(file) > 0;
    auto db = std::make_unique<sqlite::Database>(file.string());
    // A damaged file must stay as it is, so nothing is checked in until it has proved whole.
    db->check_in_on_close(false);
    db->exec("PRAGMA locking_mode=EXCLUSIVE");
    if (was_there) verify_schema_number(*db);
    prepare_journal(*db, most_pages);
    migrate_journal(*db);
    verify(*db, folder);
    db->check_in_on_close(true);
    return db;
}

/// Lowest matches first, so that the list reads the same on every start.
std::vector<Loss> losses_of(const Salvage& found, const std::map<std::string, std::uint32_t>& kept,
                            const std::map<std::string, std::uint32_t>& marks) {
    std::map<std::string, std::uint32_t> seen = marks;
    for (const JournalEntry& entry : found.entries)
        seen[entry.match_id] = std::max(seen[entry.match_id], entry.seq);
    for (const StoredMatch& match : found.matches) seen.try_emplace(match.match_id, 0);
    std::vector<Loss> losses;
    for (const auto& [match_id, last] : seen) {
        const auto it = kept.find(match_id);
        const std::uint32_t whole = it == kept.end() ? 0 : it->second;
        const bool marked = marks.contains(match_id);
        // With a mark we know that nothing is missing; without one, say where the record ends.
        if (last > whole || (!marked && whole > 0)) losses.push_back(Loss{match_id, whole, last});
    }
    return losses;
}

/// Matches of which entries are kept and the sheet is not.
std::vector<std::string> sheets_lost(const Salvage& found,
                                     const std::map<std::string, std::uint32_t>& kept) {
    std::vector<std::string> lost;
    for (const auto& [match_id, last] : kept)
        if (std::none_of(found.matches.begin(), found.matches.end(),
                         [&id = match_id](const StoredMatch& one) { return one.match_id == id; }))
            lost.push_back(match_id);
    return lost;
}

Recovery build_successor(const fs::path& folder, std::int64_t most_pages) {
    const fs::path reading = folder / "journal.reading.db";
    remove_journal(reading);
    copy_journal(journal_file(folder), reading);
    const Salvage found = salvage(reading);
    remove_journal(reading);

    const fs::path successor = successor_file(folder);
    remove_journal(successor);
    std::map<std::string, std::uint32_t> kept;
    {
        sqlite::Database db{successor.string()};
        prepare_journal(db, most_pages);
        migrate_journal(db);
        sqlite::Transaction transaction{db};
        std::set<std::string> match_ids;
        for (const JournalEntry& entry : found.entries) match_ids.insert(entry.match_id);
        for (const std::string& match_id : match_ids)
            for (const JournalEntry& entry : whole_chain(found.entries, match_id)) {
                insert_entry(db, entry, found.signature_of(entry));
                kept[match_id] = entry.seq;
            }
        for (const auto& [entry, why] : found.aside)
            insert_aside(db, entry, why, found.signature_of(entry));
        std::vector<std::pair<std::string, std::string>> settings{found.settings.begin(),
                                                                  found.settings.end()};
        // The successor has a schema of its own, which may be a later one.
        settings.erase(std::remove_if(settings.begin(), settings.end(),
                                      [](const auto& one) { return one.first == "schema"; }),
                       settings.end());
        store_rows(db, found.matches, settings);
        transaction.commit();
        check_in(db);
    }
    Recovery recovery;
    recovery.set_aside = set_aside_file(folder);
    recovery.losses = losses_of(found, kept, HighWater{high_water_file(folder)}.marks());
    recovery.sheets_lost = sheets_lost(found, kept);
    recovery.identity_lost = !found.settings.contains("schema");
    return recovery;
}

JournalError newer_schema(std::int64_t schema, const fs::path& folder) {
    return JournalError{
        JournalError::Kind::newer_schema,
        fmt::format("The journal in {0} was written by a later courthand (its schema is {1}, this "
                    "program knows {2}). Nothing was changed. Start the later program, or take "
                    "the record out with: courthand export --data {0} --out record.jsonl",
                    folder.string(), schema, journal_schema)};
}

JournalError explain_file_error(const fs::filesystem_error& error, const fs::path& folder) {
    if (error.code() == std::errc::no_space_on_device)
        return explain_failure(sqlite::SqliteFailure{SQLITE_FULL, "full"}, ENOSPC, folder);
    return JournalError{JournalError::Kind::unusable,
                        fmt::format("The device folder {} cannot be used: {}. Check that it "
                                    "exists and that you may write there.",
                                    folder.string(), error.code().message())};
}

/// With `why` the row goes to those that are set aside.
void insert_row(sqlite::Database& db, const JournalEntry& entry,
                std::optional<std::string_view> why) {
    sqlite::Statement row = db.prepare(fmt::format(
        "INSERT INTO {} (match_id, epoch, seq, entry_id, prev_hash, hash, bytes, state, seal{})"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?{})",
        why ? "aside" : "entry", why ? ", why" : "", why ? ", ?" : ""));
    row.bind_text(1, entry.match_id)
        .bind(2, entry.epoch)
        .bind(3, entry.seq)
        .bind_text(4, entry.entry_id)
        .bind_bytes(5, entry.prev_hash)
        .bind_bytes(6, entry.hash)
        .bind_bytes(7, entry.bytes)
        .bind_text(8, word(entry.standing))
        .bind(9, seal(entry));
    if (why) row.bind_text(10, *why);
    row.run();
}

/// For the row just written; `id` is an expression over its number.
void insert_signature(sqlite::Database& db, const JournalEntry& entry, std::string_view signature,
                      const char* id) {
    if (signature.empty()) return;
    const KeptSignature kept{entry.match_id, entry.seq, entry.hash, std::string{signature}};
    db.prepare(fmt::format("INSERT INTO signature (id, match_id, seq, hash, signature, seal)"
                           " VALUES ({}, ?, ?, ?, ?, ?)",
                           id))
        .bind_text(1, kept.match_id)
        .bind(2, kept.seq)
        .bind_bytes(3, kept.hash)
        .bind_bytes(4, kept.signature)
        .bind(5, seal(kept))
        .run();
}

std::variant<OpenedJournal, JournalError> open_or_recover(const fs::path& folder,
                                                          std::int64_t most_pages) {
    const SavedLog log{journal_file(folder)};
    try {
        return OpenedJournal{open_whole(folder, most_pages), std::nullopt};
    } catch (const Newer& newer) {
        return newer_schema(newer.schema, folder);
    } catch (const Damaged&) {
    } catch (const sqlite::SqliteFailure& failure) {
        if (!means_damage(failure)) return explain_failure(failure, errno, folder);
    }
    try {
        log.put_back();
        Recovery recovery = build_successor(folder, most_pages);
        exchange(folder, recovery.set_aside);
        // The marks describe the damaged file; the journal sets them anew.
        fs::remove(high_water_file(folder));
        return OpenedJournal{open_whole(folder, most_pages), std::move(recovery)};
    } catch (const sqlite::SqliteFailure& failure) {
        return explain_failure(failure, errno, folder);
    } catch (const Damaged&) {
        return JournalError{JournalError::Kind::damaged,
                            fmt::format("The disk under {} does not keep what is written to it. "
                                        "Use another device.",
                                        folder.string())};
    }
}

}  // namespace

std::variant<OpenedJournal, JournalError> open_journal_file(const fs::path& folder,
                                                            std::int64_t most_pages) {
    try {
        fs::create_directories(folder);
        fs::permissions(folder, fs::perms::owner_all);
        finish_exchange(folder);
        return open_or_recover(folder, most_pages);
    } catch (const fs::filesystem_error& error) {
        return explain_file_error(error, folder);
    }
}

JournalError explain_failure(const sqlite::SqliteFailure& failure, int system_error,
                             const fs::path& folder) {
    using Kind = JournalError::Kind;
    const std::string where = folder.string();
    const bool from_system = failure.code() == SQLITE_IOERR || failure.code() == SQLITE_CANTOPEN;
    const bool disk_full = failure.code() == SQLITE_FULL ||
                           (from_system && (system_error == ENOSPC || system_error == EDQUOT));
    if (disk_full)
        return {Kind::full_disk,
                fmt::format("Not saved: the disk under {} is full. Free some room and enter it "
                            "again; everything saved so far is safe.",
                            where)};
    switch (failure.code()) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return {Kind::in_use,
                    fmt::format("The device folder {} is in use by another courthand. Close that "
                                "one, or choose another folder with --data.",
                                where)};
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
            return {Kind::damaged,
                    fmt::format("Not saved: the journal in {} is damaged. Start the program "
                                "again; it keeps what is whole and says what is lost.",
                                where)};
        default:
            break;
    }
    return {Kind::unusable, fmt::format("Not saved: the journal in {} cannot be written ({}). "
                                        "Check the disk and the rights on the folder.",
                                        where, failure.what())};
}

void insert_entry(sqlite::Database& db, const JournalEntry& entry, std::string_view signature) {
    insert_row(db, entry, std::nullopt);
    insert_signature(db, entry, signature, "last_insert_rowid()");
}

void insert_aside(sqlite::Database& db, const JournalEntry& entry, std::string_view why,
                  std::string_view signature) {
    insert_row(db, entry, why);
    // The numbers of the record's entries are taken.
    insert_signature(db, entry, signature, "-last_insert_rowid()");
}

void store_rows(sqlite::Database& db, const std::vector<StoredMatch>& matches,
                const std::vector<std::pair<std::string, std::string>>& settings) {
    sqlite::Statement match = db.prepare(
        "INSERT INTO match (match_id, sheet, seal) VALUES (?, ?, ?)"
        " ON CONFLICT (match_id) DO UPDATE SET sheet = excluded.sheet, seal = excluded.seal");
    for (const StoredMatch& one : matches)
        match.bind_text(1, one.match_id).bind_bytes(2, one.sheet).bind(3, seal(one)).run();
    sqlite::Statement setting = db.prepare(
        "INSERT INTO setting (name, value, seal) VALUES (?, ?, ?)"
        " ON CONFLICT (name) DO UPDATE SET value = excluded.value, seal = excluded.seal");
    for (const auto& [name, value] : settings)
        setting.bind_text(1, name).bind_bytes(2, value).bind(3, setting_seal(name, value)).run();
}

}  // namespace courthand::client
