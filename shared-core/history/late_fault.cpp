#include "courthand/history/late_fault.h"

#include <algorithm>

#include "courthand/rules/judge.h"

namespace courthand {
namespace {

/// A fault that is followed: the state knows it by these three.
struct Followed {
    EntryNumber entry;
    Reason reason;
    Team team;
    std::uint16_t first_rally = 0;
    std::uint16_t rally_seen = 0;
    std::vector<PointAtFault> points;

    [[nodiscard]] bool is(const Standing& s) const {
        return s.entry == entry && s.reason == reason && s.team == team;
    }
};

class Follower {
  public:
    /// Looks at the state after an entry: which faults are new, which were played with.
    void look(const MatchState& state, EntryNumber entry) {
        for (const Standing& fault : state.faults()) follow(state, fault, entry);
    }

    [[nodiscard]] const Followed& of(const Standing& s) const {
        return *std::find_if(faults_.begin(), faults_.end(),
                             [&](const Followed& f) { return f.is(s); });
    }

  private:
    void follow(const MatchState& state, const Standing& s, EntryNumber entry) {
        auto f = std::find_if(faults_.begin(), faults_.end(),
                              [&](const Followed& known) { return known.is(s); });
        if (f == faults_.end())
            f = faults_.insert(faults_.end(), Followed{s.entry, s.reason, s.team, 0, 0, {}});
        const bool played = s.in_rally != 0 || s.played.any();
        if (played && f->first_rally == 0)
            f->first_rally =
                static_cast<std::uint16_t>(state.set.rallies + (s.in_rally != 0 ? 1 : 0));
        const bool new_rally = s.played.last() > f->rally_seen;
        if (new_rally && s.opponent_won_last == 0)
            f->points.push_back({entry, state.set.rallies, state.set.score, false});
        f->rally_seen = s.played.last();
    }

    std::vector<Followed> faults_;
};

void mark_cancelled(std::vector<PointAtFault>& points, std::uint8_t cancel) {
    const std::size_t from = points.size() > cancel ? points.size() - cancel : 0;
    for (std::size_t i = from; i < points.size(); ++i) points[i].cancelled = true;
}

/// The same remedy without any cancelled point.
[[nodiscard]] Remedy without_cancelling(const Verdict& verdict) {
    Remedy r = verdict.remedy;
    std::uint8_t& own = verdict.team == Team::A ? r.score.a : r.score.b;
    own = static_cast<std::uint8_t>(own + r.cancel);
    r.cancel = 0;
    return r;
}

}  // namespace

std::vector<LateFault> late_faults(const Rules& rules, std::span<const Entry> entries,
                                   EntryNumber found_at) {
    MatchState state{};
    VerdictList raised;
    Follower follower;
    for (const Entry& entry : entries) {
        apply(rules, state, entry, raised);
        follower.look(state, entry.number);
        if (entry.number == found_at) break;
    }
    std::vector<LateFault> found;
    const VerdictList now = standing(rules, state);
    for (std::size_t i = 0; i < state.standing_count; ++i) {
        const Followed& f = follower.of(state.standing[i]);
        LateFault late{now[i],   f.entry,       f.first_rally,
                       f.points, now[i].remedy, without_cancelling(now[i])};
        if (late.verdict.remedy.action == Action::point_and_service)
            mark_cancelled(late.points, late.verdict.remedy.cancel);
        found.push_back(std::move(late));
    }
    return found;
}

}  // namespace courthand
