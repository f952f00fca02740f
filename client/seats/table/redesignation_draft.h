// A re-designation being written down: the libero who cannot go on and why, the new one, and the
// consent of the first referee. What is open and for whom is asked of the core.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QVariantList>
#include <vector>

#include "courthand/match/fact.h"
#include "courthand/match/state.h"
#include "courthand/rules/judge.h"
#include "number_draft.h"
#include "tiles.h"
#include "wording.h"

namespace courthand::client {

class RedesignationDraft : public courthand::client::NumberDraft {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    Q_PROPERTY(bool onLeft READ onLeft NOTIFY changed)
    Q_PROPERTY(QString teamName READ teamName NOTIFY changed)
    /// Liberos of the team: tiles {number, chosen, unable}.
    Q_PROPERTY(QVariantList liberos READ liberos NOTIFY changed)
    /// Everybody else: tiles {number, chosen, legal, whyNot}.
    Q_PROPERTY(QVariantList candidates READ candidates NOTIFY changed)
    /// Reasons: tiles {word, chosen}.
    Q_PROPERTY(QVariantList causes READ causes NOTIFY changed)
    Q_PROPERTY(bool consent READ consent WRITE setConsent NOTIFY changed)
    /// Why the rules refuse what is written, with the rule; empty when they do not.
    Q_PROPERTY(QString refusal READ refusal NOTIFY changed)
    Q_PROPERTY(bool complete READ complete NOTIFY changed)

  public:
    explicit RedesignationDraft(QObject* parent = nullptr) : NumberDraft{parent} {}

    void start(const Rules& rules, const MatchState& state, Team team, bool on_left,
               const Wording& wording);
    /// What to record, in order: that the libero is unable if that is new, then the change.
    [[nodiscard]] std::vector<Fact> facts() const;
    /// The words that travel beside the change.
    [[nodiscard]] QString remark() const;

    bool onLeft() const { return on_left_; }
    QString teamName() const { return wording_.team(team_); }
    QVariantList liberos() const;
    QVariantList candidates() const;
    QVariantList causes() const;
    bool consent() const { return consent_; }
    void setConsent(bool given);
    QString refusal() const;
    bool complete() const { return out_.worn() && in_.worn() && consent_; }

    Q_INVOKABLE void pickOld(int number);
    Q_INVOKABLE void pickNew(int number);
    Q_INVOKABLE void pickCause(int index);
    void acceptTyped() override;

  private:
    void ask();
    [[nodiscard]] bool isUnable(Jersey libero) const;
    [[nodiscard]] const Option* option(Jersey in) const;

    const Rules* rules_ = nullptr;
    MatchState state_{};
    MatchState after_{};  ///< with the libero who goes unable
    Wording wording_;
    Team team_{};
    LegalActions legal_;
    Jersey out_{};
    Jersey in_{};
    Cause cause_ = Cause::declared;
    bool consent_ = false;
    bool on_left_ = true;
};

}  // namespace courthand::client
