// The record page: what was said at the desk, the newest first, and the taking back of one of it.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <cstddef>

#include "act_preview.h"
#include "row_list.h"
#include "venue/event_book.h"

namespace courthand::seats {

class RecordPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(courthand::seats::RowList* rows READ rows CONSTANT)
    Q_PROPERTY(bool more READ more NOTIFY shown)

  public:
    /// Rows that come at once; a person looks for something of the last hour.
    static constexpr std::size_t rows_at_once = 200;

    /// The book outlives the page.
    RecordPage(const venue::EventBook& book, ActPreview& preview, QObject* parent = nullptr);

    [[nodiscard]] RowList* rows() { return &rows_; }
    /// Older ones are not shown yet.
    [[nodiscard]] bool more() const { return book_.state->facts.size() > most_; }

    void show();

    Q_INVOKABLE void showOlder();
    /// Asks what would change; a fact that was taken back already is left as it is.
    Q_INVOKABLE void takeBack(int number);

  Q_SIGNALS:
    void shown();

  private:
    const venue::EventBook& book_;
    ActPreview& preview_;
    RowList rows_;
    std::size_t most_ = rows_at_once;
};

}  // namespace courthand::seats
