#include "court_list.h"

#include <algorithm>

#include "venue_words.h"

namespace courthand::seats {

namespace {

// A device reports every few seconds; a shorter silence is nothing a person should read about.
constexpr std::chrono::seconds silent_after{60};

bool worse(const venue::Alert& a, const venue::Alert& b) {
    if (a.severity != b.severity) return a.severity < b.severity;
    return a.since < b.since;
}

bool with_match(const venue::CourtOnBoard& court) {
    return !court.match_id.empty();
}

}  // namespace

int CourtList::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : count();
}

QHash<int, QByteArray> CourtList::roleNames() const {
    return {{CourtRole, "court"},
            {NumberRole, "number"},
            {NameRole, "name"},
            {MatchRole, "match"},
            {SetRole, "setWords"},
            {MarkRole, "mark"},
            {StateRole, "stateWord"},
            {NotSeenRole, "notSeen"},
            {PlayingRole, "playing"},
            {TeamARole, "teamA"},
            {TeamBRole, "teamB"},
            {AlertIdRole, "alertId"},
            {AlertMarkRole, "alertMark"},
            {AlertWordRole, "alertWord"},
            {AlertTitleRole, "alertTitle"},
            {AlertAgeRole, "alertAge"},
            {AlertOwnerRole, "alertOwner"},
            {AlertCountRole, "alertCount"},
            {EarlierRole, "earlier"},
            {SpokenRole, "spoken"}};
}

void CourtList::show(const venue::Board& board) {
    std::vector<Card> fresh;
    fresh.reserve(board.courts.size());
    for (const auto& court : board.courts) {
        Card card{court, {}, 0, {}, 0, false};
        for (const auto& alert : board.alerts) {
            if (alert.court != court.court || alert.life == venue::AlertLife::shelved) continue;
            const bool other = board.left_behind(alert);
            ++(other ? card.of_others : card.alerts);
            venue::Alert& worst = other ? card.earlier : card.worst;
            if (other && !worst.id.empty() && worst.match_id != alert.match_id)
                card.of_several = true;
            if (worst.id.empty() || worse(alert, worst)) worst = alert;
        }
        fresh.push_back(std::move(card));
    }
    const bool same_courts =
        std::equal(fresh.begin(), fresh.end(), courts_.begin(), courts_.end(),
                   [](const Card& a, const Card& b) { return a.court.court == b.court.court; });
    if (!same_courts) {
        beginResetModel();
        courts_ = std::move(fresh);
        endResetModel();
        Q_EMIT countChanged();
        return;
    }
    for (std::size_t i = 0; i < fresh.size(); ++i) {
        if (fresh[i] == courts_[i]) continue;
        courts_[i] = std::move(fresh[i]);
        const auto at = index(static_cast<int>(i));
        Q_EMIT dataChanged(at, at);
    }
}

void CourtList::tick(venue::Moment now) {
    now_ = now;
    if (courts_.empty()) return;
    Q_EMIT dataChanged(index(0), index(count() - 1), {AlertAgeRole, NotSeenRole});
}

QVariantMap CourtList::team_map(const Card& card, Team team) const {
    const auto& side = card.court.teams[team];
    return {{QStringLiteral("name"), text(side.name)},
            {QStringLiteral("colour"), colour_of(side.colour)},
            {QStringLiteral("points"),
             QString::number(team == Team::A ? card.court.score.a : card.court.score.b)},
            {QStringLiteral("sets"), QString::number(side.sets)},
            {QStringLiteral("serving"), card.court.serves(team)},
            {QStringLiteral("liberos"), libero_words(side)}};
}

QString CourtList::not_seen(const Card& card) const {
    if (!with_match(card.court) || card.court.staffed) return {};
    if (!card.court.last_seen) return tr("not seen yet");
    const auto silence = now_ - *card.court.last_seen;
    if (silence < silent_after) return {};
    return tr("not seen for %1").arg(span_words(silence));
}

QString CourtList::spoken(const Card& card) const {
    const auto& court = card.court;
    QStringList parts{court_words(court.court), stage_words(court).word};
    if (with_match(court)) {
        const auto& a = court.teams.a;
        const auto& b = court.teams.b;
        if (court.set > 0) parts << tr("set %1").arg(court.set);
        parts << tr("%1 %2, %3 %4")
                     .arg(text(a.name))
                     .arg(court.score.a)
                     .arg(text(b.name))
                     .arg(court.score.b);
        parts << tr("sets %1 to %2").arg(a.sets).arg(b.sets);
    }
    if (!card.worst.id.empty()) {
        parts << severity_words(card.worst.severity).word << alert_title(card.worst);
    }
    if (card.of_others > 0) parts << earlier_words(card);
    return parts.join(QStringLiteral(", "));
}

/// Of several matches the list of alerts names each.
QString CourtList::earlier_words(const Card& card) const {
    if (card.of_others == 0) return {};
    const QString match = match_called(card.earlier);
    const bool one = card.of_others == 1;
    if (card.of_several) return tr("%1 alerts of earlier matches").arg(card.of_others);
    if (match.isEmpty())
        return one ? tr("1 alert of an earlier match")
                   : tr("%1 alerts of an earlier match").arg(card.of_others);
    return one ? tr("1 alert of %1").arg(match)
               : tr("%1 alerts of %2").arg(card.of_others).arg(match);
}

QVariant CourtList::alert_data(const Card& card, int role) const {
    const auto& alert = card.worst;
    if (role == AlertIdRole) return text(alert.id.empty() ? card.earlier.id : alert.id);
    if (alert.id.empty())
        return role == AlertCountRole || role == AlertMarkRole ? QVariant(0) : QString();
    switch (role) {
        case AlertMarkRole:
            return static_cast<int>(severity_words(alert.severity).mark);
        case AlertWordRole:
            return severity_words(alert.severity).word;
        case AlertTitleRole:
            return alert_title(alert);
        case AlertAgeRole:
            return age_words(now_ - alert.since);
        case AlertOwnerRole:
            return alert.claimed_by.empty() ? QString()
                                            : tr("%1 is going").arg(text(alert.claimed_by));
        case AlertCountRole:
            return card.alerts;
        default:
            return {};
    }
}

QVariant CourtList::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= count()) return {};
    const Card& card = courts_[static_cast<std::size_t>(index.row())];
    const auto& court = card.court;
    switch (role) {
        case CourtRole:
            return court.court;
        case NumberRole:
            return QString::number(court.court);
        case NameRole:
            return court_words(court.court);
        case MatchRole:
            return match_called(court);
        case SetRole:
            return court.set > 0 ? tr("set %1").arg(court.set) : QString();
        case MarkRole:
            return static_cast<int>(stage_words(court).mark);
        case StateRole:
            return stage_words(court).word;
        case NotSeenRole:
            return not_seen(card);
        case PlayingRole:
            return with_match(court);
        case TeamARole:
            return team_map(card, Team::A);
        case TeamBRole:
            return team_map(card, Team::B);
        case SpokenRole:
            return spoken(card);
        case EarlierRole:
            return earlier_words(card);
        default:
            return alert_data(card, role);
    }
}

}  // namespace courthand::seats
