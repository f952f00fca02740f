// One alert, opened: its evidence, and what a head official may do with it.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QColor>
#include <QObject>
#include <QString>
#include <QVariantList>
#include <memory>

#include "courthand/event/state.h"
#include "fork_page.h"
#include "ruled_standings.h"
#include "venue/board.h"
#include "venue/board_source.h"

namespace courthand::seats {

class AlertPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the head seat")
    Q_PROPERTY(bool open READ open NOTIFY changed)
    Q_PROPERTY(QString alertId READ alertId NOTIFY changed)
    Q_PROPERTY(int mark READ mark NOTIFY changed)
    Q_PROPERTY(QString severityWord READ severityWord NOTIFY changed)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    Q_PROPERTY(QString detail READ detail NOTIFY changed)
    Q_PROPERTY(QString where READ where NOTIFY changed)
    Q_PROPERTY(QString age READ age NOTIFY ageChanged)
    Q_PROPERTY(QString owner READ owner NOTIFY changed)
    Q_PROPERTY(QString ended READ ended NOTIFY changed)
    Q_PROPERTY(QString rule READ rule NOTIFY changed)
    Q_PROPERTY(QString since READ since NOTIFY changed)
    Q_PROPERTY(QString remedy READ remedy NOTIFY changed)
    Q_PROPERTY(QString scoreNow READ scoreNow NOTIFY changed)
    Q_PROPERTY(QString scoreIfApplied READ scoreIfApplied NOTIFY changed)
    Q_PROPERTY(QString servesIfApplied READ servesIfApplied NOTIFY changed)
    Q_PROPERTY(QString standingsWords READ standingsWords NOTIFY changed)
    Q_PROPERTY(QVariantList standings READ standings NOTIFY changed)
    Q_PROPERTY(QString teamName READ teamName NOTIFY changed)
    Q_PROPERTY(QColor teamColour READ teamColour NOTIFY changed)
    Q_PROPERTY(bool hasSix READ hasSix NOTIFY changed)
    Q_PROPERTY(QVariantList before READ before NOTIFY changed)
    Q_PROPERTY(QVariantList after READ after NOTIFY changed)
    Q_PROPERTY(QVariantList entries READ entries NOTIFY changed)
    Q_PROPERTY(QVariantList replacements READ replacements NOTIFY changed)
    Q_PROPERTY(bool mayShelve READ mayShelve NOTIFY changed)
    Q_PROPERTY(QString whyNotShelve READ whyNotShelve NOTIFY changed)
    Q_PROPERTY(bool mayAcknowledge READ mayAcknowledge NOTIFY changed)
    Q_PROPERTY(bool asks READ asks NOTIFY changed)
    Q_PROPERTY(bool forked READ forked NOTIFY changed)
    Q_PROPERTY(QObject* fork READ fork CONSTANT)
    Q_PROPERTY(bool busy READ busy NOTIFY changed)
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

  public:
    /// In the order of the list on the screen.
    enum Choice { Accept, Overrule, Otherwise };
    Q_ENUM(Choice)

    explicit AlertPage(venue::BoardSource& source, QObject* parent = nullptr);

    [[nodiscard]] bool open() const { return !alert_.id.empty(); }
    [[nodiscard]] QString alertId() const;
    [[nodiscard]] int mark() const;
    [[nodiscard]] QString severityWord() const;
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString detail() const;
    [[nodiscard]] QString where() const { return where_; }
    [[nodiscard]] QString age() const;
    [[nodiscard]] QString owner() const;
    /// Not empty when the alert ended while its page was open.
    [[nodiscard]] QString ended() const;
    [[nodiscard]] QString rule() const;
    [[nodiscard]] QString since() const;
    [[nodiscard]] QString remedy() const;
    [[nodiscard]] QString scoreNow() const;
    [[nodiscard]] QString scoreIfApplied() const;
    [[nodiscard]] QString servesIfApplied() const;
    /// The standings of the pool with and without the remedy, and what of the match is compared.
    [[nodiscard]] QString standingsWords() const { return ruled_.words; }
    /// Maps with name, place, without (the place with the remedy) and changed.
    [[nodiscard]] QVariantList standings() const;
    [[nodiscard]] QString teamName() const { return team_name_; }
    [[nodiscard]] QColor teamColour() const { return team_colour_; }
    [[nodiscard]] bool hasSix() const;
    [[nodiscard]] QVariantList before() const;
    [[nodiscard]] QVariantList after() const;
    [[nodiscard]] QVariantList entries() const;
    [[nodiscard]] QVariantList replacements() const;
    [[nodiscard]] bool mayShelve() const;
    [[nodiscard]] QString whyNotShelve() const;
    /// A critical alert needs more than to be seen.
    [[nodiscard]] bool mayAcknowledge() const;
    /// A device asks to go on with the match; the answer is yes or no, no ruling.
    [[nodiscard]] bool asks() const { return !gone_ && !alert_.asking_device.empty(); }
    /// The record has a branch; which of the two counts is chosen after a look at both, no ruling.
    [[nodiscard]] bool forked() const { return !gone_ && alert_.code == venue::forked_code; }
    [[nodiscard]] QObject* fork() { return &fork_; }
    [[nodiscard]] bool busy() const { return busy_; }
    [[nodiscard]] QString problem() const { return problem_; }

    Q_INVOKABLE void claim();
    Q_INVOKABLE void acknowledge();
    Q_INVOKABLE void decide(int choice, const QString& note);
    Q_INVOKABLE void shelve(int minutes, const QString& reason);
    /// Lets the device that asks go on, or not.
    Q_INVOKABLE void answerTakeOver(bool consent);
    Q_INVOKABLE void lookAtFork();
    Q_INVOKABLE void close();

    /// The same for an alert of the list, open or not.
    void answer_take_over(const venue::Alert& alert, bool consent);

    /// Opens the alert of that id; closes the page when the board has none.
    void open_alert(const venue::Board& board, const std::string& alert_id);
    void show(const venue::Board& board);
    /// The record of the tournament has come further.
    void show_event(std::shared_ptr<const event::TournamentState> state);
    void tick(venue::Moment server);

  Q_SIGNALS:
    void changed();
    void ageChanged();
    /// A request was carried out; the words say what.
    void told(const QString& words);
    /// A request about an alert that is not open was refused; the words say why.
    void refused(const QString& words);

  private:
    void take(const venue::Board& board, const venue::Alert& alert);
    void look_at_standings();
    void begin();
    [[nodiscard]] venue::Answer answer(const QString& words, bool closes);

    venue::BoardSource& source_;
    ForkPage fork_;
    venue::Alert alert_;
    PerTeam<std::string> names_;
    Score score_{};
    std::vector<Jersey> liberos_;  ///< of the team the alert is about
    QString where_;
    QString team_name_;
    QColor team_colour_;
    venue::CourtOnBoard court_;  ///< on which the match is; without match: it is on none
    std::shared_ptr<const event::TournamentState> event_;
    RuledStandings ruled_;
    venue::Moment server_now_{};
    bool gone_ = false;
    bool busy_ = false;
    QString problem_;
};

}  // namespace courthand::seats
