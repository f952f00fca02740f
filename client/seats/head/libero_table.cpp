#include "libero_table.h"

#include <QColor>
#include <QStringList>
#include <algorithm>

#include "venue_words.h"

namespace courthand::seats {

namespace {

using State = venue::Designation::State;

QString numbers_in(const venue::TeamOnBoard& team, State state) {
    QStringList numbers;
    for (const auto& each : team.designations) {
        if (each.state == state) numbers << number_of(each.jersey);
    }
    return numbers.join(QStringLiteral(", "));
}

QString out_words(const venue::TeamOnBoard& team) {
    QStringList parts;
    for (const auto& each : team.designations) {
        if (each.state == State::replaced) {
            parts << LiberoTable::tr("%1 replaced").arg(number_of(each.jersey));
        }
        if (each.state == State::unable) {
            parts << LiberoTable::tr("%1 unable").arg(number_of(each.jersey));
        }
    }
    return parts.join(QStringLiteral(", "));
}

QString barred_words(const venue::TeamOnBoard& team) {
    QStringList parts;
    for (const Jersey jersey : team.barred) {
        QString words = number_of(jersey);
        for (const auto& each : team.designations) {
            if (each.jersey == jersey && !each.barred_words.empty()) {
                words += QStringLiteral(" ") + text(each.barred_words);
            }
        }
        parts << words;
    }
    return parts.join(QStringLiteral(", "));
}

}  // namespace

int LiberoTable::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : count();
}

QHash<int, QByteArray> LiberoTable::roleNames() const {
    return {{CourtRole, "court"},
            {TeamRole, "team"},
            {ColourRole, "colour"},
            {DesignatedRole, "designated"},
            {RedesignatedRole, "redesignated"},
            {OutRole, "out"},
            {BarredRole, "barred"},
            {NowRole, "now"},
            {SpokenRole, "spoken"}};
}

void LiberoTable::show(const venue::Board& board) {
    std::vector<Row> fresh;
    for (const auto& court : board.courts) {
        if (court.match_id.empty()) continue;
        fresh.push_back({court_words(court.court), court.teams.a});
        fresh.push_back({court_words(court.court), court.teams.b});
    }
    if (fresh.size() != rows_.size()) {
        beginResetModel();
        rows_ = std::move(fresh);
        endResetModel();
        Q_EMIT countChanged();
        return;
    }
    for (std::size_t i = 0; i < fresh.size(); ++i) {
        if (fresh[i] == rows_[i]) continue;
        rows_[i] = std::move(fresh[i]);
        Q_EMIT dataChanged(index(static_cast<int>(i)), index(static_cast<int>(i)));
    }
}

QVariant LiberoTable::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= count()) return {};
    const Row& row = rows_[static_cast<std::size_t>(index.row())];
    switch (role) {
        case CourtRole:
            return row.court;
        case TeamRole:
            return text(row.team.name);
        case ColourRole:
            return colour_of(row.team.colour);
        case DesignatedRole:
            return numbers_in(row.team, State::active);
        case RedesignatedRole:
            return numbers_in(row.team, State::redesignated);
        case OutRole:
            return out_words(row.team);
        case BarredRole:
            return barred_words(row.team);
        case NowRole:
            return libero_words(row.team);
        case SpokenRole:
            return tr("%1, %2, liberos %3, re-designated %4, barred %5")
                .arg(row.court, text(row.team.name), numbers_in(row.team, State::active),
                     numbers_in(row.team, State::redesignated), barred_words(row.team));
        default:
            return {};
    }
}

}  // namespace courthand::seats
