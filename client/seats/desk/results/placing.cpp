#include "placing.h"

#include <QCoreApplication>
#include <optional>

#include "courthand/event/limits.h"

namespace courthand::seats {

namespace {

struct Placing {
    Q_DECLARE_TR_FUNCTIONS(Placing)
};

std::optional<event::LocalTime> moment_of(const event::TournamentState& state, const QString& at) {
    if (const auto whole = event::local_time_of(at.toStdString())) return whole;
    if (!state.opened) return std::nullopt;
    const QString of_day = at.size() == 4 ? QStringLiteral("0") + at : at;
    return event::local_time_of(event::written(state.opened->first_day) + "T" +
                                of_day.toStdString());
}

}  // namespace

std::variant<std::vector<event::Fact>, QString> placing(const event::TournamentState& state,
                                                        const QString& match, const QString& court,
                                                        const QString& at) {
    if (court.isEmpty()) return std::vector<event::Fact>{event::MatchUnplaced{match.toStdString()}};
    bool number = false;
    const uint wanted = court.toUInt(&number);
    if (!number || wanted == 0 || wanted > event::most_courts)
        return Placing::tr("'%1' is no court. Write its number, 1 to %2.")
            .arg(court)
            .arg(event::most_courts);
    event::MatchPlaced placed;
    placed.match = match.toStdString();
    placed.court = static_cast<std::uint16_t>(wanted);
    placed.timing = at.isEmpty() ? event::Timing::follows : event::Timing::fixed;
    placed.may_start_early = at.isEmpty();
    if (!at.isEmpty()) {
        const auto moment = moment_of(state, at);
        if (!moment)
            return Placing::tr("'%1' is no time. Write it as 9:30, on another day as %2.")
                .arg(at, QStringLiteral("2026-11-28T09:30"));
        placed.at = *moment;
    }
    std::vector<event::Fact> facts;
    if (!state.courts.contains(placed.court)) {
        event::CourtOpened opened;
        opened.court = placed.court;
        facts.emplace_back(opened);
    }
    facts.emplace_back(placed);
    return facts;
}

QString typed_time(const event::TournamentState& state, const event::Placement& placement) {
    if (!placement.at.given()) return {};
    const QString whole = QString::fromStdString(event::written(placement.at));
    if (!state.opened || placement.at.date() != state.opened->first_day) return whole;
    const QString of_day = whole.section(QLatin1Char('T'), 1);
    return of_day.startsWith(QLatin1Char('0')) ? of_day.mid(1) : of_day;
}

}  // namespace courthand::seats
