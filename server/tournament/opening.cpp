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
        } else if (stored != nullptr && stored->head.last == 0) {
            cancel(record);
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
        return sides;
    }

    /// The last record of the match that these teams had; nothing when they had none.
    [[nodiscard]] const StoredMatch* theirs(const std::string& match, const Sides& sides) const {
        const auto before = opened_.find(match);
        if (before == opened_.end()) return nullptr;
        for (auto record = before->second.rbegin(); record != before->second.rend(); ++record)
            if (const auto* stored = find(*record); stored != nullptr && is_of(*stored, sides))
                return stored;
        return nullptr;
    }

    /// Goes back to the record that these teams had, else names a new one. Every server that sees
    /// the same facts finds the same id.
    void open(MatchRef ref, const Sides& sides) {
        const std::string& name = state_.node(ref).name;
        const StoredMatch* const before = theirs(name, sides);
        const MatchId record =
            before != nullptr
                ? before->plan.key.match
                : MatchId{derived_id(tournament_.value,
                                     fmt::format("match {} {}", name, opened_[name].size()))};
        opening_.records.push_back({name, record_id(record)});
    }

    void go_on(MatchRef ref, const StoredMatch& stored, const Sides& sides) {
        // Of one that a table opened by itself the desk has said whose it is.
        if (is_of(stored, sides) || stored.plan.opened_at_table)
            return change(as_placed(ref, stored.plan), stored.plan, false);
        const StoredMatch* const before = theirs(state_.node(ref).name, sides);
        const bool begun = before != nullptr && before->head.last != 0;
        if (begun || stored.head.last != 0) return open(ref, sides);
        MatchPlan plan = as_placed(ref, stored.plan);
        plan.first = planned_team(known_, sides[0]);
        plan.second = planned_team(known_, sides[1]);
        change(std::move(plan), stored.plan, true);
    }

    void close(MatchRef ref, const StoredMatch& stored) {
        MatchPlan plan = as_placed(ref, stored.plan);
        plan.status = PlanStatus::confirmed;
        change(std::move(plan), stored.plan, false);
    }

    void cancel(MatchId record) {
        const StoredMatch* const stored = find(record);
        if (stored == nullptr) return;
        MatchPlan plan = stored->plan;
        plan.status = PlanStatus::cancelled;
        change(std::move(plan), stored->plan, false);
    }

    void change(MatchPlan plan, const MatchPlan& before, bool sides) {
        if (sides || plan.court != before.court || plan.status != before.status ||
            plan.scheduled_at != before.scheduled_at)
            opening_.changed.push_back({std::move(plan), sides});
    }

    [[nodiscard]] MatchPlan plan_of(MatchRef ref, MatchId record, const Sides& sides) const {
        const event::Division& division = state_.divisions[ref.division];
        const event::MatchState& match = state_.match(ref);
        const Profile& profile = match.profile != nullptr ? *match.profile : *division.profile;
        MatchPlan plan;
        plan.key = {tournament_, record};
        plan.first = planned_team(known_, sides[0]);
        plan.second = planned_team(known_, sides[1]);
        plan.format = match.format;
        plan.profile = profile.id;
        plan.profile_hash = profile.hash;
        return as_placed(ref, std::move(plan));
    }

    /// The plan where and when the record has the match, as one that can be played.
    [[nodiscard]] MatchPlan as_placed(MatchRef ref, MatchPlan plan) const {
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

    [[nodiscard]] bool is_of(const StoredMatch& stored, const Sides& sides) const {
        return stored.plan.first.id == planned_team(known_, sides[0]).id &&
               stored.plan.second.id == planned_team(known_, sides[1]).id;
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
