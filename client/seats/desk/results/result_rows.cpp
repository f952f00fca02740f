#include "result_rows.h"

#include <QCoreApplication>
#include <QStringList>

#include "courthand/event/advance.h"
#include "event_words.h"
#include "officials/person_words.h"
#include "record_words.h"
#include "venue/table_results.h"

namespace courthand::seats {

namespace {

struct Results {
    Q_DECLARE_TR_FUNCTIONS(Results)
};

using event::TournamentState;

bool is_not_played(const TournamentState& state, event::MatchRef ref) {
    const tournament::Match& node = state.node(ref);
    for (std::size_t which = 0; which < node.sides.size(); ++which)
        if (state.side(ref, which).state == event::Side::State::bye) return true;
    if (!node.only_if_second_won) return false;
    const auto before = state.divisions[ref.division].matches[*node.only_if_second_won].winner;
    return before == tournament::Winner::first;
}

/// "Court 3, 14:30 · work: Mill Lane": once a match is over nobody asks who works it.
QString place_and_work(const TournamentState& state, event::MatchRef ref) {
    QStringList parts{place_of_match(state, ref)};
    if (!state.match(ref).result_counts) parts << duty_words(state, ref);
    parts.removeAll(QString());
    return parts.join(QStringLiteral(" · "));
}

QString source_of_result(const event::Result& result) {
    if (result.award) return client::award_words(*result.award);
    if (result.from == event::ResultFrom::signed_record) return Results::tr("signed at the table");
    return result.from == event::ResultFrom::paper ? Results::tr("from paper")
                                                   : Results::tr("from the table");
}

}  // namespace

ResultStage result_stage(const TournamentState& state, event::MatchRef ref,
                         const venue::TableResults& tables) {
    const event::MatchState& match = state.match(ref);
    if (match.result) return match.result_counts ? ResultStage::confirmed : ResultStage::doubtful;
    if (is_not_played(state, ref)) return ResultStage::not_played;
    if (tables.to_confirm(state, ref)) return ResultStage::to_confirm;
    if (!state.side(ref, 0).is_team() || !state.side(ref, 1).is_team())
        return ResultStage::sides_open;
    return tables.of(state, ref) ? ResultStage::in_play : ResultStage::to_play;
}

MarkedWord result_words(const TournamentState& state, event::MatchRef ref,
                        const venue::TableResults& tables) {
    switch (result_stage(state, ref, tables)) {
        case ResultStage::sides_open:
            return {Mark::quiet, Results::tr("sides open")};
        case ResultStage::not_played:
            return {Mark::quiet, Results::tr("not played")};
        case ResultStage::to_play:
            return {Mark::quiet, Results::tr("to be played")};
        case ResultStage::in_play:
            if (tables.to_award(state, ref)) return {Mark::caution, Results::tr("to award")};
            return {Mark::notice, Results::tr("in play")};
        case ResultStage::to_confirm:
            return {Mark::caution, Results::tr("to confirm")};
        case ResultStage::doubtful:
            return {Mark::fault, Results::tr("other teams now")};
        case ResultStage::confirmed:
            return {Mark::good, source_of_result(*state.match(ref).result)};
    }
    return {};
}

QString signature_words(const TournamentState& state, event::MatchRef ref,
                        const venue::TableResults& tables) {
    if (state.confirmer != event::Confirmer::signatures || !tables.to_confirm(state, ref))
        return {};
    const auto recorded = tables.of(state, ref);
    const PerTeam<QString> names{side_words(state, ref, 0), side_words(state, ref, 1)};
    QStringList missing;
    for (const Signer signer : missing_to_close(recorded->signed_by))
        missing << client::signer_words(signer, names);
    if (!missing.isEmpty())
        return Results::tr("Not signed: %1").arg(missing.join(QStringLiteral(", ")));
    // The server alone knows what speaks against it: it is the one that confirms.
    if (!recorded->left_to_desk.empty())
        return Results::tr("Signed, and left to the desk: %1").arg(text(recorded->left_to_desk));
    return Results::tr("Signed; it is confirmed by itself in a moment");
}

QString side_words(const TournamentState& state, event::MatchRef ref, std::size_t which) {
    const event::Side side = state.side(ref, which);
    if (side.is_team()) return text(state.teams[side.team].name);
    if (side.state == event::Side::State::bye) return Results::tr("bye");
    return text(event::source_words(state, ref.division, state.node(ref).sides[which]));
}

QString stage_of_graph(const TournamentState& state, event::MatchRef ref) {
    const tournament::Match& node = state.node(ref);
    switch (node.stage) {
        case tournament::Stage::pool:
            return node.pool ? Results::tr("pool %1").arg(
                                   text(state.divisions[ref.division].pools[*node.pool].name))
                             : QString();
        case tournament::Stage::main:
            return Results::tr("round %1").arg(node.round);
        case tournament::Stage::losers:
            return Results::tr("losers’ round %1").arg(node.round);
        case tournament::Stage::consolation:
            return Results::tr("consolation, round %1").arg(node.round);
        case tournament::Stage::placement:
            return Results::tr("places, round %1").arg(node.round);
        case tournament::Stage::third_place:
            return Results::tr("third place");
        case tournament::Stage::final:
            return Results::tr("final");
    }
    return {};
}

QString sets_of(const std::vector<event::SetScore>& sets) {
    if (sets.empty()) return {};
    int first = 0;
    int second = 0;
    for (const event::SetScore set : sets) ++(set.first > set.second ? first : second);
    return QStringLiteral("%1 : %2").arg(first).arg(second);
}

std::vector<event::SetScore> known_sets(const TournamentState& state, event::MatchRef ref,
                                        const venue::TableResults& tables) {
    if (const auto& result = state.match(ref).result) return result->sets;
    const auto recorded = tables.of(state, ref);
    return recorded ? recorded->sets : std::vector<event::SetScore>{};
}

std::vector<event::SetScore> ended_sets(const TournamentState& state, event::MatchRef ref,
                                        const venue::TableResults& tables) {
    auto sets = known_sets(state, ref, tables);
    const auto recorded = tables.of(state, ref);
    if (!state.match(ref).result && recorded && recorded->ended < sets.size())
        sets.resize(recorded->ended);
    return sets;
}

QString place_of_match(const TournamentState& state, event::MatchRef ref) {
    const auto& placement = state.match(ref).placement;
    if (!placement) return {};
    const QString court = court_words(placement->court);
    if (!placement->at.given()) return court;
    const QString whole = text(event::written(placement->at));
    const QString of_day = whole.section(QLatin1Char('T'), 1);
    // Of an event of one day everybody knows which.
    const bool one_day = !state.opened || (state.opened->first_day == state.opened->last_day &&
                                           placement->at.date() == state.opened->first_day);
    if (one_day) return QStringLiteral("%1, %2").arg(court, of_day);
    return QStringLiteral("%1, %2 %3").arg(court, whole.section(QLatin1Char('T'), 0, 0), of_day);
}

QVariantMap result_row(const TournamentState& state, event::MatchRef ref,
                       const venue::TableResults& tables) {
    const auto sets = known_sets(state, ref, tables);
    const MarkedWord word = result_words(state, ref, tables);
    return {{QStringLiteral("key"), text(state.node(ref).name)},
            {QStringLiteral("about"), stage_of_graph(state, ref)},
            {QStringLiteral("first"), side_words(state, ref, 0)},
            {QStringLiteral("second"), side_words(state, ref, 1)},
            {QStringLiteral("known"), state.side(ref, 0).is_team() && state.side(ref, 1).is_team()},
            {QStringLiteral("sets"), sets_of(ended_sets(state, ref, tables))},
            {QStringLiteral("scores"), client::set_scores(sets)},
            {QStringLiteral("place"), place_and_work(state, ref)},
            {QStringLiteral("stage"), static_cast<int>(result_stage(state, ref, tables))},
            {QStringLiteral("mark"), static_cast<int>(word.mark)},
            {QStringLiteral("state"), word.word}};
}

}  // namespace courthand::seats
