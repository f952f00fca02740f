// The teams page: who is entered in a division, and one team looked at: withdrawn, or moved to
// another pool with what the move breaks told.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QVariantList>
#include <optional>

#include "event_page.h"
#include "row_list.h"
#include "venue/desk_book.h"
#include "venue/event_book.h"

namespace courthand::seats {

// The base by its whole name: qmllint knows it by no other.
class EntryPage : public courthand::seats::EventPage {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(QString team READ team NOTIFY looked)
    Q_PROPERTY(QString about READ about NOTIFY looked)
    Q_PROPERTY(QVariantList otherPools READ otherPools NOTIFY looked)
    Q_PROPERTY(bool mayLeave READ mayLeave NOTIFY looked)
    Q_PROPERTY(QString problem READ problem NOTIFY problemChanged)

  public:
    /// Both books outlive the page.
    EntryPage(const venue::EventBook& book, const venue::DeskBook& desk, ActPreview& preview,
              QObject* parent = nullptr);

    // The team that is looked at.
    [[nodiscard]] QString team() const { return team_; }
    [[nodiscard]] QString about() const;
    /// Pairs of a pool to which it could go and its word.
    [[nodiscard]] QVariantList otherPools() const;
    [[nodiscard]] bool mayLeave() const;
    [[nodiscard]] QString problem() const { return problem_; }

    void show(event::DivisionIndex division);

    Q_INVOKABLE bool look(const QString& team);
    /// Who may go the other way: nobody, or a team of that pool; pairs of a name and its word.
    Q_INVOKABLE QVariantList teamsIn(const QString& pool) const;
    /// One name a line; "Mill Lane, Lane Club, C" names the club and the pool of the last event.
    Q_INVOKABLE void enter(const QString& lines);
    Q_INVOKABLE void withdraw();
    Q_INVOKABLE void forgetProblem() { complain({}); }
    /// `with`: the team that goes the other way, or nothing.
    Q_INVOKABLE void move(const QString& pool, const QString& with);

  Q_SIGNALS:
    void looked();
    void problemChanged();

  private:
    [[nodiscard]] std::optional<event::TeamIndex> index() const;
    void complain(const QString& problem);

    const venue::DeskBook& desk_;
    QString team_;
    QString problem_;
};

}  // namespace courthand::seats
