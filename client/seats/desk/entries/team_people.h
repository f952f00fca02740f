// The people of one team: the list with which it plays, frozen at a moment, and names to erase.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QVariantList>
#include <cstdint>
#include <optional>
#include <vector>

#include "act_preview.h"
#include "screen_post.h"
#include "venue/desk_book.h"
#include "venue/event_source.h"

namespace courthand::seats {

class TeamPeople : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(QString list READ list NOTIFY changed)
    Q_PROPERTY(bool frozen READ frozen NOTIFY changed)
    Q_PROPERTY(QString frozenWords READ frozenWords NOTIFY changed)
    Q_PROPERTY(QString difference READ difference NOTIFY changed)
    Q_PROPERTY(bool mayFreeze READ mayFreeze NOTIFY changed)
    Q_PROPERTY(QVariantList named READ named NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(bool busy READ busy NOTIFY changed)

  public:
    /// Source and both books outlive this.
    TeamPeople(venue::EventSource& source, const venue::EventBook& book,
               const venue::DeskBook& desk, ActPreview& preview, QObject* parent = nullptr);

    /// The numbers as the desk has them now.
    [[nodiscard]] QString list() const;
    [[nodiscard]] bool frozen() const;
    /// The numbers as they were frozen, and why they were last changed.
    [[nodiscard]] QString frozenWords() const;
    /// Who has come and gone since; empty when nobody has.
    [[nodiscard]] QString difference() const;
    /// There is a list that is not yet frozen as it is.
    [[nodiscard]] bool mayFreeze() const;
    /// Persons whose name is known here: maps of person (its number), name and about.
    [[nodiscard]] QVariantList named() const;
    [[nodiscard]] QString problem() const { return problem_; }
    /// An answer to an erasing is waited for.
    [[nodiscard]] bool busy() const { return busy_; }

    /// One of the books has changed.
    void show() { Q_EMIT changed(); }

    Q_INVOKABLE void look(const QString& team);
    /// Freezes the numbers of now. A list that is frozen changes for a reason only.
    Q_INVOKABLE void freeze();
    /// Takes the name away for good: whoever calls has asked.
    Q_INVOKABLE void eraseName(int person);
    Q_INVOKABLE void forgetProblem();

  Q_SIGNALS:
    void changed();
    void told(const QString& words);

  private:
    [[nodiscard]] const event::Team* team() const;
    [[nodiscard]] std::vector<std::uint8_t> numbers() const;
    [[nodiscard]] std::vector<event::FactNumber> words_about(int person) const;
    void complain(const QString& problem);
    void end(const venue::Outcome& outcome);

    venue::EventSource& source_;
    const venue::EventBook& book_;
    const venue::DeskBook& desk_;
    ActPreview& preview_;
    QString team_;
    QString problem_;
    bool busy_ = false;
    ScreenPost post_{*this};
};

}  // namespace courthand::seats
