#include "server/store/postgres/quick_append.h"

#include "server/store/postgres/key_range.h"
#include "server/store/postgres/text_form.h"

namespace courthand::server::postgres {
namespace {

// The order of locks is that of the transaction: the tournament's row, then those of the matches;
// `heads` waits for `moved`. Positions come from the row itself, so that another server's appends
// to other matches are no miss.
constexpr const char* moved_heads_and_entries =
    "with moved as (update tournament set feed_head = feed_head + cardinality($12::int[]) "
    "where tournament_id = $1 and generation = $2::uuid "
    "returning feed_head - cardinality($12::int[]) as before), "
    "heads as (update match m set last_number = u.last, head_hash = u.hash, moved_in = $2::uuid "
    "from moved, unnest($3::uuid[], $4::int[], $5::uuid[], $6::uuid[], $7::int[], $8::bytea[], "
    "$9::int[], $10::bytea[], $11::bool[]) as u(match_id, epoch, grant_id, writer, was_last, "
    "was_hash, last, hash, checked) "
    // Looked up by their whole keys one by one: a plan that was made when the table was empty would
    // read all matches of the tournament and compare them with these.
    "cross join lateral (select ctid as at from match where tournament_id = $1 "
    "and match_id = u.match_id limit 1) as l "
    "where m.ctid = l.at and m.epoch = u.epoch "
    "and m.grant_id = u.grant_id and m.writer = u.writer and m.last_number = u.was_last "
    "and m.head_hash = u.was_hash and (u.checked or m.branch_entries = 0) returning 1), "
    // Hash, bytes and signature of the items lie one behind the other in one parameter.
    "kept as (insert into entry (tournament_id, match_id, number, epoch, entry_id, device_id, "
    "hash, bytes, position, signature) select $1, ($3::uuid[])[i.which], i.number, "
    "($4::int[])[i.which], i.id, ($6::uuid[])[i.which], substring($15::bytea from i.at for 32), "
    "substring($15::bytea from i.at + 32 for i.length), moved.before + i.n, "
    "case when i.signed > 0 then substring($15::bytea from i.at + 32 + i.length for i.signed) end "
    "from moved, unnest($12::int[], $13::int[], $14::uuid[], $16::int[], $17::int[], $18::int[]) "
    "with ordinality as i(which, number, id, at, length, signed, n)) ";

/// Where something lies beside the record, neither an item nor what follows it may lie there.
std::string guard() {
    return "select case when (select count(*) from heads) = cardinality($3::uuid[]) "
           "and not exists (select from unnest($19::uuid[]) as c(id) where "
           "(select true from branch where tournament_id = $1 and " +
           by_key("entry_id", "c.id") +
           " limit 1)) "
           "and not exists (select from unnest($20::uuid[], $21::bytea[]) as c(match_id, hash) "
           "where (select true from branch b where b.tournament_id = $1 "
           "and b.match_id = c.match_id and " +
           by_key("b.previous", "c.hash") +
           " limit 1)) "
           "then coalesce((select before from moved), append_guard_missed()) "
           "else append_guard_missed() end";
}

struct MatchArrays {
    ArrayText match, epoch, grant, writer, was_last, was_hash, last, hash, checked;

    explicit MatchArrays(const QuickAppend& append) {
        for (const QuickAppend::Moved& moved : append.matches) {
            match.add(to_text(moved.match));
            epoch.add_number(moved.before.epoch);
            grant.add(to_text(moved.before.grant));
            writer.add(to_text(moved.before.writer));
            was_last.add_number(moved.before.last);
            was_hash.add(bytea(moved.before.hash));
            last.add_number(moved.after.last);
            hash.add(bytea(moved.after.hash));
            checked.add(moved.entries_beside ? "t" : "f");
        }
    }
};

struct ItemArrays {
    ArrayText which, number, id, at, length, signature_length;
    ArrayText check_id, check_match, check_hash;
    std::string bytes;

    ItemArrays(const QuickAppend& append, std::span<const AppendItem> items) {
        for (std::size_t i = 0; i < items.size(); ++i) {
            const AppendItem& item = items[i];
            which.add_number(append.which[i] + 1);
            number.add_number(item.number);
            id.add(to_text(item.id));
            at.add_number(bytes.size() + 1);
            length.add_number(item.bytes->size());
            signature_length.add_number(item.signature.size());
            bytes.append(reinterpret_cast<const char*>(item.hash.data()), item.hash.size());
            bytes.append(*item.bytes).append(item.signature);
            if (append.matches[append.which[i]].entries_beside) check(item);
        }
    }

  private:
    void check(const AppendItem& item) {
        check_id.add(to_text(item.id));
        check_match.add(to_text(item.match));
        check_hash.add(bytea(item.hash));
    }
};

}  // namespace

Database::Statements quick_append_statements() {
    return {{"quick_append", moved_heads_and_entries + guard()}};
}

void HeadCache::learn(const AppendOutcome& outcome) {
    if (generation_ != outcome.generation || heads_.size() + outcome.matches.size() > most_heads)
        heads_.clear();
    generation_ = outcome.generation;
    for (const auto& [match, at] : outcome.matches)
        heads_[match] = {at.head, at.beside.entries != 0};
}

const HeadCache::Known* HeadCache::find(MatchId match) const {
    const auto found = heads_.find(match);
    return found == heads_.end() ? nullptr : &found->second;
}

std::optional<QuickAppend> quick_append(const HeadCache& cache, std::span<const AppendItem> items) {
    if (items.empty()) return std::nullopt;
    QuickAppend append;
    append.generation = cache.generation();
    std::unordered_map<MatchId, std::size_t> places;
    for (const AppendItem& item : items) {
        const auto [place, is_new] = places.try_emplace(item.match, append.matches.size());
        if (is_new) {
            const HeadCache::Known* const known = cache.find(item.match);
            if (known == nullptr) return std::nullopt;
            append.matches.push_back({item.match, known->head, known->head, known->entries_beside});
        }
        MatchHead& head = append.matches[place->second].after;
        if (!extends(head, item)) return std::nullopt;
        head.last = item.number;
        head.hash = item.hash;
        append.which.push_back(place->second);
        append.heads.push_back(head);
    }
    return append;
}

std::vector<AppendResult> quick_append_in(pqxx::nontransaction& session, TournamentId tournament,
                                          const QuickAppend& append,
                                          std::span<const AppendItem> items) {
    const MatchArrays m{append};
    const ItemArrays i{append, items};
    const pqxx::result row = session.exec_prepared(
        "quick_append", to_text(tournament), to_text(append.generation), m.match.text(),
        m.epoch.text(), m.grant.text(), m.writer.text(), m.was_last.text(), m.was_hash.text(),
        m.last.text(), m.hash.text(), m.checked.text(), i.which.text(), i.number.text(),
        i.id.text(), pqxx::binarystring{i.bytes}, i.at.text(), i.length.text(),
        i.signature_length.text(), i.check_id.text(), i.check_match.text(), i.check_hash.text());
    auto position = row[0][0].as<FeedPosition>();
    std::vector<AppendResult> results(items.size());
    for (std::size_t n = 0; n < items.size(); ++n) {
        results[n].fate = Fate::appended;
        results[n].head = append.heads[n];
        results[n].position = ++position;
    }
    return results;
}

}  // namespace courthand::server::postgres
