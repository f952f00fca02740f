#include "server/export/event_tables.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string_view>

#include "courthand/event/advance.h"
#include "courthand/event/choices.h"
#include "courthand/event/pool_table.h"
#include "courthand/event/summary.h"
#include "server/desk/csv_writer.h"
#include "server/papers/match_words.h"

namespace courthand::server::exports {
namespace {

using desk::CsvWriter;
using event::TournamentState;

void titles(CsvWriter& out, std::initializer_list<std::string_view> names) {
    for (const std::string_view name : names) out.text(name);
    out.end_row();
}

constexpr std::array<std::string_view, 7> stage_words{
    "pool", "main", "losers", "consolation", "placement", "third-place", "final"};

/// Calls `visit(ref)` for each match, division by division.
template <class Visit>
void for_each_match(const TournamentState& state, Visit visit) {
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t m = 0; m < state.divisions[d].matches.size(); ++m)
            visit(event::MatchRef{d, static_cast<event::MatchIndex>(m)});
}

const std::string& division_of(const TournamentState& state, event::MatchRef ref) {
    return state.divisions[ref.division].rules.division;
}

std::string teams(const TournamentState& state) {
    CsvWriter out;
    titles(out, {"division", "team", "club", "seed", "pool", "withdrawn", "numbers", "last pool"});
    for (std::size_t t = 0; t < state.teams.size(); ++t) {
        const event::Team& team = state.teams[t];
        const event::Division& division = state.divisions[team.division];
        out.text(division.rules.division).text(team.name).text(team.club);
        const auto seed = std::find(division.seeds.begin(), division.seeds.end(), t);
        if (seed == division.seeds.end())
            out.blank();
        else
            out.number(seed - division.seeds.begin() + 1);
        out.text(team.pool ? std::string_view{division.pools[*team.pool].name}
                           : std::string_view{});
        std::string numbers;
        for (const std::uint8_t number : team.roster)
            numbers += fmt::format("{}{}", numbers.empty() ? "" : " ", number);
        out.text(team.withdrawn ? "yes" : "").text(numbers).text(team.last_pool).end_row();
    }
    return out.bytes();
}

std::string people(const TournamentState& state, const PersonNames& names) {
    CsvWriter out;
    titles(out, {"person", "role", "team", "number", "name"});
    for (const auto& [number, person] : state.persons) {
        out.number(number).text(choice_word(person.role));
        out.text(person.team == event::no_team ? std::string_view{}
                                               : std::string_view{state.teams[person.team].name});
        if (person.jersey == Jersey::none())
            out.blank();
        else
            out.number(person.jersey.number());
        const auto name = names.find(number);
        out.text(name == names.end() ? std::string_view{} : std::string_view{name->second});
        out.end_row();
    }
    return out.bytes();
}

std::string workers(const TournamentState& state, event::MatchRef ref) {
    const event::MatchState& match = state.match(ref);
    const auto source = match.duty.source ? match.duty.source : state.node(ref).workers;
    if (match.duty.fact != 0 && !match.duty.source) return match.duty.crew;
    if (!source) return {};
    const event::Side side = state.divisions[ref.division].settled[*source];
    return side.is_team() ? state.teams[side.team].name
                          : event::source_words(state, ref.division, *source);
}

std::string matches(const TournamentState& state) {
    CsvWriter out;
    titles(out, {"division", "match", "stage", "round", "pool", "first", "second", "court", "at",
                 "timing", "workers", "first referee", "second referee"});
    for_each_match(state, [&](event::MatchRef ref) {
        const auto& node = state.node(ref);
        const event::MatchState& match = state.match(ref);
        out.text(division_of(state, ref)).text(node.name);
        out.text(stage_words.at(static_cast<std::size_t>(node.stage))).number(node.round);
        out.text(node.pool ? std::string_view{state.divisions[ref.division].pools[*node.pool].name}
                           : std::string_view{});
        for (std::size_t side = 0; side < 2; ++side) out.text(papers::side_words(state, ref, side));
        if (match.placement) {
            const event::Placement& place = *match.placement;
            out.number(place.court).text(place.at.given() ? event::written(place.at) : "");
            out.text(choice_word(place.timing));
        } else {
            out.blank().blank().blank();
        }
        out.text(workers(state, ref));
        for (const std::uint16_t referee : {match.duty.first_referee, match.duty.second_referee})
            referee == 0 ? out.blank() : out.number(referee);
        out.end_row();
    });
    return out.bytes();
}

std::string results(const TournamentState& state) {
    CsvWriter out;
    titles(out, {"division", "match", "first", "second", "sets", "set 1", "set 2", "set 3", "set 4",
                 "set 5", "from", "counts"});
    for_each_match(state, [&](event::MatchRef ref) {
        const event::MatchState& match = state.match(ref);
        if (!match.result) return;
        const event::Result& result = *match.result;
        out.text(division_of(state, ref)).text(state.node(ref).name);
        for (const event::TeamIndex team : result.teams) out.text(state.teams[team].name);
        out.text(papers::sets_words(result));
        for (std::size_t s = 0; s < event::most_sets; ++s)
            out.text(s < result.sets.size()
                         ? fmt::format("{}-{}", result.sets[s].first, result.sets[s].second)
                         : "");
        out.text(papers::origin_words(result)).text(match.result_counts ? "yes" : "no").end_row();
    });
    return out.bytes();
}

void pool_rows(CsvWriter& out, const TournamentState& state, event::DivisionIndex d,
               event::PoolIndex p) {
    const event::Division& division = state.divisions[d];
    const event::PoolState& pool = division.pools[p];
    const auto found = event::standing(state, d, p);
    const auto* how = std::get_if<event::Standing>(&found);
    if (how == nullptr) return;
    const standings::Table& table = how->table;
    const auto row = [&](std::string_view place, standings::TeamIndex team, std::string_view why) {
        const standings::Record& r = table.records[team];
        out.text(division.rules.division).text(pool.name).text(place);
        out.text(state.teams[pool.teams[team]].name);
        for (const std::int64_t sum :
             {std::int64_t{r.played}, std::int64_t{r.won}, std::int64_t{r.lost},
              std::int64_t{r.match_points}, std::int64_t{r.sets_won}, std::int64_t{r.sets_lost},
              std::int64_t{r.points_won}, std::int64_t{r.points_lost}})
            out.number(sum);
        out.text(why).end_row();
    };
    for (std::size_t i = 0; i < table.places.size(); ++i) {
        const standings::Place& place = table.places[i];
        // A line of the cell for each: they may have any other sign in them, and no line break.
        std::string why;
        for (const std::string& step : event::reasons(state, d, p, *how, i))
            why += (why.empty() ? "" : "\n") + step;
        for (const standings::TeamIndex team : place.teams)
            row(fmt::format("{}", place.number), team, why);
    }
    for (const standings::TeamIndex team : table.withdrawn) row("", team, "has left");
    for (const standings::TeamIndex team : how->unplayed) row("", team, "has not played yet");
}

std::string standings_of(const TournamentState& state) {
    CsvWriter out;
    titles(out, {"division", "pool", "place", "team", "played", "won", "lost", "match points",
                 "sets won", "sets lost", "points won", "points lost", "because"});
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t p = 0; p < state.divisions[d].pools.size(); ++p)
            pool_rows(out, state, d, static_cast<event::PoolIndex>(p));
    return out.bytes();
}

std::string places(const TournamentState& state) {
    CsvWriter out;
    titles(out, {"division", "first place", "last place", "team"});
    for (const event::FinalPlaces& finals : event::summary(state).finals)
        for (const event::TeamPlace& place : finals.places)
            out.text(finals.division)
                .number(place.first)
                .number(place.last)
                .text(place.team)
                .end_row();
    return out.bytes();
}

}  // namespace

std::vector<TableFile> event_tables(const TournamentState& state, const PersonNames& names) {
    return {{"teams.csv", teams(state)},
            {"people.csv", people(state, names)},
            {"matches.csv", matches(state)},
            {"results.csv", results(state)},
            {"standings.csv", standings_of(state)},
            {"places.csv", places(state)}};
}

}  // namespace courthand::server::exports
