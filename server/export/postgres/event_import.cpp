#include "server/export/postgres/event_import.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <map>
#include <optional>
#include <system_error>
#include <utility>

#include "event_file/running_hash.h"
#include "server/domain/record_start.h"
#include "server/export/planned_match.h"
#include "server/store/postgres/database.h"
#include "server/store/postgres/match_rows.h"
#include "server/store/postgres/store_failure.h"
#include "server/store/postgres/text_form.h"
#include "wire/event_entry.h"

namespace courthand::server::exports {
namespace {

using event_file::Beside;
using event_file::BesideRecord;
using event_file::BranchLine;
using event_file::EntryLine;
using event_file::FactLine;
using event_file::Fault;
using event_file::HeadLine;
using event_file::MatchLine;
using event_file::RecordLine;
using event_file::Verdict;
using postgres::ArrayText;

constexpr std::size_t rows_at_once = 256;

Status unreadable(const std::filesystem::path& file) {
    return Status::failed(StatusCode::invalid, file.string() + " cannot be read",
                          "check the name and its rights");
}

Status no_plain_file(const std::filesystem::path& file) {
    return Status::failed(
        StatusCode::invalid,
        fmt::format("{} is no regular file, and an event is read twice: first to check it, then "
                    "to keep it",
                    file.string()),
        "write it to a file on a disk and import that");
}

/// Puts the lines of a file that was checked into the tables, inside one transaction.
class Rows {
  public:
    Rows(pqxx::work& work, TournamentId tournament)
        : work_{work}, tournament_{tournament}, id_{to_text(tournament)} {}

    void take(const HeadLine& head) {
        // There is no earlier desk whose teams and courts would have to move into the record.
        work_.exec_params(
            "insert into tournament (tournament_id, name, generation, place, desk_moved_at) "
            "values ($1, $2, gen_random_uuid(), database_place(), now())",
            id_, head.name);
    }
    void take(const FactLine& line) {
        const auto read = wire::read_event_entry(line.bytes);
        const auto& header = std::get<wire::ReadEventEntry>(read).header();
        facts_.numbers.add_number(line.number);
        facts_.ids.add(header.entry_id.to_text());
        facts_.devices.add(header.device_id.to_text());
        facts_.hashes.add(postgres::bytea(line.hash));
        facts_.bytes.add(postgres::bytea(line.bytes));
        if (line.beside.state == Beside::State::words) {
            facts_.salts.add(postgres::bytea(line.beside.salt));
            facts_.words.add(postgres::bytea(line.beside.text));
        } else {
            facts_.salts.add_null();
            facts_.words.add_null();
        }
        facts_.left_out.add(line.beside.state == Beside::State::left_out ? "true" : "false");
        if (++facts_.count == rows_at_once) flush_facts();
    }
    void take(const MatchLine& line) {
        const Result<MatchPlan> plan = plan_of(line.plan, tournament_);
        if (!plan.ok()) throw postgres::StoreFailure{plan.status()};
        end_match();
        match_ = to_text(plan->key.match);
        make_match(*plan);
    }
    void take(const EntryLine& line) {
        const auto read = wire::read_entry(line.bytes);
        const wire::EntryHeader header = std::get<wire::ReadEntry>(read).header();
        entries_.numbers.add_number(line.number);
        entries_.epochs.add_number(header.epoch);
        entries_.ids.add(header.entry_id.to_text());
        entries_.devices.add(header.device_id.to_text());
        entries_.hashes.add(postgres::bytea(line.hash));
        entries_.bytes.add(postgres::bytea(line.bytes));
        entries_.positions.add_number(++position_);
        if (line.signature.empty())
            entries_.signatures.add_null();
        else
            entries_.signatures.add(postgres::bytea(line.signature));
        if (header.epoch != last_.epoch) note_epoch(header, line.number);
        last_ = header;
        last_hash_ = line.hash;
        if (++entries_.count == rows_at_once) flush_entries();
    }
    void take(const BranchLine& line) {
        flush_entries();
        const auto read = wire::read_entry(line.bytes);
        const wire::EntryHeader header = std::get<wire::ReadEntry>(read).header();
        std::optional<std::string> signature;
        if (!line.signature.empty()) signature = postgres::bytea(line.signature);
        work_.exec_params(
            "insert into branch (tournament_id, match_id, number, epoch, entry_id, device_id, "
            "hash, bytes, position, signature, branch, why, previous) values ($1, $2, $3, $4, $5, "
            "$6, $7::bytea, $8::bytea, $9, $10::bytea, $11, 'imported', $12::bytea)",
            id_, match_, line.number, header.epoch, header.entry_id.to_text(),
            header.device_id.to_text(), postgres::bytea(line.hash), postgres::bytea(line.bytes),
            ++position_, signature, line.branch, postgres::bytea(header.prev_hash));
        beside_.branches = std::max(beside_.branches, line.branch);
        ++beside_.entries;
    }
    /// What follows from the facts is not kept: it is folded.
    template <class Derived>
    void take(const Derived&) {}

    void end() {
        flush_facts();
        end_match();
        work_.exec_params("update tournament set feed_head = $2 where tournament_id = $1", id_,
                          position_);
    }

  private:
    struct Facts {
        ArrayText numbers, ids, devices, hashes, bytes, salts, words, left_out;
        std::size_t count = 0;
    };
    struct Entries {
        ArrayText numbers, epochs, ids, devices, hashes, bytes, positions, signatures;
        std::size_t count = 0;
    };

    void flush_facts() {
        if (facts_.count == 0) return;
        work_.exec_params(
            "insert into tournament_fact (tournament_id, number, fact_id, device_id, hash, bytes, "
            "salt, words, words_left_out) select $1, * from unnest($2::int[], $3::uuid[], "
            "$4::uuid[], $5::bytea[], $6::bytea[], $7::bytea[], $8::bytea[], $9::boolean[])",
            id_, facts_.numbers.text(), facts_.ids.text(), facts_.devices.text(),
            facts_.hashes.text(), facts_.bytes.text(), facts_.salts.text(), facts_.words.text(),
            facts_.left_out.text());
        facts_ = {};
    }
    void flush_entries() {
        if (entries_.count == 0) return;
        work_.exec_params(
            "insert into entry (tournament_id, match_id, number, epoch, entry_id, device_id, hash, "
            "bytes, position, signature) select $1, $2, * from unnest($3::int[], $4::int[], "
            "$5::uuid[], $6::uuid[], $7::bytea[], $8::bytea[], $9::bigint[], $10::bytea[])",
            id_, match_, entries_.numbers.text(), entries_.epochs.text(), entries_.ids.text(),
            entries_.devices.text(), entries_.hashes.text(), entries_.bytes.text(),
            entries_.positions.text(), entries_.signatures.text());
        entries_ = {};
    }

    void make_match(const MatchPlan& plan) {
        work_.exec_params(
            "insert into match (tournament_id, match_id, number, court, first_team, first_name, "
            "first_club, first_colour, second_team, second_name, second_club, second_colour, "
            "format, profile, profile_hash, status, scheduled_at, opened_at_table, name, "
            "head_hash, moved_in) select $1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, "
            "$13::smallint[], "
            "$14, $15::bytea, $16, to_timestamp($17::float8 / 1000000), $18, $19, "
            "$20::bytea, generation from tournament where tournament_id = $1",
            id_, match_, plan.number, plan.court, postgres::text_or_null(plan.first.id),
            plan.first.name, plan.first.club, plan.first.colour,
            postgres::text_or_null(plan.second.id), plan.second.name, plan.second.club,
            plan.second.colour, postgres::format_text(plan.format), plan.profile,
            postgres::profile_hash_text(plan.profile_hash), static_cast<int>(plan.status),
            postgres::microseconds(plan.scheduled_at), plan.opened_at_table, plan.name,
            postgres::bytea(start_hash(plan.key.match)));
    }

    /// Who wrote is told by the entries; the grants themselves stay with the other server.
    void note_epoch(const wire::EntryHeader& header, std::uint32_t from) {
        work_.exec_params(
            "insert into writer_epoch (tournament_id, match_id, epoch, grant_id, device_id, how, "
            "reason, from_number) values ($1, $2, $3, gen_random_uuid(), $4, 'granted', "
            "'imported', $5)",
            id_, match_, header.epoch, header.device_id.to_text(), from);
    }

    void end_match() {
        flush_entries();
        if (last_.seq != 0)
            work_.exec_params(
                "update match m set epoch = w.epoch, grant_id = w.grant_id, writer = w.device_id, "
                "last_number = $3, head_hash = $4::bytea from writer_epoch w where "
                "m.tournament_id = $1 and m.match_id = $2 and w.tournament_id = $1 and "
                "w.match_id = $2 and w.epoch = $5",
                id_, match_, last_.seq, postgres::bytea(last_hash_), last_.epoch);
        if (beside_.entries != 0)
            work_.exec_params(
                "update match set branches = $3, branch_entries = $4 where tournament_id = $1 and "
                "match_id = $2",
                id_, match_, beside_.branches, beside_.entries);
        last_ = {};
        beside_ = {};
    }

    pqxx::work& work_;
    TournamentId tournament_;
    std::string id_;
    std::string match_;
    Facts facts_;
    Entries entries_;
    struct Counts {
        std::uint32_t branches = 0;  ///< number of the last
        std::uint32_t entries = 0;
    };

    wire::EntryHeader last_;
    Counts beside_;  ///< the record of the match
    wire::Hash last_hash_{};
    std::uint64_t position_ = 0;
};

Status another_file() {
    return Status::failed(StatusCode::invalid,
                          "the file was changed while it was read, and nothing of it was kept",
                          "leave it alone and import it again");
}

/// Calls `visit(line)` for each line of a file that was checked, whose lines before the last have
/// this hash. Throws when they are not what was checked.
template <class Visit>
void for_each_line(const std::filesystem::path& path, const wire::Hash& checked, Visit visit) {
    std::ifstream file{path, std::ios::binary};
    event_file::RunningHash hash;
    std::uint32_t number = 0;
    bool ended = false;
    for (std::string text; std::getline(file, text);) {
        if (ended) throw postgres::StoreFailure{another_file()};
        const auto read = event_file::read_line(text, ++number);
        if (const auto* why = std::get_if<Fault>(&read))
            throw postgres::StoreFailure{
                Status::failed(StatusCode::invalid, why->message, why->cure)};
        const auto& line = std::get<event_file::Line>(read);
        ended = std::holds_alternative<event_file::EndLine>(line);
        if (!ended) {
            hash.add(text);
            hash.add("\n");
        }
        visit(line);
    }
    if (!ended || hash.end() != checked) throw postgres::StoreFailure{another_file()};
}

/// The end of a record, and what lies beside it.
struct RecordEnd {
    wire::Head head;
    BesideRecord beside;
    friend bool operator==(const RecordEnd&, const RecordEnd&) = default;
};

/// The ends of all records that the database has of this tournament.
std::map<wire::Uuid, RecordEnd> kept_ends(pqxx::work& work, const std::string& id) {
    std::map<wire::Uuid, RecordEnd> ends;
    const auto record = [](const pqxx::row& row) { return *wire::Uuid::from_text(row[0].c_str()); };
    const auto add = [&](const pqxx::row& row) {
        ends[record(row)].head = {row[1].as<std::uint32_t>(), postgres::hash_of_field(row[2])};
    };
    for (const auto& row : work.exec_params(
             "select tournament_id, number, hash from tournament_fact where tournament_id = $1 "
             "order by number desc limit 1",
             id))
        add(row);
    for (const auto& row : work.exec_params(
             "select match_id, last_number, head_hash from match where tournament_id = $1", id))
        add(row);
    std::map<wire::Uuid, std::vector<wire::Hash>> beside;
    for (const auto& row : work.exec_params(
             "select match_id, hash from branch where tournament_id = $1 order by position", id))
        beside[record(row)].push_back(postgres::hash_of_field(row[1]));
    for (const auto& [match, hashes] : beside)
        ends[match].beside = event_file::beside_record(hashes);
    return ends;
}

bool is_the_same(pqxx::work& work, const std::string& id, const std::filesystem::path& file,
                 const wire::Hash& checked) {
    std::map<wire::Uuid, RecordEnd> told;
    for_each_line(file, checked, [&](const event_file::Line& line) {
        if (const auto* end = std::get_if<RecordLine>(&line))
            if (end->head.seq != 0 || end->record.to_text() != id)
                told[end->record] = {end->head, end->beside};
    });
    return told == kept_ends(work, id);
}

/// True: the database has this very event. A failure when it has another.
bool had_already(pqxx::work& work, TournamentId tournament, const std::filesystem::path& file,
                 const wire::Hash& checked) {
    // Two imports at once wait for each other here.
    work.exec("lock table tournament in share row exclusive mode");
    const std::string id = to_text(tournament);
    for (const auto& row : work.exec("select tournament_id, name from tournament")) {
        if (row[0].c_str() != id)
            throw postgres::StoreFailure{Status::failed(
                StatusCode::already_exists,
                fmt::format("the database has a tournament already, \"{}\"", row[1].c_str()),
                "name an empty database")};
        if (!is_the_same(work, id, file, checked))
            throw postgres::StoreFailure{Status::failed(
                StatusCode::already_exists,
                fmt::format("the database has \"{}\" already, and its records are not those of the "
                            "file",
                            row[1].c_str()),
                "name an empty database, and compare the two")};
        return true;
    }
    return false;
}

}  // namespace

Result<Imported> import_event(const std::filesystem::path& file, postgres::Database& database,
                              std::vector<Fault>& faults) {
    std::error_code unknown;
    const auto type = std::filesystem::status(file, unknown).type();
    if (type == std::filesystem::file_type::not_found) return unreadable(file);
    if (type != std::filesystem::file_type::regular) return no_plain_file(file);
    std::ifstream in{file, std::ios::binary};
    if (!in) return unreadable(file);
    Imported imported;
    imported.verdict = event_file::verify(in);
    if (in.bad()) return unreadable(file);
    if (imported.verdict.is != Verdict::Is::whole) {
        faults = imported.verdict.faults;
        return Status::failed(
            StatusCode::invalid,
            fmt::format("{} does not hold, and nothing of it was kept", file.string()),
            "mend what is told above, or take another copy");
    }
    imported.tournament = TournamentId{Uuid{imported.verdict.tournament.bytes()}};
    const auto had = database.perform("import an event", [&](pqxx::work& work) {
        work.exec("set local statement_timeout = 0");
        if (had_already(work, imported.tournament, file, imported.verdict.end)) return true;
        Rows rows{work, imported.tournament};
        for_each_line(file, imported.verdict.end, [&](const event_file::Line& line) {
            std::visit([&](const auto& kind) { rows.take(kind); }, line);
        });
        rows.end();
        return false;
    });
    if (!had.ok()) return had.status();
    imported.had = *had;
    return imported;
}

}  // namespace courthand::server::exports
