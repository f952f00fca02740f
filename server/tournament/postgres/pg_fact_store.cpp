#include "server/tournament/postgres/pg_fact_store.h"

#include <algorithm>

#include "server/store/postgres/key_range.h"
#include "server/store/postgres/store_failure.h"
#include "server/store/postgres/text_form.h"
#include "server/store/postgres/trace.h"

namespace courthand::server::tournament {

namespace {

using postgres::ArrayText;
using postgres::Database;

Database::Statements statements() {
    return {
        // One row whenever there is such a tournament, its record empty or not.
        {"fact_head",
         "select f.number, f.hash from tournament t left join lateral "
         "(select number, hash from tournament_fact where tournament_id = $1 "
         "order by number desc limit 1) f on true where t.tournament_id = $1"},
        {"fact_page",
         "select number, fact_id, device_id, hash, bytes, "
         "(extract(epoch from stored_at) * 1000000)::bigint, salt, words, words_left_out "
         "from tournament_fact "
         "where tournament_id = $1 and number > $2 order by number limit $3"},
        {"fact_known",
         "select k.device_id from unnest($2::uuid[]) as u(id) cross join lateral "
         "(select device_id from tournament_fact where tournament_id = $1 and " +
             postgres::by_key("fact_id", "u.id") + " limit 1) k"},
        {"fact_add",
         "insert into tournament_fact (tournament_id, number, fact_id, device_id, hash, bytes, "
         "salt, words) select $1, * from unnest($2::int[], $3::uuid[], $4::uuid[], $5::bytea[], "
         "$6::bytea[], $7::bytea[], $8::bytea[]) "
         "returning (extract(epoch from stored_at) * 1000000)::bigint"},
        {"fact_ends",
         "select match_id, head_hash from match where tournament_id = $1 "
         "and match_id = any($2::uuid[])"},
        {"fact_erase",
         "update tournament_fact set salt = null, words = null where tournament_id = $1 "
         "and number = any($2::int[]) and salt is not null returning number"},
    };
}

FactHead head_in(pqxx::work& work, const std::string& tournament) {
    const pqxx::result row = work.exec_prepared("fact_head", tournament);
    if (row.empty())
        throw postgres::StoreFailure{
            Status::failed(StatusCode::not_found, "there is no such tournament")};
    if (row[0][0].is_null()) return {};
    return {row[0][0].as<FactNumber>(), postgres::hash_of_field(row[0][1])};
}

KeptFact fact_of(const pqxx::row& row) {
    KeptFact fact;
    fact.number = row[0].as<FactNumber>();
    fact.id = postgres::id_of<FactId>(row[1]);
    fact.device = postgres::id_of<DeviceId>(row[2]);
    fact.hash = postgres::hash_of_field(row[3]);
    fact.bytes = std::make_shared<const std::string>(postgres::bytes_of(row[4]));
    fact.stored_at = postgres::moment(row[5]);
    if (!row[6].is_null())
        fact.beside = BesideWords{postgres::bytes_of(row[6]), postgres::bytes_of(row[7])};
    fact.left_out = row[8].as<bool>();
    return fact;
}

/// How many of these stand in the record already. Throws `conflict` for what another device did.
std::size_t had(pqxx::work& work, const std::string& tournament, std::span<const KeptFact> facts) {
    ArrayText ids;
    for (const KeptFact& fact : facts) ids.add(to_text(fact.id));
    const pqxx::result known = work.exec_prepared("fact_known", tournament, ids.text());
    for (const pqxx::row& row : known)
        if (postgres::id_of<DeviceId>(row[0]) != facts.front().device)
            throw postgres::StoreFailure{id_taken()};
    return static_cast<std::size_t>(known.size());
}

/// The match of one of these ends that is an end no more. Under the sequencer, which entries of
/// matches wait for as well.
std::optional<MatchId> outwritten(pqxx::work& work, const std::string& tournament,
                                  std::span<const RecordEnd> ends) {
    if (ends.empty()) return std::nullopt;
    ArrayText ids;
    for (const RecordEnd& end : ends) ids.add(to_text(end.match));
    for (const pqxx::row& row : work.exec_prepared("fact_ends", tournament, ids.text())) {
        const auto match = postgres::id_of<MatchId>(row[0]);
        const Hash hash = postgres::hash_of_field(row[1]);
        for (const RecordEnd& end : ends)
            if (end.match == match && end.hash != hash) return match;
    }
    return std::nullopt;
}

/// Answers when: all of one call at the same moment.
ServerTime add(pqxx::work& work, const std::string& tournament, std::span<const KeptFact> facts) {
    ArrayText numbers, ids, devices, hashes, bytes, salts, words;
    for (const KeptFact& fact : facts) {
        numbers.add_number(fact.number);
        ids.add(to_text(fact.id));
        devices.add(to_text(fact.device));
        hashes.add(postgres::bytea(fact.hash));
        bytes.add(postgres::bytea(*fact.bytes));
        if (fact.beside) {
            salts.add(postgres::bytea(fact.beside->salt));
            words.add(postgres::bytea(fact.beside->text));
        } else {
            salts.add_null();
            words.add_null();
        }
    }
    const pqxx::result added =
        work.exec_prepared("fact_add", tournament, numbers.text(), ids.text(), devices.text(),
                           hashes.text(), bytes.text(), salts.text(), words.text());
    return postgres::moment(added[0][0]);
}

}  // namespace

PgFactStore::PgFactStore(Database& database, postgres::PgMatchStore& feed)
    : database_{database}, feed_{feed} {
    database_.add_statements(statements());
}

Result<FactHead> PgFactStore::head(TournamentId tournament) {
    return database_.perform("read the end of the tournament's record",
                             [&](pqxx::work& work) { return head_in(work, to_text(tournament)); });
}

Result<std::vector<KeptFact>> PgFactStore::read(TournamentId tournament, FactNumber after,
                                                std::size_t most) {
    return database_.perform("read the tournament's record", [&](pqxx::work& work) {
        const std::string id = to_text(tournament);
        (void)head_in(work, id);
        std::vector<KeptFact> facts;
        const auto count = static_cast<std::int64_t>(std::min(most, most_facts_per_page));
        const auto from = static_cast<std::int64_t>(std::min<FactNumber>(after, most_facts));
        for (const pqxx::row& row : work.exec_prepared("fact_page", id, from, count))
            facts.push_back(fact_of(row));
        return facts;
    });
}

Result<FactAppend> PgFactStore::append(TournamentId tournament, const FactHead& seen,
                                       std::span<const KeptFact> facts,
                                       std::span<const RecordEnd> rests_on) {
    if (const Status status = fits(seen, facts); !status.ok()) return status;
    auto added = database_.perform("add to the tournament's record", [&](pqxx::work& work) {
        const std::string id = to_text(tournament);
        const FeedPosition feed = postgres::lock_sequencer(work, tournament);
        const FactHead head = head_in(work, id);
        const std::size_t known = had(work, id, facts);
        if (known == facts.size()) return FactAppend{FactAppend::Fate::already_had, head, {}, {}};
        if (known != 0) throw postgres::StoreFailure{id_taken()};
        if (head != seen) return FactAppend{FactAppend::Fate::behind, head, {}, {}};
        if (const auto match = outwritten(work, id, rests_on))
            return FactAppend{FactAppend::Fate::outwritten, head, *match, {}};
        const ServerTime stored_at = add(work, id, facts);
        (void)postgres::add_feed_item(work, tournament, feed, grown());
        postgres::leave_trace(work);
        return FactAppend{
            FactAppend::Fate::appended, {facts.back().number, facts.back().hash}, {}, stored_at};
    });
    if (added.ok() && added->fate == FactAppend::Fate::appended) feed_.tell(tournament);
    return added;
}

Result<std::size_t> PgFactStore::erase_beside(TournamentId tournament,
                                              std::span<const FactNumber> facts) {
    if (const Status status = fits_erasing(facts); !status.ok()) return status;
    auto gone = database_.perform("erase words of the tournament's record", [&](pqxx::work& work) {
        const std::string id = to_text(tournament);
        const FeedPosition feed = postgres::lock_sequencer(work, tournament);
        ArrayText numbers;
        for (const FactNumber number : facts)
            if (number <= most_facts) numbers.add_number(number);
        std::vector<FactNumber> had;
        for (const pqxx::row& row : work.exec_prepared("fact_erase", id, numbers.text()))
            had.push_back(row[0].as<FactNumber>());
        if (had.empty()) return had.size();
        (void)postgres::add_feed_item(work, tournament, feed, erased(had));
        postgres::leave_trace(work);
        return had.size();
    });
    if (gone.ok() && *gone != 0) feed_.tell(tournament);
    return gone;
}

}  // namespace courthand::server::tournament
