#include "server/tournament/memory_fact_store.h"

#include <algorithm>

namespace courthand::server::tournament {

namespace {

FactHead head_of(const std::vector<KeptFact>& record) {
    if (record.empty()) return {};
    return {record.back().number, record.back().hash};
}

}  // namespace

Status MemoryFactStore::known(TournamentId tournament) {
    const auto all = feed_.tournaments();
    if (!all.ok()) return all.status();
    const auto is_it = [&](const Tournament& one) { return one.id == tournament; };
    if (std::any_of(all->begin(), all->end(), is_it)) return Status::fine();
    return Status::failed(StatusCode::not_found, "there is no such tournament");
}

Result<FactHead> MemoryFactStore::head(TournamentId tournament) {
    if (const Status status = known(tournament); !status.ok()) return status;
    const std::scoped_lock lock{mutex_};
    return head_of(records_[tournament]);
}

Result<std::vector<KeptFact>> MemoryFactStore::read(TournamentId tournament, FactNumber after,
                                                    std::size_t most) {
    if (const Status status = known(tournament); !status.ok()) return status;
    const std::scoped_lock lock{mutex_};
    const std::vector<KeptFact>& record = records_[tournament];
    const std::size_t from = std::min<std::size_t>(after, record.size());
    const std::size_t count = std::min({most, most_facts_per_page, record.size() - from});
    const auto begin = record.begin() + static_cast<std::ptrdiff_t>(from);
    return std::vector<KeptFact>{begin, begin + static_cast<std::ptrdiff_t>(count)};
}

Result<std::optional<MatchId>> MemoryFactStore::outwritten(TournamentId tournament,
                                                           std::span<const RecordEnd> ends) {
    for (const RecordEnd& end : ends) {
        const auto stored = feed_.match({tournament, end.match});
        if (stored.status().code == StatusCode::not_found) continue;
        if (!stored.ok()) return stored.status();
        if (stored->head.hash != end.hash) return std::optional{end.match};
    }
    return std::optional<MatchId>{};
}

Result<FactAppend> MemoryFactStore::append(TournamentId tournament, const FactHead& seen,
                                           std::span<const KeptFact> facts,
                                           std::span<const RecordEnd> rests_on) {
    if (const Status status = fits(seen, facts); !status.ok()) return status;
    if (const Status status = known(tournament); !status.ok()) return status;
    ServerTime stored_at{};
    {
        const std::scoped_lock lock{mutex_};
        std::vector<KeptFact>& record = records_[tournament];
        std::size_t had = 0;
        for (const KeptFact& fact : facts) {
            const auto same = std::find_if(record.begin(), record.end(),
                                           [&](const KeptFact& one) { return one.id == fact.id; });
            if (same == record.end()) continue;
            if (same->device != fact.device) return id_taken();
            ++had;
        }
        if (had == facts.size())
            return FactAppend{FactAppend::Fate::already_had, head_of(record), {}, {}};
        if (had != 0) return id_taken();
        if (head_of(record) != seen)
            return FactAppend{FactAppend::Fate::behind, head_of(record), {}, {}};
        const auto match = outwritten(tournament, rests_on);
        if (!match.ok()) return match.status();
        if (*match) return FactAppend{FactAppend::Fate::outwritten, head_of(record), **match, {}};
        stored_at = std::chrono::system_clock::now();
        for (const KeptFact& fact : facts) {
            record.push_back(fact);
            record.back().stored_at = stored_at;
        }
    }
    if (const auto told = feed_.publish(tournament, grown()); !told.ok()) return told.status();
    return FactAppend{
        FactAppend::Fate::appended, {facts.back().number, facts.back().hash}, {}, stored_at};
}

Result<std::size_t> MemoryFactStore::erase_beside(TournamentId tournament,
                                                  std::span<const FactNumber> facts) {
    if (const Status status = fits_erasing(facts); !status.ok()) return status;
    if (const Status status = known(tournament); !status.ok()) return status;
    std::vector<FactNumber> gone;
    {
        const std::scoped_lock lock{mutex_};
        std::vector<KeptFact>& record = records_[tournament];
        for (const FactNumber number : facts) {
            if (number == 0 || number > record.size() || !record[number - 1].beside) continue;
            record[number - 1].beside.reset();
            gone.push_back(number);
        }
    }
    if (gone.empty()) return gone.size();
    if (const auto told = feed_.publish(tournament, erased(gone)); !told.ok()) return told.status();
    return gone.size();
}

}  // namespace courthand::server::tournament
