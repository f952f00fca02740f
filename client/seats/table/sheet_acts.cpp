#include "sheet_acts.h"

#include <algorithm>

#include "courthand/rules/judge.h"

namespace courthand::client {

namespace {

bool over(Stage stage) {
    return stage == Stage::set_over || stage == Stage::match_over;
}

}  // namespace

void SheetActs::replayRally() {
    table_.perform({Replay{}});
}

void SheetActs::changeCourts() {
    table_.attempt(CourtSwitch{});
}

void SheetActs::positionalFault(bool onLeft) {
    table_.perform({PositionalFault{table_.team_on(onLeft), {}, {}}});
}

void SheetActs::interrupt() {
    table_.perform({Interrupted{}});
}

void SheetActs::playAnew(bool wholeMatch) {
    table_.perform(
        {Resumed{wholeMatch ? Resumed::How::over_four_hours : Resumed::How::other_court}});
}

void SheetActs::misconduct(bool onLeft, int number, int sanction) {
    table_.perform({Misconduct{table_.team_on(onLeft), jersey_of(number),
                               static_cast<Sanction>(std::clamp(sanction, 0, 3))}});
}

void SheetActs::delay(bool onLeft, int sanction) {
    table_.perform(
        {Delay{table_.team_on(onLeft), static_cast<Sanction>(std::clamp(sanction, 0, 1))}});
}

void SheetActs::improperRequest(bool onLeft) {
    table_.perform({ImproperRequest{table_.team_on(onLeft)}});
}

void SheetActs::injury(bool onLeft, int number) {
    table_.perform({Injury{table_.team_on(onLeft), jersey_of(number)}});
}

void SheetActs::recovery(bool onLeft, int number) {
    if (table_.perform({Recovery{table_.team_on(onLeft), jersey_of(number)}}))
        table_.start_clock(session_.rules().recovery_seconds, tr("Recovery time"));
}

void SheetActs::remark(const QString& text) {
    if (!text.trimmed().isEmpty()) table_.perform({Note{Note::Kind::remark}}, text.trimmed());
}

void SheetActs::protest(bool onLeft, const QString& text) {
    table_.perform({Protest{table_.team_on(onLeft)}}, text.trimmed());
}

void SheetActs::correctScore(int leftPoints, int rightPoints) {
    const auto left = static_cast<std::uint8_t>(std::clamp(leftPoints, 0, 255));
    const auto right = static_cast<std::uint8_t>(std::clamp(rightPoints, 0, 255));
    const bool a_left = table_.team_on(true) == Team::A;
    const Fact fact = ScoreCorrection{Score{a_left ? left : right, a_left ? right : left}};
    const Option option = option_for(session_.rules(), session_.state(), fact);
    const MatchState after = judge(session_.rules(), session_.state(), Entry{0, fact}).state;
    const bool ends = over(after.set.stage) && !over(session_.state().set.stage);
    if (option.legal && !ends) {
        table_.perform({fact});
        return;
    }
    // A slip here would give a set away: a person says it twice.
    const Team winner =
        after.team.a.sets_won > session_.state().team.a.sets_won ? Team::A : Team::B;
    const QString score = tr("Score %1 : %2").arg(left).arg(right);
    table_.ask({{fact},
                ends ? tr("%1: the set is over, for %2").arg(score, wording_.team(winner)) : score,
                option.legal ? tr("Ends the set") : tr("Not legal"),
                option.legal ? tr("Only when the first referee orders it.")
                             : wording_.why(option.reason)});
}

void SheetActs::incomplete(bool onLeft, bool wholeMatch) {
    table_.perform({Incomplete{table_.team_on(onLeft),
                               wholeMatch ? Incomplete::Scope::match : Incomplete::Scope::set}});
}

void SheetActs::nameCaptain(bool onLeft, int number) {
    const Jersey player = jersey_of(number);
    if (player.worn()) table_.attempt(GameCaptain{table_.team_on(onLeft), player});
}

}  // namespace courthand::client
