// One request for substitution being written down: pairs of numbers, judged before they count.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QVariantList>

#include "courthand/match/fact.h"
#include "courthand/match/state.h"
#include "courthand/rules/judge.h"
#include "number_draft.h"
#include "tiles.h"
#include "wording.h"

namespace courthand::client {

class SubstitutionDraft : public courthand::client::NumberDraft {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    Q_PROPERTY(bool onLeft READ onLeft NOTIFY changed)
    Q_PROPERTY(QString teamName READ teamName NOTIFY changed)
    /// The six: tiles {number, numeral, chosen, used}.
    Q_PROPERTY(QVariantList onCourt READ onCourt NOTIFY changed)
    /// The bench: tiles {number, legal, whyNot, used, chosen}; legality is for who goes out.
    Q_PROPERTY(QVariantList bench READ bench NOTIFY changed)
    Q_PROPERTY(QStringList pairs READ pairs NOTIFY changed)
    /// What the rules will say about the request as it stands.
    Q_PROPERTY(QStringList problems READ problems NOTIFY changed)
    Q_PROPERTY(bool exceptional READ exceptional WRITE setExceptional NOTIFY changed)

  public:
    explicit SubstitutionDraft(QObject* parent = nullptr) : NumberDraft{parent} {}

    void start(const Rules& rules, const MatchState& state, Team team, bool on_left,
               const Wording& wording, Jersey out);
    [[nodiscard]] Fact fact() const;
    [[nodiscard]] bool empty() const { return pairs_.count == 0; }

    bool onLeft() const { return on_left_; }
    QString teamName() const { return wording_.team(pairs_.team); }
    QVariantList onCourt() const;
    QVariantList bench() const;
    QStringList pairs() const;
    QStringList problems() const;
    bool exceptional() const { return exceptional_; }
    void setExceptional(bool on);

    /// A number on court goes out, a number from the bench comes in; two of them make a pair.
    Q_INVOKABLE void pick(int number);
    Q_INVOKABLE void dropPair(int index);
    void acceptTyped() override;
    void eraseTyped() override;

  private:
    [[nodiscard]] bool stands(Jersey jersey) const;
    /// In a word, under its tile; empty: it is legal, or nothing is chosen yet.
    [[nodiscard]] QString why_not(Jersey jersey, const Option* candidate) const;
    [[nodiscard]] const Option* option(Jersey in, Jersey out) const;

    const Rules* rules_ = nullptr;
    MatchState state_{};
    Wording wording_;
    LegalActions legal_;
    Substitution pairs_{};
    Jersey in_{};
    Jersey out_{};
    bool on_left_ = true;
    bool exceptional_ = false;
};

}  // namespace courthand::client
