#include "ruled_standings.h"

#include <QCoreApplication>
#include <algorithm>
#include <optional>
#include <utility>

#include "courthand/event/fold.h"
#include "event_words.h"
#include "standings_without.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

using event::TournamentState;
using Sets = std::vector<event::SetScore>;

struct Ruled {
    Q_DECLARE_TR_FUNCTIONS(Ruled)
};

/// Whether team A of the table is the second side of the match; nothing when others play.
std::optional<bool> turned(const TournamentState& state, event::MatchRef ref,
                           const venue::CourtOnBoard& court) {
    const auto plays = [&](std::size_t which, const std::string& name) {
        const event::Side side = state.side(ref, which);
        return side.is_team() && state.teams[side.team].name == name;
    };
    if (plays(0, court.teams.a.name) && plays(1, court.teams.b.name)) return false;
    if (plays(1, court.teams.a.name) && plays(0, court.teams.b.name)) return true;
    return std::nullopt;
}

/// The sets of the match with this score of the present one.
Sets sets_with(const venue::CourtOnBoard& court, Score present, bool turned) {
    std::vector<Score> scores = court.finished_sets;
    scores.resize(static_cast<std::size_t>(court.set));
    scores.back() = present;
    Sets sets;
    for (const Score& score : scores)
        sets.push_back(turned ? event::SetScore{score.b, score.a}
                              : event::SetScore{score.a, score.b});
    return sets;
}

/// The record with the match ended so; without a result when no match ends so.
struct Ended {
    TournamentState state;
    bool over = false;
};

Ended ended_with(const TournamentState& state, event::MatchRef ref, const Sets& sets) {
    const std::string& name = state.node(ref).name;
    TournamentState open = state;
    if (state.match(ref).result) event::fold_in(open, event::ResultReopened{name});
    Ended ended{open, true};
    event::fold_in(ended.state,
                   event::ResultConfirmed{name, event::ResultFrom::paper, sets, {}, {}});
    if (ended.state.match(ref).result_counts) return ended;
    return {std::move(open), false};
}

QString end_words(const Ended& ended, const Sets& sets) {
    return ended.over ? client::set_scores(sets) : Ruled::tr("not over");
}

}  // namespace

RuledStandings standings_if_ruled(const TournamentState& state, const venue::CourtOnBoard& court,
                                  const venue::Alert& alert) {
    const auto& ruled = alert.evidence.score_if_ruled;
    const auto ref = state.find_match(alert.match_name);
    if (!ruled || !ref || court.match_id != alert.match_id || court.set != alert.set ||
        court.set < 1 || court.finished_sets.size() > static_cast<std::size_t>(court.set))
        return {};
    const auto& pool = state.node(*ref).pool;
    const auto changed_over = turned(state, *ref, court);
    if (!pool || !changed_over) return {};
    const QString where = text(state.divisions[ref->division].pools[*pool].name);
    const Sets as_it_is = sets_with(court, court.score, *changed_over);
    const Sets as_ruled = sets_with(court, *ruled, *changed_over);
    const bool counts = state.match(*ref).result_counts;
    const Ended is = counts ? Ended{state, true} : ended_with(state, *ref, as_it_is);
    const Ended other = ended_with(state, *ref, as_ruled);
    if (!is.over && !other.over)
        return {Ruled::tr("Places in pool %1 do not hang on it: the match is not over.").arg(where),
                {}};
    return {Ruled::tr("Places in pool %1 with the match at %2, and with the remedy applied: %3.")
                .arg(where, end_words(is, counts ? state.match(*ref).result->sets : as_it_is),
                     end_words(other, as_ruled)),
            places_beside(is.state, other.state, {ref->division, *pool})};
}

}  // namespace courthand::seats
