#include "server/venue/match_view.h"

#include <algorithm>
#include <tuple>

#include "server/alerts/match_conditions.h"
#include "server/venue/alert_message.h"
#include "wire/state_view.h"

namespace courthand::server::venue {

namespace {

void fill(const PlannedTeam& team, v1::TeamCard& card) {
    card.set_name(team.name);
    card.set_colour(team.colour);
}

v1::CourtCard card_of(const LiveMatch& match, const MatchTeams& teams) {
    v1::CourtCard card;
    wire::show(match.state, card);
    card.set_court(match.plan.court);
    card.set_match_id(to_bytes(match.key.match.value));
    card.set_match_number(match.plan.number);
    fill(teams.team.a, *card.mutable_a());
    fill(teams.team.b, *card.mutable_b());
    card.set_head_seq(match.head.last);
    if (match.head.last > 0) card.set_last_entry_us(microseconds(match.last_entry_at));
    return card;
}

bool has_signature(const LiveMatch& match) {
    return std::any_of(match.entries.begin(), match.entries.end(), [](const Entry& entry) {
        const auto* note = std::get_if<Note>(&entry.fact);
        return note && note->kind == Note::Kind::signature;
    });
}

}  // namespace

MatchView view_of(const LiveMatch& match) {
    MatchView view;
    view.plan = match.plan;
    view.teams = teams_of(match);
    view.card = card_of(match, view.teams);
    view.stage = match.state.set.stage;
    view.begun = match.head.last > 0;
    view.signed_off = view.over() && has_signature(match);
    view.sets_won = {match.state.team.a.sets_won, match.state.team.b.sets_won};
    view.forfeited = match.state.forfeited != 0;
    view.last_entry_at = match.last_entry_at;
    view.conditions = alerts::conditions_of(match, names_of(view.teams));
    return view;
}

const MatchView* current_on_court(const std::map<MatchId, MatchView>& matches,
                                  std::uint32_t court) {
    // Smaller is more current: in play, then planned, then played; by number, the last played
    // first.
    const auto rank = [](const MatchView& view) {
        const int group = view.over() ? 2 : view.begun ? 0 : 1;
        const auto number = static_cast<std::int64_t>(view.plan.number);
        return std::tuple(group, view.over() ? -number : number);
    };
    const MatchView* best = nullptr;
    for (const auto& [id, view] : matches) {
        if (view.plan.court != court || view.plan.status == PlanStatus::cancelled) continue;
        if (!best || rank(view) < rank(*best)) best = &view;
    }
    return best;
}

v1::MatchStatus status_of(const MatchView& view) noexcept {
    if (view.plan.status == PlanStatus::cancelled) return v1::MATCH_STATUS_CANCELLED;
    if (view.over()) return view.signed_off ? v1::MATCH_STATUS_SIGNED : v1::MATCH_STATUS_FINISHED;
    if (view.begun) return v1::MATCH_STATUS_IN_PLAY;
    return view.plan.status == PlanStatus::called ? v1::MATCH_STATUS_CALLED
                                                  : v1::MATCH_STATUS_SCHEDULED;
}

}  // namespace courthand::server::venue
