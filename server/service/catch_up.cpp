#include "server/service/catch_up.h"

namespace courthand::server::service {

void catch_up_with(MatchStore& store, TournamentId tournament, const MatchKeeper& keeper) {
    constexpr std::chrono::milliseconds patience{1000};
    FeedQuery query;
    query.tournament = tournament;
    query.after = ~FeedPosition{0};
    const auto page = store.read_feed(query);
    if (page.ok()) keeper.wait_for(page->head, patience);
}

}  // namespace courthand::server::service
