#include "client/journal/journal.h"

#include <algorithm>
#include <map>
#include <set>
#include <system_error>

#include <fmt/format.h>

#include "client/journal/chain_hash.h"
#include "client/journal/files.h"
#include "client/journal/opening.h"
#include "client/journal/schema.h"
#include "client/journal/sqlite.h"
#include "wire/read_entry.h"

namespace courthand::client {
namespace {

JournalEntry entry_of(const sqlite::Statement& row) {
    return JournalEntry{row.bytes(0),
                        static_cast<std::uint32_t>(row.number(1)),
                        static_cast<std::uint32_t>(row.number(2)),
                        row.bytes(3),
                        row.bytes(4),
                        row.bytes(5),
                        row.bytes(6),
                        standing_of(row.bytes(7))};
}

JournalEntry row_of(const wire::ReadEntry& entry) {
    const wire::EntryHeader& header = entry.header();
    JournalEntry row;
    row.match_id = header.match_id.to_text();
    row.epoch = header.epoch;
    row.seq = header.seq;
    row.entry_id = header.entry_id.to_text();
    row.prev_hash = wire::to_bytes(header.prev_hash);
    row.hash = wire::to_bytes(entry.hash());
    row.bytes = entry.bytes();
    return row;
}

/// A condition that the index of unsettled entries serves.
std::string stands(EntryStanding standing) {
    const std::string is = fmt::format("state = '{}'", word(standing));
    return standing == EntryStanding::acknowledged ? is : "state <> 'acknowledged' AND " + is;
}

constexpr const char* entry_columns =
    "match_id, epoch, seq, entry_id, prev_hash, hash, bytes, state";
/// Of what is set aside: neither in the server's record nor on a branch there.
constexpr const char* not_sent = "state IN ('waiting', 'refused')";

/// Not empty: what was overwritten may still stand in the files.
constexpr const char* wiping_setting = "journal/wiping";

/// First of the tail that may not be set aside, or null; behind a refused one nothing is sent.
const JournalEntry* must_stay(const std::vector<JournalEntry>& tail) {
    bool held_up = false;
    for (const JournalEntry& entry : tail) {
        held_up = held_up || entry.standing == EntryStanding::refused;
        const bool may_go = entry.standing == EntryStanding::on_branch ||
                            (held_up && entry.standing != EntryStanding::acknowledged);
        if (!may_go) return &entry;
    }
    return nullptr;
}

}  // namespace

std::string Loss::text() const {
    const std::string kept_words =
        kept == 0 ? "no entry is kept" : fmt::format("entries 1 to {} are kept", kept);
    if (last_seen > kept)
        return fmt::format(
            "Match {}: {}, entries {} to {} are lost. Compare with the score sheet "
            "on paper and write down again what is missing.",
            match_id, kept_words, kept + 1, last_seen);
    return fmt::format(
        "Match {}: {}; nothing after entry {} was found. Compare the score with "
        "the scoreboard.",
        match_id, kept_words, kept);
}

std::string Recovery::text() const {
    std::string words = fmt::format(
        "The journal of this device was damaged. What is whole was "
        "kept; the damaged file is set aside as {}.",
        set_aside.filename().string());
    for (const Loss& loss : losses) words += fmt::format("\n{}", loss.text());
    for (const std::string& match_id : sheets_lost)
        words += fmt::format(
            "\nThe sheet of match {} is lost. Connected to the server, this device asks for it; a "
            "match that was only practised here the server does not have.",
            match_id);
    if (identity_lost)
        words +=
            "\nThe device's settings could not all be read: enrol it again if it does not "
            "connect.";
    return words;
}

std::filesystem::path Journal::file(const std::filesystem::path& folder) {
    return journal_file(folder);
}

std::variant<std::unique_ptr<Journal>, JournalError> Journal::open(
    const std::filesystem::path& folder, const Options& options) {
    auto opened = open_journal_file(folder, options.most_pages);
    if (auto* error = std::get_if<JournalError>(&opened)) return std::move(*error);
    auto& good = std::get<OpenedJournal>(opened);
    std::unique_ptr<Journal> journal{
        new Journal{folder, std::move(good.db), std::move(good.recovery)}};
    // What fails now stays owed until the next contact; a record can be kept meanwhile.
    static_cast<void>(journal->wipe_owed());
    return journal;
}

Journal::Journal(std::filesystem::path folder, std::unique_ptr<sqlite::Database> db,
                 std::optional<Recovery> recovery)
    : folder_{std::move(folder)},
      db_{std::move(db)},
      high_water_{high_water_file(folder_)},
      recovery_{std::move(recovery)} {
    std::map<std::string, std::uint32_t> heads;
    sqlite::Statement rows = db_->prepare("SELECT match_id, MAX(seq) FROM entry GROUP BY match_id");
    while (rows.step()) heads[rows.bytes(0)] = static_cast<std::uint32_t>(rows.number(1));
    if (recovery_) high_water_.reset(heads);
    for (const auto& [match_id, seq] : heads) high_water_.mark(match_id, seq);
}

Journal::~Journal() = default;

JournalError Journal::explain(const sqlite::SqliteFailure& failure) const {
    return explain_failure(failure, db_->system_error(), folder_);
}

std::optional<JournalError> Journal::append(const JournalEntry& entry, std::string_view signature) {
    const NewRow alone{entry, chain_hash(entry.bytes), signature};
    return append_rows({&alone, 1});
}

std::optional<JournalError> Journal::append(std::span<const Arrival> entries) {
    std::vector<NewRow> rows;
    for (const Arrival& arrival : entries) {
        JournalEntry row = row_of(arrival.entry);
        row.standing = arrival.standing;
        rows.push_back({row, row.hash, arrival.signature});
    }
    return append_rows(rows);
}

std::optional<JournalError> Journal::append_rows(std::span<const NewRow> rows) {
    const std::scoped_lock lock{mutex_};
    for (const auto& [entry, hash, signature] : rows)
        if (entry.bytes.empty() || entry.bytes.size() > most_entry_bytes)
            return JournalError{
                JournalError::Kind::too_large,
                fmt::format("An entry has {} bytes, at most {} are possible: shorten its words.",
                            entry.bytes.size(), most_entry_bytes)};
    try {
        sqlite::Transaction transaction{*db_};
        for (const NewRow& row : rows)
            if (auto error = append_row(row)) return error;
        transaction.commit();
    } catch (const sqlite::SqliteFailure& failure) {
        return explain(failure);
    }
    for (const NewRow& row : rows) high_water_.mark(row.entry.match_id, row.entry.seq);
    return std::nullopt;
}

std::optional<JournalError> Journal::append_row(const NewRow& row) {
    const auto& entry = row.entry;
    sqlite::Statement last =
        db_->prepare("SELECT seq, hash FROM entry WHERE match_id = ? ORDER BY seq DESC LIMIT 1");
    last.bind_text(1, entry.match_id);
    const bool first = !last.step();
    const auto seq = first ? 1 : last.number(0) + 1;
    const std::string prev = first ? first_hash(entry.match_id) : last.bytes(1);
    if (entry.seq != seq || entry.prev_hash != prev || entry.hash != row.true_hash)
        return JournalError{JournalError::Kind::out_of_order,
                            fmt::format("Entry {} of match {} does not follow entry {}: start "
                                        "the program again.",
                                        entry.seq, entry.match_id, seq - 1)};
    // A signature longer than any real one is worth nothing, and no reason to lose the entry.
    insert_entry(*db_, entry, row.signature.size() > most_signature_bytes ? "" : row.signature);
    return std::nullopt;
}

std::vector<JournalEntry> Journal::read_entries(std::string_view condition,
                                                std::string_view match_id, std::int64_t first,
                                                std::int64_t second) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement rows = db_->prepare(
        fmt::format("SELECT {} FROM entry WHERE match_id = ?1 {}", entry_columns, condition));
    rows.bind_text(1, match_id).bind(2, first).bind(3, second);
    std::vector<JournalEntry> out;
    while (rows.step()) out.push_back(entry_of(rows));
    return out;
}

std::vector<JournalEntry> Journal::entries(std::string_view match_id) const {
    return read_entries("AND seq > ?2 ORDER BY seq LIMIT ?3", match_id, 0, -1);
}

std::vector<JournalEntry> Journal::waiting(std::string_view match_id, std::size_t most) const {
    return read_entries(
        "AND state <> 'acknowledged' AND state = 'waiting' AND seq > ?2 ORDER BY seq LIMIT ?3",
        match_id, 0, static_cast<std::int64_t>(most));
}

std::vector<JournalEntry> Journal::unsettled(std::string_view match_id, std::uint32_t after,
                                             std::size_t most) const {
    return read_entries("AND state <> 'acknowledged' AND seq > ?2 ORDER BY seq LIMIT ?3", match_id,
                        after, static_cast<std::int64_t>(most));
}

std::optional<JournalEntry> Journal::entry(std::string_view match_id, std::uint32_t seq) const {
    auto found = read_entries("AND seq = ?2 LIMIT ?3", match_id, seq, 1);
    if (found.empty()) return std::nullopt;
    return std::move(found.front());
}

std::string Journal::signature(std::string_view match_id, std::uint32_t seq) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement row = db_->prepare(
        "SELECT signature.signature FROM entry JOIN signature ON signature.id = entry.id"
        " WHERE entry.match_id = ? AND entry.seq = ? AND signature.hash = entry.hash");
    row.bind_text(1, match_id).bind(2, seq);
    return row.step() ? row.bytes(0) : std::string{};
}

std::vector<std::string> Journal::matches_waiting() const {
    std::vector<std::string> out;
    for (const Tally& one : unsettled())
        if (one.waiting > 0) out.push_back(one.match_id);
    return out;
}

std::vector<Journal::Tally> Journal::unsettled() const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement rows = db_->prepare(
        "SELECT match_id, SUM(state = 'waiting'), SUM(state = 'refused'), SUM(state = 'on-branch')"
        " FROM entry WHERE state <> 'acknowledged' GROUP BY match_id ORDER BY MIN(id)");
    std::vector<Tally> out;
    while (rows.step())
        out.push_back({rows.bytes(0), static_cast<std::size_t>(rows.number(1)),
                       static_cast<std::size_t>(rows.number(2)),
                       static_cast<std::size_t>(rows.number(3)), 0});
    sqlite::Statement aside = db_->prepare(
        fmt::format("SELECT match_id, COUNT(*) FROM aside WHERE {} GROUP BY match_id ORDER BY"
                    " MIN(id)",
                    not_sent));
    while (aside.step()) {
        const std::string match_id = aside.bytes(0);
        auto found = std::find_if(out.begin(), out.end(),
                                  [&](const Tally& one) { return one.match_id == match_id; });
        if (found == out.end()) found = out.insert(out.end(), Tally{match_id, 0, 0, 0, 0});
        found->aside = static_cast<std::size_t>(aside.number(1));
    }
    return out;
}

std::vector<Journal::Aside> Journal::aside(std::string_view match_id, std::int64_t after,
                                           std::size_t most, Which which) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement rows = db_->prepare(fmt::format(
        "SELECT {}, id, (SELECT signature FROM signature WHERE signature.id = -aside.id"
        " AND signature.hash = aside.hash) FROM aside WHERE match_id = ? AND id > ? AND {}"
        " ORDER BY id LIMIT ?",
        entry_columns, which == Which::all ? "TRUE" : not_sent));
    rows.bind_text(1, match_id).bind(2, after).bind(3, static_cast<std::int64_t>(most));
    std::vector<Aside> out;
    while (rows.step()) out.push_back({rows.number(8), entry_of(rows), rows.bytes(9)});
    return out;
}

std::optional<JournalError> Journal::settle_aside(
    const std::vector<std::pair<std::int64_t, EntryStanding>>& settled) {
    return write([&](sqlite::Database& db) {
        sqlite::Statement update = db.prepare("UPDATE aside SET state = ? WHERE id = ?");
        for (const auto& [id, standing] : settled)
            update.bind_text(1, word(standing)).bind(2, id).run();
    });
}

std::vector<std::string> Journal::matches_recorded() const {
    const std::scoped_lock lock{mutex_};
    // The first entry of each match, so that the index on the place does most of the work.
    sqlite::Statement rows = db_->prepare("SELECT match_id FROM entry WHERE seq = 1 ORDER BY id");
    std::vector<std::string> out;
    while (rows.step()) out.push_back(rows.bytes(0));
    return out;
}

std::size_t Journal::waiting_count() const {
    const std::scoped_lock lock{mutex_};
    return static_cast<std::size_t>(
        db_->number("SELECT COUNT(*) FROM entry WHERE state <> 'acknowledged'"
                    " AND state = 'waiting'"));
}

std::size_t Journal::count(std::string_view match_id, EntryStanding standing) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement row = db_->prepare(
        fmt::format("SELECT COUNT(*) FROM entry WHERE {} AND match_id = ?", stands(standing)));
    row.bind_text(1, match_id);
    return row.step() ? static_cast<std::size_t>(row.number(0)) : 0;
}

std::uint32_t Journal::seq_of(std::string_view query, std::string_view match_id) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement row = db_->prepare(query);
    row.bind_text(1, match_id);
    return row.step() ? static_cast<std::uint32_t>(row.number(0)) : 0;
}

std::uint32_t Journal::last_seq(std::string_view match_id) const {
    return seq_of("SELECT MAX(seq) FROM entry WHERE match_id = ?", match_id);
}

std::uint32_t Journal::last_seq(std::string_view match_id, EntryStanding standing) const {
    return seq_of(fmt::format("SELECT seq FROM entry WHERE match_id = ? AND {} ORDER BY seq DESC"
                              " LIMIT 1",
                              stands(standing)),
                  match_id);
}

std::uint32_t Journal::first_seq(std::string_view match_id, EntryStanding standing) const {
    return seq_of(
        fmt::format("SELECT seq FROM entry WHERE match_id = ? AND {} ORDER BY seq LIMIT 1",
                    stands(standing)),
        match_id);
}

template <class Change>
std::optional<JournalError> Journal::write(Change change) {
    const std::scoped_lock lock{mutex_};
    try {
        sqlite::Transaction transaction{*db_};
        change(*db_);
        transaction.commit();
    } catch (const sqlite::SqliteFailure& failure) {
        return explain(failure);
    }
    return std::nullopt;
}

std::optional<JournalError> Journal::settle(std::string_view match_id,
                                            const std::vector<Settled>& settled,
                                            const Settings& settings) {
    return write([&](sqlite::Database& db) {
        sqlite::Statement update =
            db.prepare("UPDATE entry SET state = ? WHERE match_id = ? AND seq = ?");
        for (const Settled& one : settled)
            update.bind_text(1, word(one.standing)).bind_text(2, match_id).bind(3, one.seq).run();
        store_rows(db, {}, settings);
    });
}

std::optional<JournalError> Journal::wait_again_after(std::string_view match_id,
                                                      std::uint32_t head) {
    return write([&](sqlite::Database& db) {
        db.prepare(
              "UPDATE entry SET state = 'waiting' WHERE match_id = ? AND seq > ?"
              " AND state = 'acknowledged'")
            .bind_text(1, match_id)
            .bind(2, head)
            .run();
    });
}

std::optional<JournalError> Journal::set_aside_after(std::string_view match_id, std::uint32_t head,
                                                     std::string_view why) {
    std::optional<JournalError> unsent;
    auto failure = write([&](sqlite::Database& db) {
        sqlite::Statement rows = db.prepare(
            fmt::format("SELECT {}, (SELECT signature FROM signature WHERE signature.id = entry.id"
                        " AND signature.hash = entry.hash) FROM entry WHERE match_id = ? AND"
                        " seq > ? ORDER BY seq",
                        entry_columns));
        rows.bind_text(1, match_id).bind(2, head);
        std::vector<JournalEntry> tail;
        std::vector<std::string> signatures;
        while (rows.step()) {
            tail.push_back(entry_of(rows));
            signatures.push_back(rows.bytes(8));
        }
        if (const JournalEntry* entry = must_stay(tail))
            unsent = JournalError{JournalError::Kind::out_of_order,
                                  fmt::format("Entry {} of match {} is not with the server yet.",
                                              entry->seq, entry->match_id)};
        if (unsent || tail.empty()) return;
        // Before the rows go: a mark that is too low only makes a loss less exact, one that is too
        // high would be taken for damage.
        high_water_.lower(std::string{match_id}, head);
        for (const char* table : {"DELETE FROM signature WHERE id IN"
                                  " (SELECT id FROM entry WHERE match_id = ? AND seq > ?)",
                                  "DELETE FROM entry WHERE match_id = ? AND seq > ?"})
            db.prepare(table).bind_text(1, match_id).bind(2, head).run();
        for (std::size_t i = 0; i < tail.size(); ++i) insert_aside(db, tail[i], why, signatures[i]);
    });
    return failure ? failure : unsent;
}

std::vector<StoredMatch> Journal::matches() const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement rows = db_->prepare("SELECT match_id, sheet FROM match ORDER BY rowid");
    std::vector<StoredMatch> out;
    while (rows.step()) out.push_back(StoredMatch{rows.bytes(0), rows.bytes(1)});
    return out;
}

std::optional<StoredMatch> Journal::match(std::string_view match_id) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement row = db_->prepare("SELECT match_id, sheet FROM match WHERE match_id = ?");
    row.bind_text(1, match_id);
    if (!row.step()) return std::nullopt;
    return StoredMatch{row.bytes(0), row.bytes(1)};
}

std::string Journal::setting(std::string_view name) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement row = db_->prepare("SELECT value FROM setting WHERE name = ?");
    row.bind_text(1, name);
    return row.step() ? row.bytes(0) : std::string{};
}

bool Journal::has_setting(std::string_view name) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement row = db_->prepare("SELECT 1 FROM setting WHERE name = ?");
    row.bind_text(1, name);
    return row.step();
}

std::optional<JournalError> Journal::trim_settings(std::string_view prefix, std::size_t most) {
    return write([&](sqlite::Database& db) {
        db.prepare(
              "DELETE FROM setting WHERE substr(name, 1, ?1) = ?2 AND length(value) = 0"
              " AND rowid NOT IN (SELECT rowid FROM setting WHERE substr(name, 1, ?1) = ?2"
              " AND length(value) = 0 ORDER BY rowid DESC LIMIT ?3)")
            .bind(1, static_cast<std::int64_t>(prefix.size()))
            .bind_text(2, prefix)
            .bind(3, static_cast<std::int64_t>(most))
            .run();
    });
}

std::vector<std::pair<std::string, std::string>> Journal::settings(std::string_view prefix) const {
    const std::scoped_lock lock{mutex_};
    sqlite::Statement rows = db_->prepare(
        "SELECT name, value FROM setting WHERE substr(name, 1, ?) = ? AND length(value) > 0"
        " ORDER BY name");
    rows.bind(1, static_cast<std::int64_t>(prefix.size())).bind_text(2, prefix);
    std::vector<std::pair<std::string, std::string>> out;
    while (rows.step()) out.emplace_back(rows.bytes(0), rows.bytes(1));
    return out;
}

std::optional<JournalError> Journal::store(
    const std::vector<StoredMatch>& matches,
    const std::vector<std::pair<std::string, std::string>>& settings) {
    for (const StoredMatch& match : matches)
        if (match.sheet.size() > most_sheet_bytes)
            return JournalError{JournalError::Kind::too_large,
                                fmt::format("The sheet of match {} has {} bytes, at most {} are "
                                            "possible: shorten names in its team lists.",
                                            match.match_id, match.sheet.size(), most_sheet_bytes)};
    for (const auto& [name, value] : settings)
        if (value.size() > most_setting_bytes)
            return JournalError{JournalError::Kind::too_large,
                                fmt::format("The setting {} is too long.", name)};
    return write([&](sqlite::Database& db) { store_rows(db, matches, settings); });
}

std::optional<JournalError> Journal::store_wiping(
    const std::vector<StoredMatch>& matches,
    std::vector<std::pair<std::string, std::string>> settings) {
    settings.emplace_back(wiping_setting, "owed");
    if (auto error = store(matches, settings)) return error;
    return wipe_owed();
}

std::optional<JournalError> Journal::wipe_owed() {
    if (setting(wiping_setting).empty()) return std::nullopt;
    const std::scoped_lock lock{mutex_};
    try {
        check_in(*db_);
        sqlite::Transaction transaction{*db_};
        store_rows(*db_, {}, {{wiping_setting, ""}});
        transaction.commit();
    } catch (const sqlite::SqliteFailure& failure) {
        return explain(failure);
    }
    return std::nullopt;
}

}  // namespace courthand::client
