#include "next_steps.h"

#include <algorithm>

#include "courthand/rules/judge.h"
#include "sheet_names.h"

namespace courthand::client {

namespace {

/// While a place on court is empty nobody knows yet who serves: there is nothing to say of it.
bool says_something(const Prompt& prompt) {
    return prompt.kind != Prompt::Kind::serve || prompt.players[0].worn();
}

}  // namespace

void NextSteps::look(const QString& team_key) {
    const PromptList prompts = next_steps(look_.rules(), look_.state());
    first_ = prompts.front();
    sentences_.clear();
    for (const Team team : {Team::A, Team::B})
        if (awaiting_six_[team])
            sentences_ << tr("After the time-out: are the same six of %1 back?")
                              .arg(look_.wording.team(team));
    for (const Prompt& prompt : prompts)
        if (says_something(prompt)) sentences_ << look_.wording.prompt(prompt);
    picking_line_ = picking_.line(team_key);
}

std::optional<Team> NextSteps::six_asked() const {
    for (const Team team : {Team::A, Team::B})
        if (awaiting_six_[team]) return team;
    return std::nullopt;
}

QString NextSteps::lead() const {
    const QString picking = picking_.lead();
    return picking.isEmpty() ? tr("NEXT") : picking;
}

QString NextSteps::line() const {
    return picking_line_.isEmpty() ? words() : picking_line_;
}

QString NextSteps::act() const {
    return six_asked() ? tr("The same six are back") : look_.wording.act(first_);
}

int NextSteps::more() const {
    return std::max(0, static_cast<int>(sentences_.size()) - said() - most_then);
}

QString NextSteps::thenWordsOf(int shown) const {
    const QString words = then().mid(0, shown).join(tr("  ·  "));
    const int left = more() + std::max(0, static_cast<int>(then().size()) - shown);
    if (words.isEmpty()) return left > 0 ? tr("then %1 more").arg(left) : QString();
    return left > 0 ? tr("then  %1  ·  and %2 more").arg(words).arg(left)
                    : tr("then  %1").arg(words);
}

OpenBox NextSteps::openBox() const {
    if (!boxAsked()) return {};
    const TeamSet& set = look_.state().set.team[first_.team];
    for (std::size_t box = 0; box < libero_boxes; ++box)
        if (set.boxes[box].mark == LiberoBox::Mark::blank)
            return {table_.is_left(first_.team), static_cast<int>(box),
                    look_.wording.team(first_.team)};
    return {};
}

bool NextSteps::captainOnLeft() const {
    return first_.kind != Prompt::Kind::captain_to_name || table_.is_left(first_.team);
}

void NextSteps::sixBack(bool onLeft) {
    awaiting_six_[table_.team_on(onLeft)] = false;
    table_.show_again();
}

void NextSteps::doIt() {
    if (const auto team = six_asked()) return sixBack(table_.is_left(*team));
    const auto& [kind, team, players] = first_;
    switch (kind) {
        case Prompt::Kind::set_to_start:
            table_.perform({SetStarted{static_cast<std::uint8_t>(look_.state().set.number + 1)}});
            return;
        case Prompt::Kind::check_missing:
            table_.perform({LineUpChecked{team}});
            return;
        case Prompt::Kind::libero_must_leave:
            if (players[0].worn()) table_.attempt(LiberoReplacement{team, players[0], players[1]});
            return;
        case Prompt::Kind::courts_to_switch:
            table_.attempt(CourtSwitch{});
            return;
        case Prompt::Kind::match_interrupted:
            table_.perform({Resumed{}});
            return;
        case Prompt::Kind::serve:
            table_.perform({Serve{}});
            return;
        case Prompt::Kind::libero_box_open:
            table_.want_sheet(QLatin1String(sheets::box));
            return;
        case Prompt::Kind::captain_to_name:
            table_.want_sheet(QLatin1String(sheets::captain));
            return;
        case Prompt::Kind::place_empty:
        case Prompt::Kind::barred_must_leave:
            table_.want_substitution(team, players[0]);
            return;
        case Prompt::Kind::none:
        case Prompt::Kind::roster_missing:
        case Prompt::Kind::toss_missing:
        case Prompt::Kind::lineup_missing:
        case Prompt::Kind::decide_rally:
        case Prompt::Kind::match_finished:
            return;
    }
}

}  // namespace courthand::client
