// The page of officials: who is there, conflicts of interest, crews; one of them looked at.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QVariantList>
#include <QVariantMap>
#include <cstdint>
#include <vector>

#include "act_preview.h"
#include "officials/crew_change.h"
#include "row_list.h"
#include "venue/event_book.h"

namespace courthand::seats {

class OfficialPage : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("Made by the desk seat")
    Q_PROPERTY(courthand::seats::RowList* rows READ rows CONSTANT)
    Q_PROPERTY(int person READ person NOTIFY looked)
    Q_PROPERTY(QString title READ title NOTIFY looked)
    Q_PROPERTY(QString about READ about NOTIFY looked)
    Q_PROPERTY(QString name READ name NOTIFY looked)
    Q_PROPERTY(bool inWords READ inWords NOTIFY looked)
    Q_PROPERTY(QVariantList conflicts READ conflicts NOTIFY looked)
    Q_PROPERTY(QString crew READ crew NOTIFY looked)
    Q_PROPERTY(QVariantList members READ members NOTIFY looked)
    Q_PROPERTY(QVariantList chosen READ chosen NOTIFY looked)
    Q_PROPERTY(QString problem READ problem NOTIFY problemChanged)

  public:
    /// The book outlives the page.
    OfficialPage(const venue::EventBook& book, ActPreview& preview, QObject* parent = nullptr);

    [[nodiscard]] RowList* rows() { return &rows_; }
    // The person who is looked at; 0: none.
    [[nodiscard]] int person() const { return person_; }
    [[nodiscard]] QString title() const;
    /// Role, team, and what the person works.
    [[nodiscard]] QString about() const;
    /// As it stands beside the record; empty: none, or erased.
    [[nodiscard]] QString name() const;
    /// Something about the person is kept in words and can be erased.
    [[nodiscard]] bool inWords() const;
    /// Maps with team, words and declared (it can be taken back).
    [[nodiscard]] QVariantList conflicts() const;
    // The crew that is looked at; empty: a new one.
    [[nodiscard]] QString crew() const { return crew_; }
    /// Pairs of a number and words: whoever can be of a crew, and whoever is of this one.
    [[nodiscard]] QVariantList members() const;
    /// The numbers of those who are of the crew, with what was changed here.
    [[nodiscard]] QVariantList chosen() const;
    [[nodiscard]] QString problem() const { return problem_; }

    void show();

    Q_INVOKABLE bool look(int person);
    /// Teams whose name has the text in it, as `Offers` offers them; with `none` no team as well.
    Q_INVOKABLE QVariantList teamsLike(const QString& typed, const QString& chosen,
                                       bool none) const;
    Q_INVOKABLE void declare(const QString& team, const QString& why);
    /// Takes a declared conflict back.
    Q_INVOKABLE void withdraw(const QString& team);
    /// `role`: "official" or "worker"; team and name may be empty.
    Q_INVOKABLE void list(const QString& role, const QString& team, const QString& name);
    /// Takes the person off the list, however often listed, with what hangs on it shown first.
    Q_INVOKABLE void takeOff();
    /// Somebody as the sheet that erases wants it, on the list or off it: a map of person and name.
    Q_INVOKABLE QVariantMap inWordsOf(int person) const;

    /// An empty name begins a new crew.
    Q_INVOKABLE void lookAtCrew(const QString& name);
    Q_INVOKABLE void toggle(int person);
    Q_INVOKABLE void form(const QString& name);

  Q_SIGNALS:
    void looked();
    void problemChanged();

  private:
    [[nodiscard]] const event::Person* known() const;
    [[nodiscard]] std::uint16_t next_number() const;
    /// The crew that is looked at, as the record has it, or had it last.
    [[nodiscard]] const CrewChange::Persons& crew_now() const;
    [[nodiscard]] ActWish::Notes clashes_of_crew(const ActWish::Facts& facts) const;
    void complain(const QString& problem);
    /// What the duties of the person clash with once the facts are said.
    [[nodiscard]] ActWish::Notes clashes_after(std::vector<event::Fact> facts) const;

    const venue::EventBook& book_;
    ActPreview& preview_;
    RowList rows_;
    int person_ = 0;
    QString crew_;
    CrewChange change_;         ///< of the crew that is looked at
    CrewChange::Persons last_;  ///< who was of it when the record last had it
    QString problem_;
};

}  // namespace courthand::seats
