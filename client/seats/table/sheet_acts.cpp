#include "sheet_acts.h"

#include <algorithm>

#include "courthand/rules/judge.h"
#include "said_fact.h"

namespace courthand::client {

namespace {

bool over(Stage stage) {
    return stage == Stage::set_over || stage == Stage::match_over;
}

}  // namespace

bool SheetActs::record(const QString& kind, const QVariantMap& said) {
    const std::optional<Fact> fact = fact_said(kind, said, table_);
    Q_ASSERT_X(fact.has_value(), "SheetActs::record", qPrintable(kind));
    return fact && table_.perform({*fact});
}

bool SheetActs::attempt(const QString& kind, const QVariantMap& said) {
    const std::optional<Fact> fact = fact_said(kind, said, table_);
    Q_ASSERT_X(fact.has_value(), "SheetActs::attempt", qPrintable(kind));
    return fact && table_.attempt(*fact);
}

void SheetActs::servedBy(bool onLeft, int number) {
    const Jersey server = jersey_of(number);
    if (server.worn()) table_.perform({Serve{table_.team_on(onLeft), server}});
}

QVariantList SheetActs::captainOptions(bool onLeft) const {
    return as_list(Display{look_}.captains(table_.team_on(onLeft)));
}

void SheetActs::positionalFault(bool onLeft) {
    table_.perform({PositionalFault{table_.team_on(onLeft), {}, {}}});
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
    const Option option = option_for(look_.rules(), look_.state(), fact);
    const MatchState after = judge(look_.rules(), look_.state(), Entry{0, fact}).state;
    const bool ends = over(after.set.stage) && !over(look_.state().set.stage);
    if (option.legal && !ends) {
        table_.perform({fact});
        return;
    }
    // A slip here would give a set away: a person says it twice.
    const Team winner = after.team.a.sets_won > look_.state().team.a.sets_won ? Team::A : Team::B;
    const QString score = tr("Score %1 : %2").arg(left).arg(right);
    table_.ask(
        {{fact},
         ends ? tr("%1: the set is over, for %2").arg(score, look_.wording.team(winner)) : score,
         option.legal ? tr("Ends the set") : tr("Not legal"),
         option.legal ? tr("Only when the first referee orders it.")
                      : look_.wording.why(option.reason)});
}

}  // namespace courthand::client
