#include "fork_page.h"

#include <QDateTime>
#include <QPointer>
#include <QStringList>
#include <QVariantMap>

#include "record_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

using venue::Fork;
using venue::ForkEntry;

QString time_words(venue::Moment moment) {
    return QDateTime::fromMSecsSinceEpoch(moment.count()).toString(QStringLiteral("HH:mm:ss"));
}

QString words_of(const ForkEntry& entry, const PerTeam<QString>& names) {
    return entry.content ? client::record_words(*entry.content, names)
                         : ForkPage::tr("written by a newer program: not readable here");
}

/// "Tablet 1 · writer 2 · 14:05:12 · at the server 14:07:40"
QString origin_of(const ForkEntry& entry) {
    QStringList parts;
    parts << (entry.device.empty() ? ForkPage::tr("a device without a name") : text(entry.device));
    if (entry.epoch > 0) parts << ForkPage::tr("writer %1").arg(entry.epoch);
    if (entry.made) parts << time_words(*entry.made);
    parts << ForkPage::tr("at the server %1").arg(time_words(entry.stored));
    return parts.join(QStringLiteral(" · "));
}

QVariantMap row_of(const ForkEntry* record, const ForkEntry* branch,
                   const PerTeam<QString>& names) {
    const ForkEntry& one = record != nullptr ? *record : *branch;
    const bool same = record != nullptr && branch != nullptr && record->content &&
                      record->content == branch->content;
    return {{QStringLiteral("number"), QString::number(one.number)},
            {QStringLiteral("record"), record ? words_of(*record, names) : QString()},
            {QStringLiteral("recordBy"), record ? origin_of(*record) : QString()},
            {QStringLiteral("branch"), branch ? words_of(*branch, names) : QString()},
            {QStringLiteral("branchBy"), branch ? origin_of(*branch) : QString()},
            {QStringLiteral("same"), same}};
}

/// Entries of one number stand side by side; a number may be on one side only, or there twice.
QVariantList side_by_side(const Fork& fork, const PerTeam<QString>& names) {
    QVariantList rows;
    auto record = fork.record.begin();
    auto branch = fork.branch.begin();
    while (record != fork.record.end() || branch != fork.branch.end()) {
        const bool left = branch == fork.branch.end() ||
                          (record != fork.record.end() && record->number <= branch->number);
        const bool right = record == fork.record.end() ||
                           (branch != fork.branch.end() && branch->number <= record->number);
        rows << row_of(left ? &*record : nullptr, right ? &*branch : nullptr, names);
        if (left) ++record;
        if (right) ++branch;
    }
    return rows;
}

QString count_words(std::size_t count) {
    return count == 1 ? ForkPage::tr("1 entry") : ForkPage::tr("%1 entries").arg(count);
}

QString summary_of(const Fork& fork) {
    if (fork.branch.empty())
        return ForkPage::tr("Nothing lies beside the record any more: it was taken into it.");
    const std::size_t record = fork.record.size() + static_cast<std::size_t>(fork.record_more);
    const std::size_t branch = fork.branch.size() + static_cast<std::size_t>(fork.branch_more);
    return ForkPage::tr(
               "They part at entry %1. From there the record has %2, and %3 of another "
               "device or time lie beside it.")
        .arg(fork.branch.front().number)
        .arg(count_words(record), count_words(branch));
}

QString more_of(const Fork& fork) {
    QStringList parts;
    if (fork.record_more > 0)
        parts << ForkPage::tr("and %1 more in the record").arg(fork.record_more);
    if (fork.branch_more > 0) parts << ForkPage::tr("and %1 more beside it").arg(fork.branch_more);
    return parts.join(QStringLiteral(", "));
}

}  // namespace

ForkPage::ForkPage(venue::BoardSource& source, QObject* parent)
    : QObject(parent), source_(source) {}

void ForkPage::look(const venue::Alert& alert, const QString& where,
                    const PerTeam<QString>& names) {
    alert_id_ = alert.id;
    names_ = names;
    where_ = where;
    summary_.clear();
    more_.clear();
    rows_.clear();
    problem_.clear();
    read_ = false;
    busy_ = true;
    const int request = ++request_;
    Q_EMIT changed();
    source_.look_at_fork(alert_id_,
                         [self = QPointer<ForkPage>(this), request](const venue::Fork& fork) {
                             if (!self) return;
                             QMetaObject::invokeMethod(
                                 self.data(),
                                 [self, fork, request] {
                                     if (self) self->take(fork, request);
                                 },
                                 Qt::QueuedConnection);
                         });
}

void ForkPage::take(const venue::Fork& fork, int request) {
    if (request != request_) return;
    busy_ = false;
    read_ = fork.failed.empty();
    problem_ = text(fork.failed);
    if (read_) {
        rows_ = side_by_side(fork, names_);
        summary_ = summary_of(fork);
        more_ = more_of(fork);
    }
    Q_EMIT changed();
}

void ForkPage::settle(bool enter_again, const QString& note) {
    if (!maySettle()) return;
    busy_ = true;
    problem_.clear();
    Q_EMIT changed();
    const QString words = enter_again ? tr("The table is told to enter them again.")
                                      : tr("The record stands. Both tables are told.");
    source_.settle_fork(
        alert_id_, enter_again ? venue::ForkChoice::enter_again : venue::ForkChoice::record_stands,
        note.trimmed().toStdString(),
        [self = QPointer<ForkPage>(this), words](const venue::Outcome& outcome) {
            if (!self) return;
            QMetaObject::invokeMethod(
                self.data(),
                [self, outcome, words] {
                    if (self) self->end(outcome, words);
                },
                Qt::QueuedConnection);
        });
}

void ForkPage::end(const venue::Outcome& outcome, const QString& words) {
    busy_ = false;
    problem_ = text(outcome.problem);
    Q_EMIT changed();
    if (outcome.done) Q_EMIT told(words);
}

}  // namespace courthand::seats
