#include "alert_list.h"

#include <QStringList>
#include <algorithm>
#include <array>

#include "venue_words.h"

namespace courthand::seats {

namespace {

bool before(const venue::Alert& a, const venue::Alert& b) {
    const bool a_shelved = a.life == venue::AlertLife::shelved;
    const bool b_shelved = b.life == venue::AlertLife::shelved;
    if (a_shelved != b_shelved) return b_shelved;
    if (a.severity != b.severity) return a.severity < b.severity;
    if (a.since != b.since) return a.since < b.since;
    return a.id < b.id;
}

}  // namespace

int AlertList::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

QHash<int, QByteArray> AlertList::roleNames() const {
    return {{AlertIdRole, "alertId"}, {MarkRole, "mark"},     {WordRole, "word"},
            {TitleRole, "title"},     {DetailRole, "detail"}, {CourtRole, "court"},
            {PlaceRole, "place"},     {AgeRole, "age"},       {OwnerRole, "owner"},
            {ShelvedRole, "shelved"}, {GoneRole, "gone"},     {SpokenRole, "spoken"},
            {AsksRole, "asks"}};
}

int AlertList::count() const {
    return static_cast<int>(std::count_if(rows_.begin(), rows_.end(), [](const Row& row) {
        return !row.gone && row.alert.life != venue::AlertLife::shelved;
    }));
}

int AlertList::shelvedCount() const {
    return static_cast<int>(std::count_if(rows_.begin(), rows_.end(), [](const Row& row) {
        return !row.gone && row.alert.life == venue::AlertLife::shelved;
    }));
}

QString AlertList::summary() const {
    std::array<int, 5> by_severity{};
    for (const auto& row : rows_) {
        if (row.gone || row.alert.life == venue::AlertLife::shelved) continue;
        ++by_severity[static_cast<std::size_t>(row.alert.severity)];
    }
    QStringList parts;
    if (by_severity[1] > 0) parts << tr("%1 critical").arg(by_severity[1]);
    if (by_severity[2] > 0) parts << tr("%1 high").arg(by_severity[2]);
    if (by_severity[3] > 0) parts << tr("%1 medium").arg(by_severity[3]);
    if (by_severity[4] > 0) parts << tr("%1 low").arg(by_severity[4]);
    if (shelvedCount() > 0) parts << tr("%1 shelved").arg(shelvedCount());
    return parts.isEmpty() ? tr("nothing waits for you") : parts.join(QStringLiteral(", "));
}

QString AlertList::idAt(int row) const {
    if (row < 0 || row >= rowCount()) return {};
    return text(rows_[static_cast<std::size_t>(row)].alert.id);
}

int AlertList::rowOf(const QString& alert_id) const {
    const auto wanted = alert_id.toStdString();
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (rows_[i].alert.id == wanted) return static_cast<int>(i);
    }
    return -1;
}

void AlertList::show(const venue::Board& board) {
    wanted_.clear();
    for (const auto& alert : board.alerts) {
        wanted_.push_back({alert, court_words(alert.court), board.left_behind(alert)});
    }
    std::sort(wanted_.begin(), wanted_.end(),
              [](const Row& a, const Row& b) { return before(a.alert, b.alert); });
    if (held_)
        update_in_place();
    else
        settle();
    Q_EMIT countChanged();
}

void AlertList::hold(std::chrono::milliseconds now) {
    held_ = true;
    held_until_ = now + hold_time;
}

void AlertList::tick(std::chrono::milliseconds now, venue::Moment server) {
    server_now_ = server;
    if (held_ && now >= held_until_) {
        held_ = false;
        settle();
        Q_EMIT countChanged();
    }
    if (!rows_.empty()) Q_EMIT dataChanged(index(0), index(rowCount() - 1), {AgeRole});
}

void AlertList::update_in_place() {
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        const auto fresh = std::find_if(wanted_.begin(), wanted_.end(), [&](const Row& row) {
            return row.alert.id == rows_[i].alert.id;
        });
        Row next = fresh == wanted_.end() ? rows_[i] : *fresh;
        next.gone = fresh == wanted_.end();
        if (next == rows_[i]) continue;
        rows_[i] = std::move(next);
        Q_EMIT dataChanged(index(static_cast<int>(i)), index(static_cast<int>(i)));
    }
}

// Removes, moves and inserts row by row, so that the view keeps its place and its focus.
void AlertList::settle() {
    for (std::size_t i = rows_.size(); i-- > 0;) {
        const bool stays = std::any_of(wanted_.begin(), wanted_.end(), [&](const Row& row) {
            return row.alert.id == rows_[i].alert.id;
        });
        if (stays) continue;
        beginRemoveRows({}, static_cast<int>(i), static_cast<int>(i));
        rows_.erase(rows_.begin() + static_cast<std::ptrdiff_t>(i));
        endRemoveRows();
    }
    for (std::size_t i = 0; i < wanted_.size(); ++i) {
        const int to = static_cast<int>(i);
        const int from = rowOf(text(wanted_[i].alert.id));
        if (from < 0) {
            beginInsertRows({}, to, to);
            rows_.insert(rows_.begin() + to, wanted_[i]);
            endInsertRows();
            continue;
        }
        if (from != to) {
            beginMoveRows({}, from, from, {}, to);
            std::rotate(rows_.begin() + to, rows_.begin() + from, rows_.begin() + from + 1);
            endMoveRows();
        }
        if (rows_[i] == wanted_[i]) continue;
        rows_[i] = wanted_[i];
        Q_EMIT dataChanged(index(to), index(to));
    }
}

QVariant AlertList::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) return {};
    const Row& row = rows_[static_cast<std::size_t>(index.row())];
    const auto& alert = row.alert;
    const auto severity = severity_words(alert.severity);
    switch (role) {
        case AlertIdRole:
            return text(alert.id);
        case MarkRole:
            return static_cast<int>(severity.mark);
        case WordRole:
            return severity.word;
        case TitleRole:
            return alert_title(alert);
        case DetailRole:
            return text(alert.sentence);
        case CourtRole:
            return row.court;
        case PlaceRole:
            return place_words(alert, row.left_behind);
        case AgeRole:
            return age_words(server_now_ - alert.since);
        case OwnerRole:
            if (row.gone) return tr("closed");
            if (alert.life == venue::AlertLife::shelved && alert.shelved_until) {
                return tr("shelved, back in %1")
                    .arg(span_words(*alert.shelved_until - server_now_));
            }
            return alert.claimed_by.empty() ? QString()
                                            : tr("%1 is going").arg(text(alert.claimed_by));
        case ShelvedRole:
            return alert.life == venue::AlertLife::shelved;
        case GoneRole:
            return row.gone;
        case SpokenRole:
            return tr("%1, %2, %3, %4")
                .arg(severity.word, row.court, alert_title(alert),
                     place_words(alert, row.left_behind));
        case AsksRole:
            return !row.gone && !alert.asking_device.empty();
        default:
            return {};
    }
}

}  // namespace courthand::seats
