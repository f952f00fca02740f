#include "server/venue/match_view.h"

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
    card.set_match_name(match.plan.name);
    fill(teams.team.a, *card.mutable_a());
    fill(teams.team.b, *card.mutable_b());
    card.set_head_seq(match.head.last);
    if (match.head.last > 0) card.set_last_entry_us(microseconds(match.last_entry_at));
    return card;
}

}  // namespace

MatchView view_of(const LiveMatch& match, const alerts::MatchHistory& history) {
    MatchView view;
    view.plan = match.plan;
    view.teams = teams_of(match);
    view.card = card_of(match, view.teams);
    view.stage = match.state.set.stage;
    view.begun = match.head.last > 0;
    view.last_entry_at = match.last_entry_at;
    view.conditions = alerts::conditions_of(match, history, names_of(view.teams));
    view.asked = alerts::take_over_condition(match);
    view.writer = match.head.writer;
    return view;
}

bool more_current(const MatchView& one, const MatchView& other) {
    // Smaller is more current; by number, of the played ones the last first.
    const auto rank = [](const MatchView& view) {
        const int group = view.over() ? 2 : view.begun ? 0 : 1;
        const auto number = static_cast<std::int64_t>(view.plan.number);
        return std::tuple(group, view.over() ? -number : number, view.plan.key.match);
    };
    return rank(one) < rank(other);
}

}  // namespace courthand::server::venue
