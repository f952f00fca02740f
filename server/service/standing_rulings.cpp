#include "server/service/standing_rulings.h"

#include <algorithm>
#include <utility>

#include "courthand/rules/reason.h"
#include "wire/fact_convert.h"

namespace courthand::server::service {
namespace {

/// A notice that names no entry fits any fault of its kind.
bool is_about(const v1::RulingNotice& notice, const Verdict& verdict) {
    return reason_of(notice.reason()) == verdict.reason &&
           notice.team() == wire::to_proto(verdict.team) &&
           (notice.seq() == 0 || notice.seq() == verdict.entry);
}

void take_rulings(const FeedPage& page, const VerdictList& standing,
                  std::vector<v1::RulingNotice>& out) {
    for (const FeedItem& item : page.items) {
        v1::RulingNotice notice;
        if (item.kind != FeedItem::Kind::ruling || !item.bytes ||
            !notice.ParseFromString(*item.bytes))
            continue;
        if (std::any_of(standing.begin(), standing.end(),
                        [&notice](const Verdict& one) { return is_about(notice, one); }))
            out.push_back(std::move(notice));
    }
}

}  // namespace

Result<std::vector<v1::RulingNotice>> standing_rulings(MatchStore& store, MatchKey key,
                                                       const VerdictList& standing,
                                                       FeedPosition up_to) {
    FeedQuery query;
    query.tournament = key.tournament;
    query.matches = {key.match};
    query.up_to = up_to;
    std::vector<v1::RulingNotice> rulings;
    for (;;) {
        const auto page = store.read_feed(query);
        if (!page.ok()) return page.status();
        take_rulings(*page, standing, rulings);
        if (page->items.size() < query.most) return rulings;
        query.after = page->items.back().position;
    }
}

}  // namespace courthand::server::service
