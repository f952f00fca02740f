// The room of what a person must know: verdicts that stand and their rulings, what could not be
// saved, what came from outside; the most pressing first.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QObject>
#include <QString>
#include <QVariantList>
#include <vector>

#include "acting.h"
#include "desk_lists.h"
#include "display.h"
#include "news_line.h"
#include "recorder.h"
#include "saving_line.h"

namespace courthand::client {

class NoticeBoard : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    /// Armed and open verdicts: `Notice`, oldest first.
    Q_PROPERTY(QVariantList faults READ faults NOTIFY changed)
    /// Index of the most pressing one; -1 when there is none.
    Q_PROPERTY(int worst READ worst NOTIFY changed)
    /// Two lines for what a person must know, most pressing first: not saved, a verdict with its
    /// remedy, what came from outside, the last entry. The second may be empty.
    Q_PROPERTY(QString line READ line NOTIFY changed)
    Q_PROPERTY(QString detail READ detail NOTIFY changed)
    /// The first line is no more than the last entry.
    Q_PROPERTY(bool quiet READ quiet NOTIFY changed)
    /// What a person must know on a page that has no room for verdicts; empty: nothing.
    Q_PROPERTY(QString help READ help NOTIFY changed)
    /// Why the last touch could not be saved; empty when all is saved.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)

  public:
    NoticeBoard(Acting& table, const MatchLook& look, const Recorder& recorder,
                const SavingLine& saving, const DeskLists& lists)
        : table_{table}, look_{look}, recorder_{recorder}, saving_{saving}, lists_{lists} {}

    QVariantList faults() const { return as_list(Display{look_}.notices(standing_)); }
    int worst() const;
    QString line() const;
    QString detail() const;
    bool quiet() const;
    QString help() const;
    QString problem() const { return recorder_.problem(); }

    /// Looks at the match anew; `last_entry` in words.
    void look(const QString& last_entry);
    void show() { Q_EMIT changed(); }

    /// Something came from outside. False when the same is to be seen already.
    bool tell(const QString& words) { return news_.add(words, !problem().isEmpty()); }
    /// After a touch: what the person has seen of it, and goes; empty: nothing.
    [[nodiscard]] QString seen(bool saved) { return news_.seen(saved); }
    [[nodiscard]] QString news() const { return news_.first(); }

    /// Where the verdict of that entry, reason and team stands in `faults`; -1: nowhere any more.
    Q_INVOKABLE int faultAt(int entry, int reason, int team) const;
    /// The ruling on that verdict and no other. False when it no longer stands, or an older fault
    /// of its kind must be ruled first: nothing is recorded.
    Q_INVOKABLE bool rule(int entry, int reason, int team, bool accept);

  Q_SIGNALS:
    void changed();

  private:
    Acting& table_;
    const MatchLook& look_;
    const Recorder& recorder_;
    const SavingLine& saving_;
    const DeskLists& lists_;
    std::vector<Verdict> standing_;
    NewsLine news_;
    QString last_entry_;
};

}  // namespace courthand::client
