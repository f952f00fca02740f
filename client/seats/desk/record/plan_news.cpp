#include "record/plan_news.h"

#include <QCoreApplication>
#include <algorithm>

#include "courthand/event/advance.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

struct PlanNews {
    Q_DECLARE_TR_FUNCTIONS(PlanNews)
};

/// Lines of a preview: more than a person reads before publishing.
constexpr std::size_t most_lines = 24;

QString place(const event::Placement& placement) {
    if (!placement.at.given()) return court_words(placement.court);
    QString at = text(event::written(placement.at));
    at.replace(QLatin1Char('T'), QLatin1Char(' '));
    return PlanNews::tr("%1 at %2").arg(court_words(placement.court), at);
}

/// "fact 14: the net of court 1 is torn"; empty: no fact of its own changed it.
QString reason(const event::PlanChange& change, const venue::EventBook::Words& words) {
    if (change.fact == 0) return {};
    const auto why = words.find(change.fact);
    return why == words.end() || why->second.empty()
               ? PlanNews::tr("fact %1").arg(change.fact)
               : PlanNews::tr("fact %1: %2").arg(change.fact).arg(text(why->second));
}

QString difference(const event::PlanChange& change) {
    const QString match = text(change.match);
    if (!change.was) return PlanNews::tr("%1: new, %2").arg(match, place(*change.is));
    if (!change.is)
        return PlanNews::tr("%1: was %2, has no place now").arg(match, place(*change.was));
    return PlanNews::tr("%1: was %2, now %3").arg(match, place(*change.was), place(*change.is));
}

QString line(const event::PlanChange& change, const venue::EventBook::Words& words) {
    const QString why = reason(change, words);
    return why.isEmpty() ? difference(change)
                         : PlanNews::tr("%1 (%2)", "what changed, by which fact")
                               .arg(difference(change), why);
}

/// Matches that have a court and a time.
int placed(const event::TournamentState& state) {
    int count = 0;
    for (const auto& division : state.divisions)
        for (const auto& match : division.matches) count += match.placement ? 1 : 0;
    return count;
}

}  // namespace

QStringList plan_news(const event::TournamentState& state, const venue::EventBook::Words& words) {
    if (state.plan.version == 0) {
        const int count = placed(state);
        if (count == 0) return {PlanNews::tr("No match has a court and a time yet.")};
        return {count == 1 ? PlanNews::tr("The first version: 1 match has a court and a time.")
                           : PlanNews::tr("The first version: %1 matches have a court and a time.")
                                 .arg(count)};
    }
    const auto changes = event::changes_since_published(state);
    if (changes.empty())
        return {PlanNews::tr("Nothing has changed since version %1.").arg(state.plan.version)};
    QStringList lines;
    for (std::size_t i = 0; i < std::min(changes.size(), most_lines); ++i)
        lines << line(changes[i], words);
    if (changes.size() > most_lines)
        lines << PlanNews::tr("and %1 more").arg(changes.size() - most_lines);
    return lines;
}

ActWish publication(const venue::EventBook& book) {
    const std::uint32_t next = book.state->plan.version + 1;
    return {PlanNews::tr("Publish version %1 of the plan").arg(next),
            PlanNews::tr("Version %1 of the plan is published.").arg(next),
            [&book](const event::TournamentState& state) { return plan_news(state, *book.words); },
            {event::PlanPublished{next}},
            {}};
}

}  // namespace courthand::seats
