#include "event_page.h"

#include <utility>

namespace courthand::seats {

EventPage::EventPage(const venue::EventBook& book, ActPreview& preview, QStringList fields,
                     QObject* parent)
    : QObject(parent), book_(book), preview_(preview), rows_(std::move(fields)) {}

}  // namespace courthand::seats
