#include "server/publish/match_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <utility>

#include "courthand/event/advance.h"
#include "courthand/event/duty.h"
#include "server/papers/match_words.h"
#include "server/publish/html.h"

namespace courthand::server::publish {
namespace {

using event::MatchRef;
using event::TournamentState;

/// "14:30", with the day in an event of several: "29 Nov 14:30".
std::string time_html(const TournamentState& state, MatchRef ref) {
    const auto& place = state.match(ref).placement;
    if (!place || !place->at.given()) return "-";
    const std::string iso = event::written(place->at);
    std::string words = iso.substr(11);
    if (state.opened && state.opened->first_day != state.opened->last_day)
        words = papers::short_day_words(place->at.date()) + " " + words;
    return fmt::format("<time datetime=\"{}\">{}</time>", iso, words);
}

std::string court_html(const event::MatchState& match) {
    if (!match.placement) return "-";
    return fmt::format("<a href=\"{}\">{}</a>", court_path(match.placement->court),
                       match.placement->court);
}

std::string result_html(const event::MatchState& match) {
    if (!match.result || !match.result_counts) return {};
    const std::string sets = papers::sets_words(*match.result);
    const std::string under = match.result->award ? papers::origin_words(*match.result)
                                                  : papers::points_words(*match.result);
    return fmt::format("<b>{}</b> <small>{}</small>", sets, escaped(under));
}

std::string row(const TournamentState& state, MatchRef ref) {
    const event::MatchState& match = state.match(ref);
    return fmt::format(
        "<tr id=\"{}\"><td>{}</td><td>{}</td><th scope=\"row\">{}</th><td>{}</td><td>{}</td>"
        "<td>{}</td><td>{}</td></tr>",
        match_id(ref), time_html(state, ref), court_html(match), escaped(state.node(ref).name),
        side_html(state, ref, 0), side_html(state, ref, 1), result_html(match),
        escaped(papers::work_words(state, ref)));
}

}  // namespace

std::string match_id(MatchRef match) {
    return fmt::format("m-{}-{}", match.division, match.match);
}

std::string team_path(event::TeamIndex team) {
    return fmt::format("team-{}.html", team + 1);
}

std::string court_path(std::uint16_t court) {
    return fmt::format("court-{}.html", court);
}

std::string team_link(const TournamentState& state, event::TeamIndex team) {
    return fmt::format("<a href=\"{}\">{}</a>", team_path(team), escaped(state.teams[team].name));
}

std::string side_html(const TournamentState& state, MatchRef match, std::size_t which) {
    const event::Side side = state.side(match, which);
    if (side.is_team()) return team_link(state, side.team);
    return escaped(papers::side_words(state, match, which));
}

Fragment plan_fragment(const TournamentState& state) {
    const std::string words = state.plan.version == 0
                                  ? "The plan is not published yet: courts and times may change."
                                  : fmt::format("Plan, version {}.", state.plan.version);
    return {"plan", fmt::format("<p id=\"plan\">{}</p>", words)};
}

std::vector<MatchRef> in_order(const TournamentState& state) {
    std::vector<MatchRef> all;
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m)
            all.push_back({d, static_cast<event::MatchIndex>(m)});
    const auto key = [&](MatchRef ref) {
        const auto& place = state.match(ref).placement;
        const bool timed = place && place->at.given();
        return std::tuple{timed ? 0 : 1, timed ? place->at.minutes : 0,
                          place ? int{place->court} : 0, ref};
    };
    std::sort(all.begin(), all.end(), [&](MatchRef a, MatchRef b) { return key(a) < key(b); });
    return all;
}

Fragment match_table(const TournamentState& state, std::string id, const std::string& caption,
                     const std::vector<MatchRef>& matches) {
    if (matches.empty()) {
        std::string html = fmt::format("<p id=\"{}\">{}: none.</p>", id, escaped(caption));
        return {std::move(id), std::move(html)};
    }
    std::string html = fmt::format(
        "<div class=\"wide\" id=\"{}\" tabindex=\"0\" role=\"region\" aria-label=\"{}\">"
        "<table><caption>{}</caption><thead><tr><th scope=\"col\">Time</th>"
        "<th scope=\"col\">Court</th><th scope=\"col\">Match</th><th scope=\"col\">First</th>"
        "<th scope=\"col\">Second</th><th scope=\"col\">Result</th><th scope=\"col\">Work</th>"
        "</tr></thead><tbody>",
        id, escaped(caption), escaped(caption));
    for (const MatchRef ref : matches) html += row(state, ref);
    html += "</tbody></table></div>";
    return {std::move(id), std::move(html)};
}

}  // namespace courthand::server::publish
