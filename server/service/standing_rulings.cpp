#include "server/service/standing_rulings.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "courthand/rules/reason.h"
#include "wire/fact_convert.h"
#include "wire/fold_record.h"

namespace courthand::server::service {
namespace {

bool same_fault(const Verdict& a, const Verdict& b) {
    return a.reason == b.reason && a.team == b.team && a.entry == b.entry;
}

/// The feed of a match read from its beginning: what was ruled, and what the record made of it.
class RuledFeed {
  public:
    RuledFeed(MatchKey key, const Rules& rules) : fold_{wire::Uuid{key.match.value.bytes}, rules} {}

    void read(const FeedPage& page) {
        for (const FeedItem& item : page.items) {
            if (!item.bytes) continue;
            if (item.kind == FeedItem::Kind::entry) read_entry(*item.bytes);
            if (item.kind == FeedItem::Kind::ruling) read_notice(*item.bytes);
        }
    }
    /// Oldest first; of several on one fault the last.
    [[nodiscard]] std::vector<v1::RulingNotice> to_record(const VerdictList& standing) && {
        std::vector<v1::RulingNotice> out;
        for (auto one = notices_.begin(); one != notices_.end(); ++one) {
            const Verdict* fault = fault_of(*one, standing);
            if (fault == nullptr) continue;
            const bool overtaken = std::any_of(one + 1, notices_.end(), [&](const Notice& later) {
                const Verdict* other = fault_of(later, standing);
                return other != nullptr && same_fault(*other, *fault);
            });
            if (!overtaken) out.push_back(std::move(one->ruling));
        }
        return out;
    }

  private:
    struct Notice {
        v1::RulingNotice ruling;
        EntryNumber head = 0;  ///< end of the record when the official ruled
    };

    /// What cannot be folded ends the fold; the keeper says so of the match.
    void read_entry(const std::string& bytes) {
        const std::size_t before = fold_.verdicts().size();
        if (fold_.add(bytes)) return;
        const auto& verdicts = fold_.verdicts();
        for (std::size_t i = fold_.refolded() ? 0 : before; i < verdicts.size(); ++i) {
            const Phase phase = verdicts[i].verdict.phase;
            if (phase == Phase::accepted || phase == Phase::overruled)
                ruled_.push_back(verdicts[i]);
        }
    }
    void read_notice(const std::string& bytes) {
        v1::RulingNotice ruling;
        if (ruling.ParseFromString(bytes))
            notices_.push_back({std::move(ruling), fold_.head().seq});
    }
    /// A notice that names no entry fits a fault of its kind that was there when it was made.
    [[nodiscard]] static bool is_about(const Notice& notice, const Verdict& verdict) {
        const v1::RulingNotice& ruling = notice.ruling;
        return reason_of(ruling.reason()) == verdict.reason &&
               ruling.team() == wire::to_proto(verdict.team) &&
               (ruling.seq() == 0 ? verdict.entry <= notice.head : verdict.entry == ruling.seq());
    }
    /// The record had a ruling on that fault since, be it struck again: by a person, who knows.
    [[nodiscard]] bool dealt_with(const Notice& notice, const Verdict& fault) const {
        return std::any_of(ruled_.begin(), ruled_.end(), [&](const wire::VerdictStep& step) {
            return step.at > notice.head && same_fault(step.verdict, fault);
        });
    }
    [[nodiscard]] const Verdict* fault_of(const Notice& notice, const VerdictList& standing) const {
        const auto fault =
            std::find_if(standing.begin(), standing.end(), [&](const Verdict& verdict) {
                return is_about(notice, verdict) && !dealt_with(notice, verdict);
            });
        return fault == standing.end() ? nullptr : &*fault;
    }

    wire::RecordFold fold_;
    std::vector<wire::VerdictStep> ruled_;  ///< also what was struck since
    std::vector<Notice> notices_;
};

}  // namespace

Result<std::vector<v1::RulingNotice>> standing_rulings(MatchStore& store, MatchKey key,
                                                       const Rules& rules,
                                                       const VerdictList& standing,
                                                       FeedPosition up_to) {
    FeedQuery query;
    query.tournament = key.tournament;
    query.matches = {key.match};
    query.up_to = up_to;
    RuledFeed feed{key, rules};
    for (;;) {
        const auto page = store.read_feed(query);
        if (!page.ok()) return page.status();
        feed.read(*page);
        if (page->items.size() < query.most) return std::move(feed).to_record(standing);
        query.after = page->items.back().position;
    }
}

}  // namespace courthand::server::service
