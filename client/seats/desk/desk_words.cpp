#include "desk_words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <algorithm>

namespace courthand::seats {

namespace {

struct Desk {
    Q_DECLARE_TR_FUNCTIONS(Desk)
};

// A table reports every few seconds; below this a silence is nothing to read about.
constexpr std::chrono::minutes silent_after{1};

QString joined(QStringList parts) {
    parts.removeAll(QString());
    return parts.join(QStringLiteral(" · "));
}

QString players_words(std::size_t count) {
    if (count == 0) return {};
    return count == 1 ? Desk::tr("1 player") : Desk::tr("%1 players").arg(count);
}

QString line_up_of(const venue::TeamOnBoard& team) {
    const QString name = text(team.name);
    if (!team.line_up_in) return Desk::tr("%1: missing").arg(name);
    if (team.boxes_open > 0) return Desk::tr("%1: libero box open").arg(name);
    return team.line_up_checked ? Desk::tr("%1: checked").arg(name) : Desk::tr("%1: in").arg(name);
}

}  // namespace

QString line_up_words(const venue::CourtOnBoard* card) {
    if (card == nullptr || card->set == 0) return {};
    const auto& teams = card->teams;
    if (teams.a.line_up_checked && teams.b.line_up_checked) return Desk::tr("both checked");
    return line_up_of(teams.a) + QStringLiteral(", ") + line_up_of(teams.b);
}

MarkedWord status_words(venue::MatchStatus status) {
    switch (status) {
        case venue::MatchStatus::scheduled:
            return {Mark::quiet, Desk::tr("To come")};
        case venue::MatchStatus::called:
            return {Mark::notice, Desk::tr("Called")};
        case venue::MatchStatus::in_play:
            return {Mark::good, Desk::tr("In play")};
        case venue::MatchStatus::finished:
            return {Mark::caution, Desk::tr("Not signed")};
        case venue::MatchStatus::signed_off:
            return {Mark::quiet, Desk::tr("Signed")};
        case venue::MatchStatus::cancelled:
            return {Mark::quiet, Desk::tr("Cancelled")};
    }
    return {};
}

QString seat_words(venue::Seat seat) {
    switch (seat) {
        case venue::Seat::table:
            return Desk::tr("table");
        case venue::Seat::desk:
            return Desk::tr("desk");
        case venue::Seat::head:
            return Desk::tr("head official");
    }
    return {};
}

QString match_words(const venue::MatchPlanned& match) {
    return QStringLiteral("%1 – %2").arg(text(match.first), text(match.second));
}

QString sets_words(const venue::ResultListed& result) {
    QStringList sets;
    for (const Score score : result.set_scores) {
        sets << QStringLiteral("%1-%2").arg(int{score.a}).arg(int{score.b});
    }
    return sets.join(QStringLiteral("  "));
}

std::vector<QVariantMap> court_rows(const venue::DeskBook& book, const venue::Board& board) {
    std::vector<QVariantMap> rows;
    for (const auto& court : book.courts) {
        QString playing = Desk::tr("free");
        for (const auto& match : book.matches) {
            if (!court.match_id.empty() && match.id == court.match_id) playing = match_words(match);
        }
        QString device = Desk::tr("no table device");
        for (const auto& each : book.devices) {
            if (!court.device_id.empty() && each.id == court.device_id) device = text(each.name);
        }
        const auto* const card = board.court(court.number);
        const QString waiting =
            court.waiting > 0 ? Desk::tr("%1 more planned").arg(court.waiting) : QString();
        rows.push_back({{QStringLiteral("court"), static_cast<int>(court.number)},
                        {QStringLiteral("name"),
                         court.name.empty() ? court_words(court.number) : text(court.name)},
                        {QStringLiteral("playing"), playing},
                        {QStringLiteral("load"), joined({playing, waiting})},
                        {QStringLiteral("about"), joined({device, line_up_words(card), waiting})}});
    }
    return rows;
}

std::vector<QVariantMap> device_rows(const venue::DeskBook& book) {
    std::vector<QVariantMap> rows;
    for (const auto& device : book.devices) {
        const bool silent = !device.last_seen || book.as_of - *device.last_seen >= silent_after;
        MarkedWord state{Mark::good, Desk::tr("seen now")};
        if (!device.last_seen)
            state = {Mark::quiet, Desk::tr("not seen yet")};
        else if (silent) {
            state = {Mark::notice,
                     Desk::tr("not seen for %1").arg(span_words(book.as_of - *device.last_seen))};
        }
        if (device.revoked) state = {Mark::quiet, Desk::tr("withdrawn")};
        rows.push_back({{QStringLiteral("deviceId"), text(device.id)},
                        {QStringLiteral("name"), text(device.name)},
                        {QStringLiteral("place"),
                         device.court > 0 ? court_words(device.court) : seat_words(device.seat)},
                        {QStringLiteral("mark"), static_cast<int>(state.mark)},
                        {QStringLiteral("state"), state.word},
                        {QStringLiteral("revoked"), device.revoked}});
    }
    return rows;
}

std::vector<QVariantMap> team_rows(const venue::DeskBook& book) {
    std::vector<QVariantMap> rows;
    for (const auto& team : book.teams) {
        QStringList numbers;
        QStringList liberos;
        for (const auto& player : team.players) {
            numbers << QString::number(player.number) +
                           (player.captain ? Desk::tr(" C", "captain, after the number")
                                           : QString());
            if (player.libero) liberos << QString::number(player.number);
        }
        rows.push_back(
            {{QStringLiteral("teamId"), text(team.id)},
             {QStringLiteral("name"), text(team.name)},
             {QStringLiteral("club"), text(team.club)},
             {QStringLiteral("colour"), colour_of(team.colour)},
             {QStringLiteral("players"), players_words(team.players.size())},
             {QStringLiteral("numbers"), numbers.isEmpty() ? Desk::tr("team list not handed in")
                                                           : numbers.join(QStringLiteral("  "))},
             {QStringLiteral("liberos"), liberos.join(QStringLiteral(", "))}});
    }
    return rows;
}

}  // namespace courthand::seats
