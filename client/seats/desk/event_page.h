// What the pages of the tournament have in common: rows of one division, made of the book of the
// record, and acts that go through the one preview.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QStringList>

#include "act_preview.h"
#include "row_list.h"
#include "venue/event_book.h"

namespace courthand::seats {

class EventPage : public QObject {
    Q_OBJECT
    QML_ANONYMOUS
    Q_PROPERTY(courthand::seats::RowList* rows READ rows CONSTANT)

  public:
    [[nodiscard]] RowList* rows() { return &rows_; }

  protected:
    /// The book outlives the page. `fields` are those of its rows, the key first.
    EventPage(const venue::EventBook& book, ActPreview& preview, QStringList fields,
              QObject* parent);
    /// Is there the division that is on the page?
    [[nodiscard]] bool has_division() const { return division_ < book_.state->division_count(); }

    const venue::EventBook& book_;
    ActPreview& preview_;
    RowList rows_;
    event::DivisionIndex division_ = 0;
};

}  // namespace courthand::seats
