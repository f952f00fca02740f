#include "server/venue/match_histories.h"

#include "server/venue/history_part.h"

namespace courthand::server::venue {

MatchView MatchHistories::view(const LiveMatch& match, bool afresh) {
    if (match.record) return view_of(match, followed(match, afresh));
    const auto resting = resting_.find(match.key.match);
    return view_of(match, resting == resting_.end() ? alerts::MatchHistory{}
                                                    : history_of_part(resting->second));
}

const alerts::MatchHistory& MatchHistories::followed(const LiveMatch& match, bool afresh) {
    resting_.erase(match.key.match);
    alerts::MatchHistory& history = histories_[match.key.match];
    if (afresh) history = {};
    history.follow(match);
    return history;
}

std::string MatchHistories::part(MatchId match) const {
    if (const auto found = histories_.find(match); found != histories_.end())
        return history_part(found->second);
    const auto resting = resting_.find(match);
    return resting == resting_.end() ? std::string{} : resting->second;
}

void MatchHistories::rest(MatchId match) {
    const auto found = histories_.find(match);
    if (found == histories_.end()) return;
    resting_[match] = history_part(found->second);
    histories_.erase(found);
}

void MatchHistories::clear() {
    histories_.clear();
    resting_.clear();
}

}  // namespace courthand::server::venue
