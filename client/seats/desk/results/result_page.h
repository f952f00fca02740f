// The results page: the matches of a division, and one of them looked at: its result is confirmed
// from the table, typed from paper, awarded, or reopened.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QString>
#include <QStringList>
#include <optional>

#include "event_page.h"
#include "kept_rows.h"
#include "venue/table_results.h"

namespace courthand::seats {

// The base by its whole name: qmllint knows it by no other.
class ResultPage : public courthand::seats::EventPage {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(bool onlyOpen READ onlyOpen WRITE setOnlyOpen NOTIFY filterChanged)
    Q_PROPERTY(QString emptyWords READ emptyWords NOTIFY filterChanged)
    Q_PROPERTY(int confirmable READ confirmable NOTIFY filterChanged)
    Q_PROPERTY(bool bySignatures READ bySignatures NOTIFY filterChanged)
    Q_PROPERTY(QString match READ match NOTIFY looked)
    Q_PROPERTY(QString title READ title NOTIFY looked)
    Q_PROPERTY(QString format READ format NOTIFY looked)
    Q_PROPERTY(QString first READ first NOTIFY looked)
    Q_PROPERTY(QString second READ second NOTIFY looked)
    Q_PROPERTY(QStringList about READ about NOTIFY looked)
    Q_PROPERTY(QString work READ work NOTIFY looked)
    Q_PROPERTY(QString tableScores READ tableScores NOTIFY looked)
    Q_PROPERTY(QString signatures READ signatures NOTIFY looked)
    Q_PROPERTY(int mark READ mark NOTIFY looked)
    Q_PROPERTY(QString state READ state NOTIFY looked)
    Q_PROPERTY(QString scores READ scores NOTIFY looked)
    Q_PROPERTY(bool mayConfirm READ mayConfirm NOTIFY looked)
    Q_PROPERTY(bool mayEnter READ mayEnter NOTIFY looked)
    Q_PROPERTY(bool mayReopen READ mayReopen NOTIFY looked)
    Q_PROPERTY(QString problem READ problem NOTIFY problemChanged)
    Q_PROPERTY(bool mayPlace READ mayPlace NOTIFY looked)
    Q_PROPERTY(QString court READ court NOTIFY looked)
    Q_PROPERTY(QString time READ time NOTIFY looked)
    Q_PROPERTY(QString placeProblem READ placeProblem NOTIFY problemChanged)

  public:
    /// The book and what the tables have recorded outlive the page.
    ResultPage(const venue::EventBook& book, const venue::TableResults& tables, ActPreview& preview,
               QObject* parent = nullptr);

    /// Matches without a result that counts.
    [[nodiscard]] bool onlyOpen() const { return only_open_; }
    void setOnlyOpen(bool only);
    /// Why no match is shown, and what makes one; empty while some are.
    [[nodiscard]] QString emptyWords() const;
    /// Results of tables in this division that wait for the desk.
    [[nodiscard]] int confirmable() const { return confirmable_; }

    /// Signatures at the table confirm results, too.
    [[nodiscard]] bool bySignatures() const;

    // The match that is looked at; empty texts when there is none.
    [[nodiscard]] QString match() const { return match_; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString format() const;
    [[nodiscard]] QString first() const;
    [[nodiscard]] QString second() const;
    /// Why a side is open, and what the match is played for.
    [[nodiscard]] QStringList about() const;
    /// Who works it, in one line.
    [[nodiscard]] QString work() const;
    [[nodiscard]] QString tableScores() const;
    /// Why signatures have not confirmed it yet; empty where they are not asked.
    [[nodiscard]] QString signatures() const;
    [[nodiscard]] int mark() const;
    [[nodiscard]] QString state() const;
    [[nodiscard]] QString scores() const;
    [[nodiscard]] bool mayConfirm() const;
    [[nodiscard]] bool mayEnter() const;
    [[nodiscard]] bool mayReopen() const;
    /// It has no result yet.
    [[nodiscard]] bool mayPlace() const;
    /// Number of its court, and when it begins there; empty: not told.
    [[nodiscard]] QString court() const;
    [[nodiscard]] QString time() const;
    /// What is wrong with the court or the time that was typed.
    [[nodiscard]] QString placeProblem() const { return place_problem_; }
    /// What is wrong with what was typed.
    [[nodiscard]] QString problem() const { return problem_; }

    void show(event::DivisionIndex division);

    /// From the desk alone to signatures, or back.
    Q_INVOKABLE void changeConfirmer();
    /// False when there is no such match.
    Q_INVOKABLE bool look(const QString& match);
    /// The result of the table.
    Q_INVOKABLE void confirm();
    /// Sets typed from a paper sheet.
    Q_INVOKABLE void enter(const QString& typed);
    /// `how`: the word of the award; `loser`: side 0 or 1, -1 for both; `typed`: the sets as they
    /// stood when a team became incomplete.
    Q_INVOKABLE void award(const QString& how, int loser, const QString& typed);
    Q_INVOKABLE void reopen();
    /// Court and time as a person writes them; an empty court takes the match off it.
    Q_INVOKABLE void place(const QString& court, const QString& at);

  Q_SIGNALS:
    void filterChanged();
    void looked();
    void problemChanged();

  private:
    [[nodiscard]] std::optional<event::MatchRef> ref() const;
    [[nodiscard]] QString side(std::size_t which) const;
    void complain(const QString& problem);
    /// Both sides of the match that is looked at, as they are when it is asked.
    [[nodiscard]] ActWish::Notes teams() const;
    void ask(const QString& title, const QString& told, event::Fact fact,
             ActWish::Facts renewed = {});
    /// The result as the table has it now; nothing when it has none to confirm.
    [[nodiscard]] std::vector<event::Fact> of_the_table(const QString& match) const;

    const venue::TableResults& tables_;
    KeptRows kept_;
    bool only_open_ = false;
    int confirmable_ = 0;
    QString match_;
    QString problem_;
    QString place_problem_;
};

}  // namespace courthand::seats
