#include "bracket_rows.h"

#include <QCoreApplication>

#include "result_rows.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

struct Bracket {
    Q_DECLARE_TR_FUNCTIONS(Bracket)
};

struct Sets {
    QString first;
    QString second;
};

Sets sets_won(const std::vector<event::SetScore>& sets) {
    if (sets.empty()) return {};
    int first = 0;
    int second = 0;
    for (const event::SetScore set : sets) ++(set.first > set.second ? first : second);
    return {QString::number(first), QString::number(second)};
}

QString joined(const QString& a, const QString& b) {
    return b.isEmpty() ? a : QStringLiteral("%1 · %2").arg(a, b);
}

}  // namespace

QVariantMap bracket_box(const event::TournamentState& state, event::MatchRef ref,
                        const BracketBox& box, const venue::TableResults& tables) {
    const QString name = text(state.node(ref).name);
    const QString first = side_words(state, ref, 0);
    const QString second = side_words(state, ref, 1);
    const Sets sets = sets_won(ended_sets(state, ref, tables));
    const MarkedWord word = result_words(state, ref, tables);
    return {{QStringLiteral("key"), name},
            {QStringLiteral("column"), static_cast<int>(box.column)},
            {QStringLiteral("row"), box.row},
            {QStringLiteral("about"), joined(name, place_of_match(state, ref))},
            {QStringLiteral("first"), first},
            {QStringLiteral("second"), second},
            {QStringLiteral("firstKnown"), state.side(ref, 0).is_team()},
            {QStringLiteral("secondKnown"), state.side(ref, 1).is_team()},
            {QStringLiteral("firstSets"), sets.first},
            {QStringLiteral("secondSets"), sets.second},
            {QStringLiteral("winner"), static_cast<int>(state.match(ref).winner)},
            {QStringLiteral("mark"), static_cast<int>(word.mark)},
            {QStringLiteral("state"), word.word},
            {QStringLiteral("spoken"),
             Bracket::tr("%1, %2: %3 against %4, %5")
                 .arg(name, stage_of_graph(state, ref), first, second, word.word)}};
}

std::vector<QVariantMap> bracket_lines(const event::Division& division,
                                       const BracketLayout& layout) {
    std::vector<QVariantMap> rows;
    for (const BracketLine& line : layout.lines) {
        const BracketBox& from = layout.boxes[line.from];
        const BracketBox& to = layout.boxes[line.to];
        rows.push_back({{QStringLiteral("key"), text(division.graph.matches[from.match].name)},
                        {QStringLiteral("fromColumn"), static_cast<int>(from.column)},
                        {QStringLiteral("fromRow"), from.row},
                        {QStringLiteral("toColumn"), static_cast<int>(to.column)},
                        {QStringLiteral("toRow"), to.row},
                        {QStringLiteral("second"), line.second}});
    }
    return rows;
}

std::vector<QVariantMap> bracket_headings(const event::Division& division,
                                          const BracketLayout& layout) {
    std::vector<QVariantMap> rows;
    for (const BracketTree& tree : layout.trees) {
        const QString root = text(division.graph.matches[tree.root].name);
        QString title = Bracket::tr("To %1").arg(root);
        if (tree.first != 0 && tree.last > tree.first)
            title = Bracket::tr("Places %1 and %2: %3").arg(tree.first).arg(tree.last).arg(root);
        else if (tree.first != 0)
            title = Bracket::tr("Place %1: %2").arg(tree.first).arg(root);
        rows.push_back({{QStringLiteral("key"), root},
                        {QStringLiteral("row"), tree.row},
                        {QStringLiteral("title"), title}});
    }
    return rows;
}

}  // namespace courthand::seats
