#include "bracket_page.h"

#include "bracket_rows.h"
#include "venue_words.h"

namespace courthand::seats {

BracketPage::BracketPage(const venue::EventBook& book, const venue::TableResults& tables,
                         QObject* parent)
    : QObject(parent),
      book_(book),
      tables_(tables),
      boxes_({QStringLiteral("key"), QStringLiteral("column"), QStringLiteral("row"),
              QStringLiteral("about"), QStringLiteral("first"), QStringLiteral("second"),
              QStringLiteral("firstKnown"), QStringLiteral("secondKnown"),
              QStringLiteral("firstSets"), QStringLiteral("secondSets"), QStringLiteral("winner"),
              QStringLiteral("mark"), QStringLiteral("state"), QStringLiteral("spoken")}),
      lines_({QStringLiteral("key"), QStringLiteral("fromColumn"), QStringLiteral("fromRow"),
              QStringLiteral("toColumn"), QStringLiteral("toRow"), QStringLiteral("second")}),
      headings_({QStringLiteral("key"), QStringLiteral("row"), QStringLiteral("title")}) {}

void BracketPage::show(event::DivisionIndex division) {
    division_ = division;
    if (division >= book_.state->division_count()) {
        graph_ = {};
        layout_ = {};
        boxes_.show({});
        lines_.show({});
        headings_.show({});
        Q_EMIT laidOut();
        return;
    }
    const event::Division& of = book_.state->divisions[division];
    // A result changes what stands in the boxes, not where they stand.
    if (of.graph != graph_) {
        graph_ = of.graph;
        layout_ = layout_of(graph_);
        Q_EMIT laidOut();
        headings_.show(bracket_headings(of, layout_));
        lines_.show(bracket_lines(of, layout_));
    }
    std::vector<event::MatchRef> matches;
    for (const BracketBox& box : layout_.boxes) matches.push_back({division, box.match});
    boxes_.show(kept_.of(book_.state, matches, tables_, [&](std::size_t i) {
        return bracket_box(*book_.state, matches[i], layout_.boxes[i], tables_);
    }));
}

QString BracketPage::beside(const QString& match, int direction) const {
    if (layout_.boxes.empty()) return {};
    for (std::size_t i = 0; i < layout_.boxes.size(); ++i) {
        if (text(graph_.matches[layout_.boxes[i].match].name) != match) continue;
        const auto next = seats::beside(layout_, i, static_cast<Step>(direction));
        return next ? text(graph_.matches[layout_.boxes[*next].match].name) : match;
    }
    return text(graph_.matches[layout_.boxes.front().match].name);
}

}  // namespace courthand::seats
