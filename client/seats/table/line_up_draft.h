// A line-up sheet being copied at the table: six numbers by serving order, two libero boxes that a
// person must settle, and the captain. Nothing is recorded until it is handed in.
#pragma once

#include <QtQml/qqmlregistration.h>
#include <QVariantList>
#include <array>
#include <optional>
#include <vector>

#include "courthand/match/fact.h"
#include "courthand/match/state.h"
#include "courthand/rules/profile.h"
#include "number_draft.h"
#include "session/match_session.h"
#include "tiles.h"
#include "wording.h"

namespace courthand::client {

class LineUpDraft : public courthand::client::NumberDraft {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("belongs to a table seat")
    /// Eight tiles {label, number, none, current, captain}: slots I to VI, then the libero boxes.
    Q_PROPERTY(QVariantList cells READ cells NOTIFY changed)
    /// The team list: tiles {number, name, used}.
    Q_PROPERTY(QVariantList roster READ roster NOTIFY changed)
    /// What the rules will say about the sheet as it stands, one sentence each.
    Q_PROPERTY(QStringList problems READ problems NOTIFY changed)
    Q_PROPERTY(bool complete READ complete NOTIFY changed)
    Q_PROPERTY(bool boxesSettled READ boxesSettled NOTIFY changed)
    Q_PROPERTY(bool canCopyLast READ canCopyLast NOTIFY changed)
    /// "21, 22": whom the list of the desk has as liberos, while the sheet says nothing of liberos
    /// yet and no earlier one has designated any. A proposal: a person takes it over or does not.
    Q_PROPERTY(QString listedLiberos READ listedLiberos NOTIFY changed)
    Q_PROPERTY(bool namingCaptain READ namingCaptain WRITE setNamingCaptain NOTIFY changed)

  public:
    static constexpr int first_box = static_cast<int>(players_on_court);
    static constexpr int cell_count = first_box + static_cast<int>(libero_boxes);

    explicit LineUpDraft(QObject* parent = nullptr) : NumberDraft{parent} {}

    /// Starts a fresh sheet of `team`. `listed` is the list of the desk; empty: it sent none.
    void start(const Rules& rules, const MatchState& state, Team team, const Wording& wording,
               const PerTeam<std::array<QString, Jersey::largest + 1>>& names,
               const std::vector<MatchSheet::Player>& listed);
    /// The match has changed: what is written stays, and is judged anew.
    void look(const MatchState& state);
    /// Takes back the last thing that was written here; false when the sheet is as it began.
    bool take_back();
    /// Keeps a sheet that was handed in, for "same as last set".
    void remember(const LineUp& sheet) { last_[sheet.team] = sheet; }

    [[nodiscard]] LineUp sheet() const;
    [[nodiscard]] Team team() const { return team_; }

    QVariantList cells() const;
    QVariantList roster() const;
    QStringList problems() const;
    bool complete() const;
    bool boxesSettled() const;
    bool canCopyLast() const { return last_[team_].has_value(); }
    QString listedLiberos() const;
    bool namingCaptain() const { return naming_captain_; }
    void setNamingCaptain(bool on);

    Q_INVOKABLE void moveTo(int cell);
    /// Writes a number into the current cell and goes on to the next empty one.
    Q_INVOKABLE void put(int number);
    Q_INVOKABLE void boxNone(int box);
    /// The first box that nobody has settled stays empty.
    void noneInOpenBox();
    Q_INVOKABLE void clear(int cell);
    Q_INVOKABLE void copyLast();
    /// Writes the liberos of the desk's list into the boxes.
    Q_INVOKABLE void takeListedLiberos();
    void acceptTyped() override;
    void eraseTyped() override;

  private:
    /// What is written at one moment.
    struct Page {
        Six order{};
        std::array<LiberoBox, libero_boxes> boxes{};
        Jersey captain{};
        int current = 0;
        friend bool operator==(const Page&, const Page&) = default;
    };
    /// More than a sheet has places for; the oldest go first.
    static constexpr std::size_t most_steps = 100;

    void goOn();
    /// Those that may be proposed now.
    [[nodiscard]] std::vector<Jersey> proposed_liberos() const;
    [[nodiscard]] Page page() const { return {order_, boxes_, captain_, current_}; }
    /// Notes what was written before a change.
    void keep(const Page& before);

    const Rules* rules_ = nullptr;
    MatchState state_{};
    Wording wording_;
    PerTeam<std::array<QString, Jersey::largest + 1>> names_;
    Team team_{};
    Six order_{};
    std::array<LiberoBox, libero_boxes> boxes_{};
    Jersey captain_{};
    int current_ = 0;
    bool naming_captain_ = false;
    std::vector<Jersey> listed_liberos_;
    std::vector<Page> steps_;
    PerTeam<std::optional<LineUp>> last_;
};

}  // namespace courthand::client
