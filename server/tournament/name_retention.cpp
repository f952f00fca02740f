#include "server/tournament/name_retention.h"

#include <algorithm>
#include <span>
#include <variant>
#include <vector>

#include "courthand/event/about.h"
#include "courthand/event/fold.h"
#include "wire/event_entry.h"

namespace courthand::server::tournament {
namespace {

/// Calls `visit(kept, fact)` for each fact of the record. One of a kind that this program does not
/// know ends it: what a newer program wrote is that program's matter.
template <class Visit>
Status for_each_fact(FactStore& store, TournamentId tournament, Visit visit) {
    for (FactNumber after = 0;;) {
        const auto page = store.read(tournament, after, most_facts_per_page);
        if (!page.ok()) return page.status();
        if (page->empty()) return Status::fine();
        for (const KeptFact& kept : *page) {
            const auto read = wire::read_event_entry(*kept.bytes);
            const auto* entry = std::get_if<wire::ReadEventEntry>(&read);
            if (entry == nullptr) return Status::fine();
            visit(kept, entry->fact());
            after = kept.number;
        }
    }
}

}  // namespace

Result<ErasedNames> erase_names(FactStore& store, TournamentId tournament,
                                const NamesWanted& wanted) {
    std::vector<event::Fact> said;
    std::vector<bool> worded;
    const Status read =
        for_each_fact(store, tournament, [&](const KeptFact& kept, const event::Fact& fact) {
            said.push_back(fact);
            worded.push_back(kept.beside.has_value());
        });
    if (!read.ok()) return read;
    std::vector<FactNumber> facts = event::facts_about(said, wanted.person);
    std::erase_if(facts, [&](FactNumber fact) { return !worded[fact - 1]; });
    ErasedNames erased;
    for (std::span<const FactNumber> rest{facts}; !rest.empty();) {
        const std::size_t count = std::min(rest.size(), most_facts_per_append);
        const auto gone = store.erase_beside(tournament, rest.first(count));
        if (!gone.ok()) return gone.status();
        erased.count += *gone;
        rest = rest.subspan(count);
    }
    return erased;
}

bool names_are_due(event::Date last_day, event::Date today, std::uint32_t days) noexcept {
    return last_day.given() && std::int64_t{today.days} - last_day.days > std::int64_t{days};
}

Result<event::Date> last_day(FactStore& store, TournamentId tournament) {
    std::vector<event::Fact> facts;
    const Status read =
        for_each_fact(store, tournament,
                      [&](const KeptFact&, const event::Fact& fact) { facts.push_back(fact); });
    if (!read.ok()) return read;
    event::Date last;
    const std::vector<bool> counts = event::counting(facts);
    for (std::size_t i = 0; i < facts.size(); ++i) {
        const auto* opened = std::get_if<event::TournamentOpened>(&facts[i]);
        if (opened && counts[i]) last = std::max({last, opened->first_day, opened->last_day});
    }
    return last;
}

Result<ErasedNames> erase_names_due(FactStore& store, TournamentId tournament, event::Date today,
                                    std::uint32_t days) {
    const auto ended = last_day(store, tournament);
    if (!ended.ok()) return ended.status();
    if (!names_are_due(*ended, today, days)) return ErasedNames{};
    return erase_names(store, tournament, {});
}

}  // namespace courthand::server::tournament
