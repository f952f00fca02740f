// Who works a match: the choices of the desk before they are said, and what speaks against them.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QVariantList>
#include <cstdint>
#include <optional>
#include <string>

#include "act_preview.h"
#include "courthand/event/plan.h"
#include "venue/event_book.h"

namespace courthand::seats {

class DutyPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(QString match READ match NOTIFY changed)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    Q_PROPERTY(QString about READ about NOTIFY changed)
    Q_PROPERTY(QStringList now READ now NOTIFY changed)
    Q_PROPERTY(QString workers READ workers NOTIFY changed)
    Q_PROPERTY(QString crew READ crew NOTIFY changed)
    Q_PROPERTY(QString firstReferee READ firstReferee NOTIFY changed)
    Q_PROPERTY(QString secondReferee READ secondReferee NOTIFY changed)
    Q_PROPERTY(QStringList clashes READ clashes NOTIFY changed)
    Q_PROPERTY(bool differs READ differs NOTIFY changed)

  public:
    /// The book outlives the page.
    DutyPage(const venue::EventBook& book, ActPreview& preview, QObject* parent = nullptr);

    // The match that is looked at.
    [[nodiscard]] QString match() const { return match_; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString about() const;
    /// Who works it as the record has it, a line each.
    [[nodiscard]] QStringList now() const;
    // What is chosen, as `workersLike`, `crewsLike` and `refereesLike` offer it.
    [[nodiscard]] QString workers() const;
    [[nodiscard]] QString crew() const { return QString::fromStdString(wanted_.crew); }
    [[nodiscard]] QString firstReferee() const { return QString::number(wanted_.first_referee); }
    [[nodiscard]] QString secondReferee() const { return QString::number(wanted_.second_referee); }
    /// Of what is chosen, as many as the sheet has room for; the others are counted.
    [[nodiscard]] QStringList clashes() const;
    /// What is chosen is not what the record has.
    [[nodiscard]] bool differs() const;

    /// The book has changed: so has what was not chosen, and the clashes may be others.
    void show();

    /// Begins with what the record has; false when there is no such match.
    Q_INVOKABLE bool look(const QString& match);
    // As `Offers` offers them: the chosen one, then nobody, then those with the text.
    Q_INVOKABLE QVariantList workersLike(const QString& typed) const;
    Q_INVOKABLE QVariantList crewsLike(const QString& typed) const;
    Q_INVOKABLE QVariantList refereesLike(const QString& typed, bool second) const;
    Q_INVOKABLE void chooseWorkers(const QString& value);
    Q_INVOKABLE void chooseCrew(const QString& value);
    Q_INVOKABLE void chooseReferee(const QString& value, bool second);
    /// Asks whether the duty is to be this.
    Q_INVOKABLE void give();

  Q_SIGNALS:
    void changed();

  private:
    /// What a person has chosen here. All else is as the record has it, by then.
    struct Chosen {
        std::optional<event::Source> workers;
        std::optional<std::string> crew;
        std::optional<std::uint16_t> first_referee;
        std::optional<std::uint16_t> second_referee;
    };

    [[nodiscard]] std::optional<event::MatchRef> ref() const;
    [[nodiscard]] event::DutyGiven recorded(event::MatchRef match) const;
    [[nodiscard]] event::DutyGiven with(const Chosen& chosen, event::MatchRef match) const;
    void reckon();
    /// Clashes in the match once the duty is given.
    [[nodiscard]] QStringList clashes_with(const event::TournamentState& state,
                                           const event::DutyGiven& fact) const;

    const venue::EventBook& book_;
    ActPreview& preview_;
    QString match_;
    Chosen chosen_;
    event::DutyGiven wanted_;  ///< the record's with what is chosen
    QStringList clashes_;
};

}  // namespace courthand::seats
