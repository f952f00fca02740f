#include "audit_list.h"

#include <QPointer>

#include "venue_words.h"

namespace courthand::seats {

AuditList::AuditList(venue::DeskSource& source, const AuditWords& words, QObject* parent)
    : QObject(parent),
      source_(source),
      words_(words),
      rows_({QStringLiteral("number"), QStringLiteral("what"), QStringLiteral("who"),
             QStringLiteral("about"), QStringLiteral("time"), QStringLiteral("mark"),
             QStringLiteral("state")}) {}

void AuditList::readNewest() {
    ask(0);
}

void AuditList::readOlder() {
    if (more_ && !lines_.empty()) ask(lines_.back().number);
}

void AuditList::show() {
    if (lines_.empty()) return;
    rows_.show(audit_rows(lines_, words_));
    Q_EMIT shown();
}

void AuditList::ask(std::uint64_t before) {
    if (busy_) return;
    busy_ = true;
    problem_.clear();
    Q_EMIT changed();
    source_.read_audit(before,
                       [self = QPointer<AuditList>(this), before](const venue::AuditPage& page) {
                           if (!self) return;
                           QMetaObject::invokeMethod(
                               self.data(),
                               [self, page, before] {
                                   if (self) self->take(page, before);
                               },
                               Qt::QueuedConnection);
                       });
}

void AuditList::take(const venue::AuditPage& page, std::uint64_t before) {
    busy_ = false;
    asked_ = true;
    problem_ = text(page.failed);
    if (page.failed.empty()) {
        if (before == 0) lines_.clear();
        lines_.insert(lines_.end(), page.lines.begin(), page.lines.end());
        more_ = page.more && lines_.size() < most_shown;
        show();
    }
    Q_EMIT changed();
}

}  // namespace courthand::seats
