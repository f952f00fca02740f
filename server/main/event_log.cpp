#include "server/main/event_log.h"

#include "server/main/log.h"

namespace courthand::server {

void EventLog::on_match_changed(const MatchChanged& change) {
    const LiveMatch& match = change.match;
    const std::string id = to_text(match.key.match);
    switch (change.cause) {
        case MatchChanged::Cause::rebuilt:
            if (match.head.last == 0) break;
            if (!match.record) {
                ++from_snapshots_;
                break;
            }
            ++matches_;
            entries_ += match.head.last;
            break;
        case MatchChanged::Cause::described:
            log(LogLevel::info, "match-described", "match", id, "number", match.plan.number,
                "court", match.plan.court, "epoch", match.head.epoch, "writer",
                to_text(match.head.writer));
            break;
        case MatchChanged::Cause::appended:
        case MatchChanged::Cause::corrected:
            log(LogLevel::debug, "entries", "match", id, "first", change.first_new, "last",
                change.last_new, "position", change.position);
            break;
    }
    if (!match.unreadable.empty() && not_judged_.insert(match.key.match).second)
        log(LogLevel::warn, "match-not-judged", "match", id, "why", match.unreadable);
}

void EventLog::on_branch_stored(const BranchStored& stored) {
    if (!rebuilt_) return;
    log(LogLevel::warn, "branch", "match", to_text(stored.match.key.match), "branch", stored.branch,
        "device", to_text(stored.device), "epoch", stored.epoch, "number", stored.number);
}

void EventLog::on_begun_anew() {
    if (rebuilt_)
        log(LogLevel::warn, "feed-went-back", "why",
            "the database was put back, or a standby took over");
    matches_ = entries_ = from_snapshots_ = 0;
}

void EventLog::on_rebuilt() {
    rebuilt_ = true;
    log(LogLevel::info, "records-folded", "matches", matches_, "entries", entries_,
        "from_snapshots", from_snapshots_);
}

}  // namespace courthand::server
