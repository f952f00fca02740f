// The page of officials: who is there, conflicts of interest, crews; one of them looked at.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QStringList>
#include <QVariantList>
#include <cstdint>
#include <vector>

#include "act_preview.h"
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
    Q_PROPERTY(QVariantList conflicts READ conflicts NOTIFY looked)
    Q_PROPERTY(QString crew READ crew NOTIFY looked)
    Q_PROPERTY(QVariantList members READ members NOTIFY looked)
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
    /// Maps with team, words and declared (it can be taken back).
    [[nodiscard]] QVariantList conflicts() const;
    // The crew that is looked at; empty: a new one.
    [[nodiscard]] QString crew() const { return crew_; }
    /// Maps with person, words and chosen: whoever can be of a crew.
    [[nodiscard]] QVariantList members() const;
    [[nodiscard]] QString problem() const { return problem_; }

    void show();

    Q_INVOKABLE bool look(int person);
    /// Teams whose name has the text in it, the chosen one first: pairs of a name and its word.
    Q_INVOKABLE QVariantList teamsLike(const QString& typed, const QString& chosen) const;
    Q_INVOKABLE void declare(const QString& team, const QString& why);
    /// Takes a declared conflict back.
    Q_INVOKABLE void withdraw(const QString& team);
    /// `role`: "official" or "worker"; team and name may be empty.
    Q_INVOKABLE void list(const QString& role, const QString& team, const QString& name);
    /// Takes the person off the list, with what hangs on it shown first.
    Q_INVOKABLE void takeOff();

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
    void complain(const QString& problem);
    /// What the duties of the person clash with once the facts are said.
    [[nodiscard]] ActWish::Notes clashes_after(std::vector<event::Fact> facts) const;

    const venue::EventBook& book_;
    ActPreview& preview_;
    RowList rows_;
    int person_ = 0;
    QString crew_;
    std::vector<std::uint16_t> chosen_;  ///< of the crew that is looked at
    QString problem_;
};

}  // namespace courthand::seats
