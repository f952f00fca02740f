// A forked record on the screen of head or desk: both sides in words, and the one decision.
#pragma once

#include <QObject>
#include <QString>
#include <QVariantList>

#include "courthand/match/team.h"
#include "venue/board_source.h"

namespace courthand::seats {

/// Lives on the thread of the screen; the source may answer from any.
class ForkPage : public QObject {
    Q_OBJECT
    Q_PROPERTY(QString where READ where NOTIFY changed)
    Q_PROPERTY(QString summary READ summary NOTIFY changed)
    Q_PROPERTY(QString more READ more NOTIFY changed)
    Q_PROPERTY(QVariantList rows READ rows NOTIFY changed)
    Q_PROPERTY(bool busy READ busy NOTIFY changed)
    Q_PROPERTY(bool maySettle READ maySettle NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

  public:
    explicit ForkPage(venue::BoardSource& source, QObject* parent = nullptr);

    [[nodiscard]] QString where() const { return where_; }
    /// Where the two part and how much each side has; empty until it was read.
    [[nodiscard]] QString summary() const { return summary_; }
    /// What is not shown; empty: nothing.
    [[nodiscard]] QString more() const { return more_; }
    /// By number: number, record, recordBy, branch, branchBy, same.
    [[nodiscard]] QVariantList rows() const { return rows_; }
    [[nodiscard]] bool busy() const { return busy_; }
    [[nodiscard]] bool maySettle() const { return read_ && !busy_; }
    [[nodiscard]] QString problem() const { return problem_; }

    /// Reads both sides of this alert's fork; `names` are those of the two teams.
    void look(const venue::Alert& alert, const QString& where, const PerTeam<QString>& names);
    /// `enter_again`: the table is asked to enter by hand what lies beside the record.
    Q_INVOKABLE void settle(bool enter_again, const QString& note);

  Q_SIGNALS:
    void changed();
    /// It was settled; the words say how.
    void told(const QString& words);

  private:
    void take(const venue::Fork& fork, int request);
    void end(const venue::Outcome& outcome, const QString& words);

    venue::BoardSource& source_;
    std::string alert_id_;
    PerTeam<QString> names_;
    QString where_;
    QString summary_;
    QString more_;
    QVariantList rows_;
    QString problem_;
    bool busy_ = false;
    bool read_ = false;
    int request_ = 0;  ///< answers about an alert looked at before are dropped
};

}  // namespace courthand::seats
