#include "server/main/memory_stores.h"

#include <chrono>
#include <utility>

namespace courthand::server {

MemoryStores::MemoryStores(const std::string& name, Clock clock)
    : alerts{[this](const FeedNotice& notice) {
          return matches.publish(tournament_.id, notice).status();
      }},
      refused{[this](const Refusals::Refusal& refusal) { return settled(refusal); }},
      heard{std::move(clock)},
      tournament_{*matches.create_tournament(TournamentId{new_uuid()}, name)} {
    matches.set_claim_listener([this](const EpochClaim& claim) { note(claim); });
}

/// As the transaction of the append does in a database.
void MemoryStores::note(const EpochClaim& claim) {
    audit::AuditEntry row;
    row.at = std::chrono::system_clock::now();
    row.who = auth::Caller{claim.head.writer, auth::Seat::table, 0};
    if (const auto device = enrolments->device(claim.head.writer); device.ok() && *device)
        row.who = (*device)->who;
    row.act = EpochClaim::act;
    row.subject = to_text(claim.match);
    row.detail = claim.detail();
    // In memory nothing fails.
    (void)audit->add(row);
}

bool MemoryStores::settled(const Refusals::Refusal& refusal) {
    if (matches.recorded(tournament_.id, refusal.entry, refusal.hash)) return true;
    const auto device = enrolments->device(refusal.device);
    return device.ok() && *device && (*device)->revoked;
}

Stores MemoryStores::stores() {
    return {matches,
            matches,
            *enrolments,
            *enrolments,
            alerts,
            refused,
            heard,
            *audit,
            facts,
            [this](const MatchStore::Listener& listener) { matches.set_listener(listener); },
            nullptr};
}

}  // namespace courthand::server
