// The bracket page: the matches outside the pools as a drawing, gone through by key and touch.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <memory>

#include "bracket_layout.h"
#include "kept_rows.h"
#include "row_list.h"
#include "venue/event_book.h"
#include "venue/table_results.h"

namespace courthand::seats {

class BracketPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(courthand::seats::RowList* boxes READ boxes CONSTANT)
    Q_PROPERTY(courthand::seats::RowList* lines READ lines CONSTANT)
    Q_PROPERTY(courthand::seats::RowList* headings READ headings CONSTANT)
    Q_PROPERTY(int columns READ columns NOTIFY laidOut)
    Q_PROPERTY(double lastRow READ lastRow NOTIFY laidOut)

  public:
    /// The book and what the tables have recorded outlive the page.
    BracketPage(const venue::EventBook& book, const venue::TableResults& tables,
                QObject* parent = nullptr);

    [[nodiscard]] RowList* boxes() { return &boxes_; }
    [[nodiscard]] RowList* lines() { return &lines_; }
    [[nodiscard]] RowList* headings() { return &headings_; }
    [[nodiscard]] int columns() const { return layout_.columns; }
    /// Height of the drawing, in boxes.
    [[nodiscard]] double lastRow() const { return layout_.rows; }

    void show(event::DivisionIndex division);

    enum Direction { Left, Right, Up, Down };
    Q_ENUM(Direction)
    /// The match to which a key leads; the same one at the edge, the first one from nowhere.
    Q_INVOKABLE QString beside(const QString& match, int direction) const;

  Q_SIGNALS:
    void laidOut();

  private:
    const venue::EventBook& book_;
    const venue::TableResults& tables_;
    KeptRows kept_;
    RowList boxes_;
    RowList lines_;
    RowList headings_;
    event::DivisionIndex division_ = 0;
    tournament::Graph graph_;  ///< of which the layout is
    BracketLayout layout_;
};

}  // namespace courthand::seats
