#include "server/tournament/opening.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "server/tournament/derived_id.h"
#include "server/tournament/hall_clock.h"

namespace courthand::server::tournament {

using event::MatchRef;

namespace {

MatchId match_id(const event::RecordId& record) {
    MatchId id;
    id.value.bytes = record.bytes;
    return id;
}

/// Every record that was ever opened for a match, by its name, whether or not that counts still.
using Opened = std::map<std::string, std::vector<MatchId>, std::less<>>;

Opened all_opened(const event::TournamentState& state) {
    Opened opened;
    for (const event::Fact& fact : state.facts)
        if (const auto* said = std::get_if<event::RecordOpened>(&fact))
            opened[said->match].push_back(match_id(said->record));
    return opened;
}

/// Somebody has written it, be it beside its record only: it stays what it was planned as.
bool has_begun(const StoredMatch& match) {
    return match.head.last != 0 || !match.branches.empty();
}

/// In the order of play: by time, those without one last and as they were placed.
auto order_of_play(const event::MatchState& match) {
    constexpr auto no_time = std::numeric_limits<std::int32_t>::max();
    if (!match.placement) return std::tuple(no_time, std::uint16_t{0}, FactNumber{0});
    const event::Placement& place = *match.placement;
    if (!place.at.given()) return std::tuple(no_time, std::uint16_t{0}, place.fact);
    return std::tuple(place.at.minutes, place.court, place.fact);
}

class Opener {
  public:
    Opener(TournamentId tournament, const KnownRecord& known, std::span<const StoredMatch> stored)
        : tournament_{tournament},
          known_{known},
          state_{*known.state},
          clock_{*known.state},
          opened_{all_opened(*known.state)} {
        for (const StoredMatch& match : stored) stored_.emplace(match.plan.key.match, &match);
    }

    Opening all() {
        std::vector<MatchRef> refs;
        for (const auto& [name, ref] : state_.match_names) refs.push_back(ref);
        std::sort(refs.begin(), refs.end(), [&](MatchRef one, MatchRef other) {
            return std::pair(order_of_play(state_.match(one)), one) <
                   std::pair(order_of_play(state_.match(other)), other);
        });
        for (const MatchRef ref : refs) look_at(ref);
        for (const auto& [name, records] : opened_)
            for (const MatchId record : records)
                if (!current_.contains(record)) cancel(record);
        return std::move(opening_);
    }

  private:
    using Sides = std::array<event::TeamIndex, 2>;

    void look_at(MatchRef ref) {
        const event::MatchState& match = state_.match(ref);
        const auto sides = playing(ref);
        if (!match.record.given()) {
            if (sides && match.placement && !match.result) open(ref, *sides);
            return;
        }
        const MatchId record = match_id(match.record);
        // Named for two matches by mistake: it is of the first.
        if (!current_.insert(record).second) return;
        const StoredMatch* const stored = find(record);
        if (match.result) {
            if (stored != nullptr && match.result_counts) close(ref, *stored);
        } else if (sides && stored == nullptr) {
            opening_.made.push_back(plan_of(ref, record, *sides));
        } else if (sides) {
            go_on(ref, *stored, *sides);
        } else if (stored != nullptr && !has_begun(*stored)) {
            cancel(record, true);
        }
    }

    /// The teams that can play the match now.
    [[nodiscard]] std::optional<Sides> playing(MatchRef ref) const {
        const auto& node = state_.node(ref);
        if (node.only_if_second_won &&
            state_.match({ref.division, *node.only_if_second_won}).winner !=
                courthand::tournament::Winner::second)
            return std::nullopt;
        Sides sides{};
        for (std::size_t i = 0; i < 2; ++i) {
            const event::Side side = state_.side(ref, i);
            if (!side.is_team() || state_.teams[side.team].withdrawn) return std::nullopt;
            sides[i] = side.team;
        }
        if (sides[0] == sides[1]) return std::nullopt;
        return sides;
    }

    /// The last record that these teams had of the match as it is to be played now; nothing when
    /// they had none.
    [[nodiscard]] const StoredMatch* theirs(MatchRef ref, const Sides& sides) const {
        const auto before = opened_.find(state_.node(ref).name);
        if (before == opened_.end()) return nullptr;
        for (auto record = before->second.rbegin(); record != before->second.rend(); ++record)
            if (const auto* stored = find(*record);
                stored != nullptr && is_the_same(ref, *stored, sides))
                return stored;
        return nullptr;
    }

    /// Goes back to the record that these teams had, else names a new one. Every server that sees
    /// the same facts finds the same id.
    void open(MatchRef ref, const Sides& sides) {
        const std::string& name = state_.node(ref).name;
        const StoredMatch* const before = theirs(ref, sides);
        const MatchId record =
            before != nullptr
                ? before->plan.key.match
                : MatchId{derived_id(tournament_.value,
                                     fmt::format("match {} {}", name, opened_[name].size()))};
        opening_.records.push_back({name, record_id(record)});
    }

    void go_on(MatchRef ref, const StoredMatch& stored, const Sides& sides) {
        // Of one that a table opened by itself the desk has said whose it is.
        if (stored.plan.opened_at_table) return change(as_placed(ref, stored.plan), stored.plan);
        if (!is_the_same(ref, stored, sides)) {
            const StoredMatch* const before = theirs(ref, sides);
            if (has_begun(stored) || (before != nullptr && has_begun(*before)))
                return open(ref, sides);
        }
        if (has_begun(stored)) return change(as_placed(ref, stored.plan), stored.plan);
        MatchPlan plan = to_be_played(ref, as_placed(ref, stored.plan), sides);
        if (!is_played_alike(plan, stored.plan))
            opening_.changed.push_back({std::move(plan), true});
        else
            change(std::move(plan), stored.plan);
    }

    void close(MatchRef ref, const StoredMatch& stored) {
        MatchPlan plan = as_placed(ref, stored.plan);
        plan.status = PlanStatus::confirmed;
        change(std::move(plan), stored.plan);
    }

    void cancel(MatchId record, bool before_play = false) {
        const StoredMatch* const stored = find(record);
        if (stored == nullptr) return;
        MatchPlan plan = stored->plan;
        // What a table opened by itself is played there, whatever the desk took it for.
        if (!plan.opened_at_table)
            plan.status = PlanStatus::cancelled;
        else if (plan.status == PlanStatus::confirmed)
            plan.status = PlanStatus::scheduled;
        change(std::move(plan), stored->plan, before_play);
    }

    void change(MatchPlan plan, const MatchPlan& before, bool before_play = false) {
        if (plan.name != before.name || plan.court != before.court ||
            plan.status != before.status || plan.scheduled_at != before.scheduled_at)
            opening_.changed.push_back({std::move(plan), before_play});
    }

    [[nodiscard]] MatchPlan plan_of(MatchRef ref, MatchId record, const Sides& sides) const {
        MatchPlan plan;
        plan.key = {tournament_, record};
        return as_placed(ref, to_be_played(ref, std::move(plan), sides));
    }

    [[nodiscard]] const Profile& profile_of(MatchRef ref) const {
        const Profile* const own = state_.match(ref).profile;
        return own != nullptr ? *own : *state_.divisions[ref.division].profile;
    }

    /// The plan with the teams and the rules of the record.
    [[nodiscard]] MatchPlan to_be_played(MatchRef ref, MatchPlan plan, const Sides& sides) const {
        const Profile& profile = profile_of(ref);
        plan.first = planned_team(known_, sides[0]);
        plan.second = planned_team(known_, sides[1]);
        plan.format = state_.match(ref).format;
        plan.profile = profile.id;
        plan.profile_hash = profile.hash;
        return plan;
    }

    [[nodiscard]] static bool is_played_alike(const MatchPlan& one, const MatchPlan& other) {
        return one.first == other.first && one.second == other.second &&
               one.format == other.format && one.profile == other.profile &&
               one.profile_hash == other.profile_hash;
    }

    /// The plan with the name, the court and the time of the record, as one that can be played.
    [[nodiscard]] MatchPlan as_placed(MatchRef ref, MatchPlan plan) const {
        plan.name = state_.node(ref).name;
        const auto& placement = state_.match(ref).placement;
        if (placement)
            plan.court = placement->court;
        else if (!plan.opened_at_table)
            plan.court = 0;
        if (placement && !placement->at.given()) plan.scheduled_at.reset();
        // A time that was told to the second stays as it was told.
        if (placement && placement->at.given() &&
            (!plan.scheduled_at || clock_.shows(*plan.scheduled_at) != placement->at))
            plan.scheduled_at = clock_.moment(placement->at);
        if (plan.status == PlanStatus::cancelled || plan.status == PlanStatus::confirmed)
            plan.status = PlanStatus::scheduled;
        return plan;
    }

    /// These two teams, whichever was named first, by the same rules. A profile is told by its id:
    /// a newer program may have it with another hash in the middle of a match.
    [[nodiscard]] bool is_the_same(MatchRef ref, const StoredMatch& stored,
                                   const Sides& sides) const {
        const TeamId one = planned_team(known_, sides[0]).id;
        const TeamId other = planned_team(known_, sides[1]).id;
        const MatchPlan& plan = stored.plan;
        const bool teams = (plan.first.id == one && plan.second.id == other) ||
                           (plan.first.id == other && plan.second.id == one);
        return teams && plan.format == state_.match(ref).format &&
               plan.profile == profile_of(ref).id;
    }

    [[nodiscard]] const StoredMatch* find(MatchId record) const {
        const auto found = stored_.find(record);
        return found == stored_.end() ? nullptr : found->second;
    }

    TournamentId tournament_;
    const KnownRecord& known_;
    const event::TournamentState& state_;
    HallClock clock_;
    Opened opened_;
    std::map<MatchId, const StoredMatch*> stored_;
    std::set<MatchId> current_;
    Opening opening_;
};

}  // namespace

Opening opening(TournamentId tournament, const KnownRecord& known,
                std::span<const StoredMatch> stored) {
    return Opener{tournament, known, stored}.all();
}

std::optional<MatchRef> match_of_record(const event::TournamentState& state, MatchId record) {
    const event::RecordId wanted = record_id(record);
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d) {
        const auto& matches = state.divisions[d].matches;
        for (std::size_t m = 0; m < matches.size(); ++m)
            if (matches[m].record == wanted) return MatchRef{d, static_cast<event::MatchIndex>(m)};
    }
    return std::nullopt;
}

event::RecordId record_id(MatchId match) {
    return {match.value.bytes};
}

PlannedTeam planned_team(const KnownRecord& known, event::TeamIndex index) {
    const event::Team& team = known.state->teams[index];
    return {TeamId{(*known.ids)[team.entered - 1].value}, team.name, team.club, team.colour};
}

}  // namespace courthand::server::tournament
