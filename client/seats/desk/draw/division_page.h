// What makes a division: its opening, its seeds, its pools, its brackets. Each is tried on a copy
// of the record first, so that the preview can show what comes of it.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QVariantList>
#include <QVariantMap>
#include <cstdint>
#include <optional>

#include "act_preview.h"
#include "venue/event_book.h"

namespace courthand::seats {

class DivisionPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(QVariantList profiles READ profiles CONSTANT)
    Q_PROPERTY(QVariantList chains READ chains CONSTANT)
    Q_PROPERTY(bool tournamentOpened READ tournamentOpened NOTIFY changed)
    Q_PROPERTY(QString seeds READ seeds NOTIFY changed)
    Q_PROPERTY(int teamCount READ teamCount NOTIFY changed)
    Q_PROPERTY(int poolCount READ poolCount NOTIFY changed)
    Q_PROPERTY(QString freePrefix READ freePrefix NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY problemChanged)

  public:
    /// The book outlives the page.
    DivisionPage(const venue::EventBook& book, ActPreview& preview, QObject* parent = nullptr);

    /// Pairs of an id and its words.
    [[nodiscard]] QVariantList profiles() const;
    [[nodiscard]] QVariantList chains() const;
    [[nodiscard]] bool tournamentOpened() const { return book_.state->opened.has_value(); }
    /// The teams of the division, best seed first, one a line; those without a seed at the end.
    [[nodiscard]] QString seeds() const;
    /// Teams that have not left.
    [[nodiscard]] int teamCount() const;
    [[nodiscard]] int poolCount() const;
    /// Letters for the matches of a bracket that no pool or other bracket has.
    [[nodiscard]] QString freePrefix() const;
    [[nodiscard]] QString problem() const { return problem_; }

    void show(event::DivisionIndex division);

    /// The name of the event, its days ("2026-11-28") and time zone, and who confirms results, by
    /// the word of the choice; empty: that stays.
    Q_INVOKABLE void openTournament(const QString& name, const QString& first, const QString& last,
                                    const QString& zone, const QString& confirmer = {});
    /// With code, name, profile, chain, sets, points, decidingPoints, struck, and the limits as
    /// they were typed (`division_limits.h`).
    Q_INVOKABLE void openDivision(const QVariantMap& said);
    /// Of a code that is open already, its limits; of any other, nothing.
    Q_INVOKABLE QString limitWords(const QString& code) const;
    Q_INVOKABLE void giveSeeds(const QString& lines);
    /// With method, pools, cuts ("2" or "2 4"), prefix, secondLeg, sets, points and decidingPoints;
    /// 0 sets: as the division says.
    Q_INVOKABLE void drawPools(const QVariantMap& said);
    /// With kind, prefix, from, to (places of the pools; 0: by seeds), size, best, thirdPlace and
    /// secondFinal.
    Q_INVOKABLE void makeBracket(const QVariantMap& said);
    Q_INVOKABLE void forgetProblem();

  Q_SIGNALS:
    void changed();
    void problemChanged();

  private:
    [[nodiscard]] const event::Division* division() const;
    void complain(const QString& problem);

    const venue::EventBook& book_;
    ActPreview& preview_;
    std::uint64_t lot_ = 0;  ///< for the generator of draws by lot
    event::DivisionIndex division_ = 0;
    QString problem_;
};

}  // namespace courthand::seats
