#include "event_work.h"

#include <QCoreApplication>
#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "courthand/event/advance.h"
#include "courthand/event/duty.h"
#include "courthand/event/ending.h"
#include "courthand/event/pool_table.h"
#include "event_words.h"
#include "officials/person_words.h"
#include "pool_rows.h"
#include "results/result_rows.h"
#include "venue/table_results.h"
#include "work_list.h"

namespace courthand::seats {

namespace {

struct Work {
    Q_DECLARE_TR_FUNCTIONS(Work)
};

using event::TournamentState;
using Rows = RecordWork::Rows;

void add(Rows& rows, const Rows& more) {
    rows.insert(rows.end(), more.begin(), more.end());
}

void add_results(Rows& rows, const TournamentState& state, event::DivisionIndex d,
                 const venue::TableResults& tables) {
    const auto& matches = state.divisions[d].graph.matches;
    for (std::size_t m = 0; m < matches.size(); ++m) {
        const event::MatchRef ref{d, static_cast<event::MatchIndex>(m)};
        const QString name = text(matches[m].name);
        if (tables.to_award(state, ref))
            rows.push_back(work_row(QStringLiteral("award-") + name, Mark::caution,
                                    Work::tr("%1: to award").arg(name),
                                    Work::tr("%1 – %2, lost by default at the table")
                                        .arg(side_words(state, ref, 0), side_words(state, ref, 1)),
                                    {QStringLiteral("result"), name}));
        if (!tables.to_confirm(state, ref)) continue;
        QStringList detail{QStringLiteral("%1 – %2, %3")
                               .arg(side_words(state, ref, 0), side_words(state, ref, 1),
                                    client::set_scores(known_sets(state, ref, tables))),
                           signature_words(state, ref, tables)};
        detail.removeAll(QString());
        rows.push_back(work_row(QStringLiteral("confirm-") + name, Mark::caution,
                                Work::tr("%1: result to confirm").arg(name),
                                detail.join(QStringLiteral(" · ")),
                                {QStringLiteral("result"), name}));
    }
}

/// Confirmed results of tables that have written in the record since: a correction may be among it.
void add_written_since(Rows& rows, const TournamentState& state, event::DivisionIndex d,
                       const venue::TableResults& tables) {
    const event::Division& division = state.divisions[d];
    for (std::size_t m = 0; m < division.matches.size(); ++m) {
        const auto& result = division.matches[m].result;
        if (!result || !division.matches[m].result_counts || !result->head.given()) continue;
        const auto recorded = tables.of(state, {d, static_cast<event::MatchIndex>(m)});
        if (!recorded || !recorded->head.given() || recorded->head == result->head) continue;
        // Who signs after the result was confirmed, or adds a remark, changes nothing of it.
        if (recorded->decided && recorded->sets == result->sets && !recorded->protested) continue;
        const QString name = text(division.graph.matches[m].name);
        rows.push_back(work_row(
            QStringLiteral("written-") + name, Mark::fault,
            recorded->protested ? Work::tr("%1: a protest, and its result is confirmed").arg(name)
                                : Work::tr("%1: the table has written since").arg(name),
            Work::tr("confirmed %1, the table has %2")
                .arg(client::set_scores(result->sets), client::set_scores(recorded->sets)),
            {QStringLiteral("result"), name}));
    }
}

void add_decisions(Rows& rows, const TournamentState& state, event::DivisionIndex d) {
    const event::Division& division = state.divisions[d];
    for (std::size_t p = 0; p < division.pools.size(); ++p) {
        const auto pool = static_cast<event::PoolIndex>(p);
        const QString key =
            text(division.rules.division) + key_separator + text(division.pools[p].name);
        for (const auto& place : event::undecided(state, d, pool))
            rows.push_back(
                work_row(QStringLiteral("decide-%1-%2").arg(key).arg(place.number), Mark::caution,
                         Work::tr("Pool %1 needs a decision").arg(text(division.pools[p].name)),
                         Work::tr("places %1 to %2: %3")
                             .arg(place.number)
                             .arg(place.number + place.teams.size() - 1)
                             .arg(client::decider_words(place.decider)),
                         {QStringLiteral("decide"), key}));
    }
}

/// Places of pools that have a row of their own because they want a decision.
std::set<std::string> undecided_pools(const TournamentState& state) {
    std::set<std::string> places;
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d)
        for (std::size_t p = 0; p < state.divisions[d].pools.size(); ++p)
            if (!event::undecided(state, d, static_cast<event::PoolIndex>(p)).empty())
                places.insert("pool " + state.divisions[d].pools[p].name);
    return places;
}

/// What else the record leaves for a person.
void add_waiting(Rows& rows, const TournamentState& state) {
    const auto decisions = undecided_pools(state);
    int number = 0;
    for (const auto& fault : event::waiting(state)) {
        const bool match = state.find_match(fault.place).has_value();
        if (decisions.contains(fault.place)) continue;
        rows.push_back(work_row(
            QStringLiteral("event-%1-%2").arg(text(fault.place)).arg(match ? 0 : ++number),
            Mark::fault, QStringLiteral("%1: %2").arg(text(fault.place), text(fault.message)),
            text(fault.cure), match ? Act{QStringLiteral("result"), text(fault.place)} : Act{}));
    }
}

void add_teams(Rows& rows, const TournamentState& state, event::DivisionIndex d) {
    const event::Division& division = state.divisions[d];
    if (!division.draw) return;
    QStringList without;
    for (const event::TeamIndex team : division.teams)
        if (!state.teams[team].pool && !state.teams[team].withdrawn)
            without << text(state.teams[team].name);
    if (without.isEmpty()) return;
    const QString code = text(division.rules.division);
    rows.push_back(work_row(
        QStringLiteral("poolless-") + code, Mark::notice,
        without.size() == 1 ? Work::tr("%1: 1 team without a pool").arg(code)
                            : Work::tr("%1: %2 teams without a pool").arg(code).arg(without.size()),
        without.join(QStringLiteral(", ")), {QStringLiteral("entries"), code}));
}

/// Matches that are to be played and have no court and time, once some of the division have one.
void add_places(Rows& rows, const TournamentState& state, event::DivisionIndex d,
                const venue::TableResults& tables) {
    const event::Division& division = state.divisions[d];
    const bool planned = std::any_of(division.matches.begin(), division.matches.end(),
                                     [](const auto& match) { return match.placement.has_value(); });
    if (!planned) return;
    QStringList without;
    for (std::size_t m = 0; m < division.matches.size(); ++m) {
        const event::MatchRef ref{d, static_cast<event::MatchIndex>(m)};
        const ResultStage stage = result_stage(state, ref, tables);
        const bool ahead = stage == ResultStage::sides_open || stage == ResultStage::to_play;
        if (ahead && !division.matches[m].placement)
            without << text(division.graph.matches[m].name);
    }
    if (without.isEmpty()) return;
    const QString code = text(division.rules.division);
    constexpr int most_named = 8;
    QString named = without.mid(0, most_named).join(QStringLiteral(", "));
    if (without.size() > most_named)
        named = Work::tr("%1 and %2 more").arg(named).arg(without.size() - most_named);
    rows.push_back(
        work_row(QStringLiteral("placeless-") + code, Mark::notice,
                 Work::tr("%1: matches without court and time: %2").arg(code).arg(without.size()),
                 named, {QStringLiteral("plan"), code}));
}

/// Matches whose workers or officials cannot, or should not, work them.
void add_clashes(Rows& rows, const venue::EventBook& book) {
    const TournamentState& state = *book.state;
    std::map<std::string, QStringList> by_match;
    for (const auto& one : event::clashes(state))
        by_match[state.node(one.match).name] << clash_words(book, state, one.clash);
    for (const auto& [name, lines] : by_match)
        rows.push_back(work_row(QStringLiteral("clash-") + text(name), Mark::caution,
                                Work::tr("%1: who works it").arg(text(name)),
                                lines.join(QStringLiteral(" · ")),
                                {QStringLiteral("duty"), text(name)}));
}

void add_link(Rows& rows, const venue::EventBook& book, const venue::Link& link) {
    if (link.state == venue::LinkState::refused)
        rows.push_back(work_row(QStringLiteral("record-refused"), Mark::fault,
                                Work::tr("The tournament's record is not read further"),
                                text(link.words)));
    else if (!book.whole && book.state->last() > 0)
        rows.push_back(work_row(QStringLiteral("record-coming"), Mark::notice,
                                Work::tr("The tournament's record is still being read"),
                                Work::tr("pages show the part that has come")));
}

}  // namespace

RecordWork record_work(const venue::EventBook& book) {
    const TournamentState& state = *book.state;
    RecordWork work;
    add_waiting(work.waiting, state);
    for (event::DivisionIndex d = 0; d < state.division_count(); ++d) {
        Rows& rows = work.of_divisions.emplace_back();
        add_decisions(rows, state, d);
        add_teams(rows, state, d);
    }
    add_clashes(work.clashes, book);
    work.over = event::event_over(state);
    return work;
}

std::vector<QVariantMap> event_work_rows(const venue::EventBook& book, const RecordWork& work,
                                         const venue::Link& link,
                                         const venue::TableResults& tables) {
    const TournamentState& state = *book.state;
    Rows rows;
    add_link(rows, book, link);
    add(rows, work.waiting);
    for (event::DivisionIndex d = 0; d < work.of_divisions.size(); ++d) {
        add_results(rows, state, d, tables);
        add_written_since(rows, state, d, tables);
        add(rows, work.of_divisions[d]);
        add_places(rows, state, d, tables);
    }
    add(rows, work.clashes);
    return rows;
}

}  // namespace courthand::seats
