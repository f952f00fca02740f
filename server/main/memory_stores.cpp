#include "server/main/memory_stores.h"

#include <utility>

namespace courthand::server {

MemoryStores::MemoryStores(const std::string& name, Clock clock)
    : alerts{[this](const FeedNotice& notice) {
          return matches.publish(tournament_.id, notice).status();
      }},
      refused{[this](const Refusals::Refusal& refusal) { return settled(refusal); }},
      heard{std::move(clock)},
      tournament_{*matches.create_tournament(TournamentId{new_uuid()}, name)} {}

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
