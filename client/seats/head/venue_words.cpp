#include "venue_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>

#include "wording.h"

namespace courthand::seats {

namespace {

// One context for the translators: the words of the venue.
struct Venue {
    Q_DECLARE_TR_FUNCTIONS(Venue)
};

using std::chrono::duration_cast;
using std::chrono::seconds;

constexpr long long seconds_a_minute = 60;
constexpr long long minutes_an_hour = 60;
// Up to here an age counts by seconds, so that one sees it move; later minutes are enough.
constexpr long long counted_minutes = 10;

QString hours_words(long long minutes) {
    return Venue::tr("%1 h %2 min")
        .arg(minutes / minutes_an_hour)
        .arg(minutes % minutes_an_hour, 2, 10, QLatin1Char('0'));
}

QString match_called(const std::string& name, int number) {
    if (!name.empty()) return text(name);
    return number > 0 ? Venue::tr("match %1").arg(number) : QString();
}

}  // namespace

Mark mark_of(venue::LinkState link) {
    switch (link) {
        case venue::LinkState::live:
            return Mark::good;
        case venue::LinkState::connecting:
            return Mark::quiet;
        case venue::LinkState::lost:
            return Mark::caution;
        case venue::LinkState::refused:
            return Mark::fault;
    }
    return Mark::fault;
}

MarkedWord stage_words(const venue::CourtOnBoard& court) {
    switch (court.stage) {
        case venue::CourtStage::free:
            return {Mark::quiet, Venue::tr("Free")};
        case venue::CourtStage::before_match:
            return {Mark::quiet, Venue::tr("To come")};
        case venue::CourtStage::line_ups:
            return {Mark::notice, Venue::tr("Line-ups")};
        case venue::CourtStage::in_play:
            return {Mark::good, Venue::tr("In play")};
        case venue::CourtStage::set_over:
            return {Mark::notice, Venue::tr("Interval")};
        case venue::CourtStage::match_over:
            return {Mark::quiet, Venue::tr("Finished")};
    }
    return {};
}

MarkedWord severity_words(Severity severity) {
    switch (severity) {
        case Severity::critical:
            return {Mark::fault, Venue::tr("Critical")};
        case Severity::high:
            return {Mark::caution, Venue::tr("High")};
        case Severity::medium:
            return {Mark::notice, Venue::tr("Medium")};
        case Severity::low:
            return {Mark::quiet, Venue::tr("Low")};
    }
    return {};
}

QString age_words(std::chrono::milliseconds age) {
    const auto whole = std::max<long long>(0, duration_cast<seconds>(age).count());
    const auto minutes = whole / seconds_a_minute;
    if (minutes < counted_minutes) {
        return QStringLiteral("%1:%2").arg(minutes).arg(whole % seconds_a_minute, 2, 10,
                                                        QLatin1Char('0'));
    }
    if (minutes < minutes_an_hour) return Venue::tr("%1 min").arg(minutes);
    return hours_words(minutes);
}

QString span_words(std::chrono::milliseconds span) {
    const auto whole = std::max<long long>(0, duration_cast<seconds>(span).count());
    if (whole < seconds_a_minute) return Venue::tr("%1 s").arg(whole);
    const auto minutes = whole / seconds_a_minute;
    if (minutes < minutes_an_hour) return Venue::tr("%1 min").arg(minutes);
    return hours_words(minutes);
}

QColor colour_of(venue::Colour colour) {
    return QColor::fromRgb(colour.rgb);
}

QString number_of(Jersey jersey) {
    return client::Wording::number(jersey);
}

QString numeral_of(Position position) {
    return client::Wording::roman(position);
}

QString match_called(const venue::MatchNames& names, const venue::Id& record, int number) {
    return match_called(names.of(record).value_or(std::string()), number);
}

QString match_called(const venue::CourtOnBoard& court) {
    return match_called(court.match_name, court.match_number);
}

QString match_called(const venue::Alert& alert) {
    return match_called(alert.match_name, alert.match_number);
}

QString court_words(venue::CourtNumber court) {
    return court == 0 ? Venue::tr("Venue") : Venue::tr("Court %1").arg(court);
}

QString score_words(Score score) {
    return QStringLiteral("%1 : %2").arg(int{score.a}).arg(int{score.b});
}

QString libero_words(const venue::TeamOnBoard& team) {
    QStringList parts;
    for (const auto& on : team.liberos_on) {
        parts << (on.replaces.worn()
                      ? Venue::tr("L %1 for %2", "libero's number, replaced number")
                            .arg(number_of(on.libero), number_of(on.replaces))
                      : Venue::tr("L %1 on", "libero's number").arg(number_of(on.libero)));
    }
    if (!parts.isEmpty()) return parts.join(QStringLiteral(" · "));
    for (const auto& each : team.designations) {
        if (each.state == venue::Designation::State::replaced) continue;
        parts << number_of(each.jersey);
    }
    if (parts.isEmpty()) return {};
    return Venue::tr("L off (%1)", "numbers of the liberos").arg(parts.join(QStringLiteral(", ")));
}

QString match_words(const venue::Alert& alert, bool left_behind) {
    if (alert.match_id.empty()) return {};
    const QString called = match_called(alert);
    if (called.isEmpty())
        return left_behind ? Venue::tr("an earlier match")
                           : Venue::tr("a match opened at the table");
    if (!left_behind) return called;
    return Venue::tr("earlier match %1")
        .arg(alert.match_name.empty() ? QString::number(alert.match_number) : called);
}

QString place_words(const venue::Alert& alert, bool left_behind) {
    QStringList parts;
    if (const QString match = match_words(alert, left_behind); !match.isEmpty()) parts << match;
    if (!alert.team_name.empty()) parts << text(alert.team_name);
    if (alert.set > 0) {
        parts << Venue::tr("set %1, %2").arg(alert.set).arg(score_words(alert.score));
    }
    return parts.join(QStringLiteral(" · "));
}

QString alert_title(const venue::Alert& alert) {
    QString words = text(alert.code);
    // What it is about stands first; the trade's compound words keep their hyphen.
    if (words.startsWith(QLatin1String("libero-"))) words.replace(6, 1, QStringLiteral(": "));
    if (words.startsWith(QLatin1String("sub-"))) words.replace(0, 4, Venue::tr("substitution: "));
    words.replace(QLatin1Char('-'), QLatin1Char(' '));
    words.replace(QLatin1String("redesignat"), QLatin1String("re-designat"));
    words.replace(QLatin1String("lineup"), QLatin1String("line-up"));
    words.replace(QLatin1String("timeout"), QLatin1String("time-out"));
    if (!words.isEmpty()) words[0] = words[0].toUpper();
    return words;
}

}  // namespace courthand::seats
