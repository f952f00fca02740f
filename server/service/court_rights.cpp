#include "server/service/court_rights.h"

#include <fmt/format.h>

#include <algorithm>

namespace courthand::server::service {
namespace {

bool sees_all(const auth::Caller& who) {
    return who.seat != auth::Seat::table;
}

bool reaches(const auth::Caller& who, const MatchPlan& plan, const MatchHead& head) {
    return (plan.court != 0 && plan.court == who.court) ||
           (head.epoch != 0 && head.writer == who.device);
}

}  // namespace

Status another_court(const auth::Caller& who) {
    return Status::failed(
        StatusCode::not_allowed,
        fmt::format("this device is enrolled for court {}, and the match is not there", who.court),
        "the desk must put the match on this court, or the table of its court must be used");
}

Reach CourtRights::reach(const auth::Caller& who, MatchId match) const {
    if (sees_all(who)) return Reach::granted;
    bool granted = false;
    const bool known = keeper_.read(
        match, [&](const LiveMatch& live) { granted = reaches(who, live.plan, live.head); });
    if (granted) return Reach::granted;
    const std::scoped_lock lock{mutex_};
    if (!known)
        if (const auto found = opened_.find(match); found != opened_.end())
            return found->second == who.court ? Reach::granted : Reach::not_decided;
    const auto found = said_.find({match, who.device});
    if (found != said_.end() && found->second.wrote) return Reach::granted;
    return Reach::not_decided;
}

Result<Reach> CourtRights::settled_reach(const auth::Caller& who, MatchId match) {
    if (const Reach now = reach(who, match); now != Reach::not_decided) return now;
    const auto stored = store_.match({tournament_, match});
    if (!stored.ok() && stored.status().code == StatusCode::not_found) return Reach::unknown_match;
    if (!stored.ok()) return stored.status();
    if (reaches(who, stored->plan, stored->head)) return Reach::granted;
    if (stored->head.epoch == 0) return Reach::other_court;
    const Result<bool> written = wrote(who.device, match);
    if (!written.ok()) return written.status();
    return *written ? Reach::granted : Reach::other_court;
}

/// Reads what was stored of the match, page by page, until an entry of the device is met.
Result<bool> CourtRights::wrote(DeviceId device, MatchId match) {
    {
        const std::scoped_lock lock{mutex_};
        const auto found = said_.find({match, device});
        if (found != said_.end() && (found->second.wrote || now_() < found->second.until))
            return found->second.wrote;
    }
    FeedQuery query;
    query.tournament = tournament_;
    query.matches = {match};
    bool found = false;
    while (!found) {
        const Result<FeedPage> page = store_.read_feed(query);
        if (!page.ok()) return page.status();
        found = std::any_of(page->items.begin(), page->items.end(),
                            [&](const FeedItem& item) { return item.device == device; });
        if (page->items.size() < query.most) break;
        query.after = page->items.back().position;
    }
    const std::scoped_lock lock{mutex_};
    if (said_.size() >= most_remembered) said_.clear();
    said_[{match, device}] = {found, now_() + no_lasts};
    return found;
}

Status CourtRights::open(const auth::Caller& who, const MatchPlan& plan) {
    if (!sees_all(who) && plan.court != who.court)
        return Status::failed(
            StatusCode::not_allowed,
            fmt::format("this device is enrolled for court {} and opens a match on court {}",
                        who.court, plan.court),
            "open matches at the table of their court");
    std::size_t all = 0;
    std::size_t here = 0;
    const std::scoped_lock lock{mutex_};
    (void)keeper_.read_at([&](std::span<const LiveMatch* const> matches) {
        all = matches.size();
        for (const LiveMatch* match : matches) {
            opened_.erase(match->key.match);
            if (match->plan.opened_at_table && match->plan.court == plan.court) ++here;
        }
    });
    for (const auto& [match, court] : opened_)
        if (court == plan.court) ++here;
    if (here >= most_opened_per_court)
        return Status::failed(
            StatusCode::exhausted,
            fmt::format("tables of court {} have opened {} matches by themselves, which is the "
                        "limit",
                        plan.court, most_opened_per_court),
            "let the desk plan the match and assign it to the court");
    if (all + opened_.size() >= most_matches || opened_.size() >= most_remembered)
        return Status::failed(
            StatusCode::exhausted,
            fmt::format("the tournament has {} matches, which is the limit", most_matches),
            "ask whoever runs the server to begin a new tournament");
    opened_[plan.key.match] = plan.court;
    return Status::fine();
}

}  // namespace courthand::server::service
