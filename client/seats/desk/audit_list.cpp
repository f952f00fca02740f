#include "audit_list.h"

#include <QPointer>

#include "desk_words.h"

namespace courthand::seats {

AuditList::AuditList(venue::DeskSource& source, const venue::DeskBook& book, QObject* parent)
    : QObject(parent),
      source_(source),
      book_(book),
      rows_({QStringLiteral("number"), QStringLiteral("what"), QStringLiteral("who"),
             QStringLiteral("about"), QStringLiteral("time"), QStringLiteral("mark"),
             QStringLiteral("state")}) {}

void AuditList::readNewest() {
    ask(0);
}

void AuditList::readOlder() {
    if (more_ && !lines_.empty()) ask(lines_.back().number);
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
        rows_.show(audit_rows(lines_, book_));
    }
    Q_EMIT changed();
}

}  // namespace courthand::seats
