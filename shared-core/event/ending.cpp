#include "courthand/event/ending.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "courthand/event/advance.h"
#include "courthand/event/choices.h"
#include "courthand/event/pool_table.h"
#include "event/settlement.h"

namespace courthand::event {

using tournament::Winner;
using GraphSource = tournament::Source;

namespace {

/// A bye, a second final that is not needed.
[[nodiscard]] bool is_played(const TournamentState& state, MatchRef ref) {
    for (std::size_t which = 0; which < 2; ++which)
        if (state.side(ref, which).state == Side::State::bye) return false;
    const auto before = state.node(ref).only_if_second_won;
    return !before || state.divisions[ref.division].matches[*before].winner != Winner::first;
}

[[nodiscard]] bool has_left(const TournamentState& state, Side side) {
    return side.is_team() && state.teams[side.team].withdrawn;
}

/// Somebody goes on from the source: to a match, a comparison or a place of a bracket.
[[nodiscard]] bool leads_on(const Division& division, SourceIndex source) {
    if (!division.uses.matches[source].empty() || !division.uses.compared[source].empty())
        return true;
    const auto& places = division.graph.places;
    return std::any_of(places.begin(), places.end(),
                       [&](const auto& place) { return place.source == source; });
}

[[nodiscard]] PlaceHeld::State state_of(const TournamentState& state, const Division& division,
                                        SourceIndex source) {
    const Side side = division.settled[source];
    if (side.is_team()) return PlaceHeld::State::held;
    const GraphSource& s = division.graph.sources[source];
    const bool ends_match =
        s.kind == GraphSource::Kind::winner || s.kind == GraphSource::Kind::loser;
    const bool nobody = side.state == Side::State::bye || all_have_left(state, division) ||
                        (ends_match && lost_by_both(division.matches[s.of]));
    return nobody ? PlaceHeld::State::nobody : PlaceHeld::State::open;
}

/// The places of a pool that lead nowhere.
void add_pool(const TournamentState& state, const Division& division, PoolIndex index,
              bool only_one, std::vector<PlaceHeld>& places) {
    const PoolState& pool = division.pools[index];
    const auto stays = [&](TeamIndex team) { return !state.teams[team].withdrawn; };
    const auto teams =
        static_cast<std::size_t>(std::count_if(pool.teams.begin(), pool.teams.end(), stays));
    std::vector<bool> taken(teams + 1, false);
    for (const SourceIndex source : division.uses.places[index]) {
        const std::uint32_t place = division.graph.sources[source].second;
        if (place < taken.size() && leads_on(division, source)) taken[place] = true;
    }
    for (std::size_t n = 1; n <= teams; ++n) {
        if (taken[n]) continue;
        PlaceHeld place;
        place.first = static_cast<std::uint16_t>(n);
        place.last = place.first;
        if (!only_one) place.pool = index;
        if (n <= pool.order.size() && pool.order[n - 1] != no_team) {
            place.state = PlaceHeld::State::held;
            place.team = pool.order[n - 1];
        }
        places.push_back(place);
    }
}

[[nodiscard]] std::string result_words(const TournamentState& state, const std::string& match,
                                       const Result& result, TeamIndex winner) {
    const bool first = result.teams[0] == winner;
    const std::string& one = state.teams[result.teams[first ? 0 : 1]].name;
    const std::string& other = state.teams[result.teams[first ? 1 : 0]].name;
    if (result.award)
        return fmt::format("{}: {} won, lost by {} ({})", match, one, other,
                           choice_word(*result.award));
    std::string sets;
    for (const SetScore set : result.sets)
        sets +=
            fmt::format(" {}-{}", first ? set.first : set.second, first ? set.second : set.first);
    return fmt::format("{}: {} won against {},{}", match, one, other, sets);
}

/// Goes back from a source to where its team began.
class WayBack {
  public:
    WayBack(const TournamentState& state, DivisionIndex division)
        : state_{state}, index_{division}, division_{state.divisions[division]} {}

    [[nodiscard]] std::vector<std::string> from(SourceIndex source) {
        const Side who = division_.settled[source];
        std::optional<SourceIndex> next = source;
        // Each step leads to an earlier source: the graph has no circles.
        while (next) next = step(*next, who);
        return std::move(lines_);
    }
    [[nodiscard]] std::vector<std::string> from_pool(PoolIndex pool, TeamIndex team) {
        tell_pool(pool, team);
        return std::move(lines_);
    }

  private:
    std::optional<SourceIndex> step(SourceIndex source, Side who) {
        const GraphSource& s = division_.graph.sources[source];
        switch (s.kind) {
            case GraphSource::Kind::winner:
            case GraphSource::Kind::loser:
                return through(static_cast<MatchIndex>(s.of), who);
            case GraphSource::Kind::better:
            case GraphSource::Kind::worse:
                lines_.push_back(source_words(state_, index_, source) + ", by their seeds");
                return division_.settled[s.of] == who ? s.of : s.second;
            case GraphSource::Kind::place:
                tell_pool(static_cast<PoolIndex>(s.of), who.team);
                break;
            case GraphSource::Kind::team:
                lines_.push_back(beginning(who.team));
                break;
            case GraphSource::Kind::bye:
                break;
        }
        return std::nullopt;
    }

    [[nodiscard]] std::string beginning(TeamIndex team) const {
        const auto& seeds = division_.seeds;
        const auto seed = std::find(seeds.begin(), seeds.end(), team);
        const std::string& name = state_.teams[team].name;
        return seed == seeds.end()
                   ? name + " began here"
                   : fmt::format("{} began here, as seed {}", name, seed - seeds.begin() + 1);
    }

    std::optional<SourceIndex> through(MatchIndex index, Side who) {
        const tournament::Match& node = division_.graph.matches[index];
        const MatchState& match = division_.matches[index];
        if (match.result && match.result_counts) {
            const bool first = match.winner == Winner::first;
            lines_.push_back(
                result_words(state_, node.name, *match.result, match.result->teams[first ? 0 : 1]));
        } else {
            lines_.push_back(fmt::format("{}: not played", node.name));
        }
        for (const SourceIndex side : node.sides)
            if (division_.settled[side] == who) return side;
        return std::nullopt;
    }

    void tell_pool(PoolIndex index, TeamIndex team) {
        const auto ranked = pool_table(state_, index_, index);
        const auto* table = std::get_if<standings::Table>(&ranked);
        if (table == nullptr) return;
        const standings::Pool pool = standings_pool(state_, index_, index);
        const auto& teams = division_.pools[index].teams;
        for (std::size_t p = 0; p < table->places.size(); ++p) {
            const standings::Place& place = table->places[p];
            const auto here = std::find_if(place.teams.begin(), place.teams.end(),
                                           [&](const auto t) { return teams[t] == team; });
            if (here == place.teams.end()) continue;
            lines_.push_back(fmt::format("place {} of pool {}", place.number, pool_name(index)));
            for (auto& line : standings::reasons(*division_.chain, pool, *table, p))
                lines_.push_back(std::move(line));
        }
    }
    [[nodiscard]] const std::string& pool_name(PoolIndex index) const {
        return division_.pools[index].name;
    }

    const TournamentState& state_;
    DivisionIndex index_;
    const Division& division_;
    std::vector<std::string> lines_;
};

/// What an open place of a pool waits for.
[[nodiscard]] std::vector<std::string> pool_waits(const TournamentState& state, DivisionIndex index,
                                                  PoolIndex number) {
    const PoolState& pool = state.divisions[index].pools[number];
    if (pool.open_matches > 0)
        return {fmt::format("pool {}: {} without a confirmed result", pool.name,
                            pool.open_matches == 1
                                ? std::string{"1 match is"}
                                : fmt::format("{} matches are", pool.open_matches))};
    return {fmt::format("pool {} needs a decision", pool.name)};
}

}  // namespace

bool waits_for_result(const TournamentState& state, MatchRef ref) {
    if (state.match(ref).result_counts || !is_played(state, ref)) return false;
    if (all_have_left(state, state.divisions[ref.division])) return false;
    if (!state.node(ref).pool) return true;
    return !has_left(state, state.side(ref, 0)) && !has_left(state, state.side(ref, 1));
}

std::vector<PlaceHeld> places_held(const TournamentState& state, DivisionIndex index) {
    const Division& division = state.divisions[index];
    std::vector<PlaceHeld> places;
    for (const tournament::FinalPlace& place : division.graph.places)
        places.push_back({place.first,
                          place.last,
                          {},
                          place.source,
                          state_of(state, division, place.source),
                          division.settled[place.source].team});
    std::stable_sort(places.begin(), places.end(), [](const PlaceHeld& a, const PlaceHeld& b) {
        return std::tie(a.first, a.last) < std::tie(b.first, b.last);
    });
    const bool only_one = places.empty() && division.pools.size() == 1;
    for (std::size_t p = 0; p < division.pools.size(); ++p)
        add_pool(state, division, static_cast<PoolIndex>(p), only_one, places);
    return places;
}

std::vector<std::string> why_held(const TournamentState& state, DivisionIndex index,
                                  const PlaceHeld& place) {
    const bool held = place.state == PlaceHeld::State::held;
    if (!place.source) {
        const PoolIndex pool = place.pool.value_or(PoolIndex{0});
        return held ? WayBack{state, index}.from_pool(pool, place.team)
                    : pool_waits(state, index, pool);
    }
    if (held) return WayBack{state, index}.from(*place.source);
    std::vector<std::string> lines{"it goes to the " + source_words(state, index, *place.source)};
    if (std::string why = why_open(state, index, *place.source); !why.empty())
        lines.push_back(std::move(why));
    return lines;
}

bool DivisionEnd::over() const noexcept {
    // Without a match it is over where nobody is left to play one: each team has its place or left.
    const bool nothing_to_play = placeless == 0 && (!left.empty() || !places.empty());
    return (matches > 0 || nothing_to_play) && open.empty() && undecided.empty() &&
           std::none_of(places.begin(), places.end(), [](const PlaceHeld& place) {
               return place.state == PlaceHeld::State::open;
           });
}

DivisionEnd division_end(const TournamentState& state, DivisionIndex index) {
    const Division& division = state.divisions[index];
    DivisionEnd end;
    for (std::size_t m = 0; m < division.matches.size(); ++m) {
        const MatchRef ref{index, static_cast<MatchIndex>(m)};
        const bool waits = waits_for_result(state, ref);
        if (waits) end.open.push_back(ref.match);
        if (waits || division.matches[m].result_counts) ++end.matches;
    }
    end.undecided = waiting(state, index);
    end.places = places_held(state, index);
    for (const TeamIndex team : division.teams) {
        const bool placed = std::any_of(end.places.begin(), end.places.end(),
                                        [&](const PlaceHeld& p) { return p.team == team; });
        if (placed) continue;
        if (state.teams[team].withdrawn)
            end.left.push_back(team);
        else
            ++end.placeless;
    }
    return end;
}

bool event_over(const TournamentState& state) {
    bool any = false;
    for (DivisionIndex d = 0; d < state.division_count(); ++d) {
        if (state.divisions[d].teams.empty()) continue;
        if (!division_end(state, d).over()) return false;
        any = true;
    }
    return any;
}

}  // namespace courthand::event
