// The final places as head and desk show them: who holds each place of a division and why, what is
// not decided yet, and whether the division and the event are over.
#pragma once

#include <QObject>
#include <QString>
#include <QStringList>

#include "row_list.h"
#include "venue/event_book.h"

namespace courthand::seats {

class PlacePage : public QObject {
    Q_OBJECT
    Q_PROPERTY(courthand::seats::RowList* rows READ rows CONSTANT)
    Q_PROPERTY(QString words READ words NOTIFY shown)
    Q_PROPERTY(int mark READ mark NOTIFY shown)
    Q_PROPERTY(QString eventWords READ eventWords NOTIFY shown)
    Q_PROPERTY(int eventMark READ eventMark NOTIFY shown)
    Q_PROPERTY(QStringList undecided READ undecided NOTIFY shown)
    Q_PROPERTY(QString title READ title NOTIFY looked)
    Q_PROPERTY(QStringList reasons READ reasons NOTIFY looked)

  public:
    /// The book outlives the page.
    explicit PlacePage(const venue::EventBook& book, QObject* parent = nullptr);

    [[nodiscard]] RowList* rows() { return &rows_; }
    /// How far the division is.
    [[nodiscard]] QString words() const { return words_; }
    [[nodiscard]] int mark() const { return mark_; }
    /// How far the event is; empty while its only division says the same.
    [[nodiscard]] QString eventWords() const { return event_words_; }
    [[nodiscard]] int eventMark() const { return event_mark_; }
    /// The first of what a person has yet to decide, with the cure.
    [[nodiscard]] QStringList undecided() const { return undecided_; }
    // The place that is looked at.
    [[nodiscard]] QString title() const { return title_; }
    [[nodiscard]] QStringList reasons() const { return reasons_; }

    void show(event::DivisionIndex division);

    /// False when there is no such place.
    Q_INVOKABLE bool look(const QString& key);
    Q_INVOKABLE void leave() { looked_.clear(); }

  Q_SIGNALS:
    void shown();
    void looked();

  private:
    void tell(const QString& key);

    const venue::EventBook& book_;
    RowList rows_;
    event::DivisionIndex division_ = 0;
    QString words_;
    int mark_ = 0;
    QString event_words_;
    int event_mark_ = 0;
    QStringList undecided_;
    QString looked_;  ///< the key of the place
    QString title_;
    QStringList reasons_;
};

}  // namespace courthand::seats
