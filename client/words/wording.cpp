#include "wording.h"

#include <QStringList>

#include "courthand/rules/parameter.h"
#include "courthand/rules/remedy_words.h"
#include "record_words.h"

namespace courthand::client {

namespace {

QString plain(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

}  // namespace

QString Wording::number(Jersey jersey) {
    return jersey.worn() ? QString::number(jersey.number()) : QString();
}

QString Wording::roman(Position position) {
    static constexpr std::array<const char*, players_on_court> numerals{"I",  "II", "III",
                                                                        "IV", "V",  "VI"};
    return QString::fromLatin1(numerals[index(position)]);
}

QString Wording::roman(Slot slot) {
    return roman(static_cast<Position>(slot));
}

QString Wording::six(const Six& six) {
    QStringList words;
    for (const Position p : all_positions) {
        const QString worn = number(six[index(p)]);
        words << tr("%1 %2", "position, number").arg(roman(p), worn.isEmpty() ? tr("–") : worn);
    }
    return words.join(QStringLiteral("   "));
}

QString Wording::sanction(Sanction sanction) {
    switch (sanction) {
        case Sanction::warning:
            return tr("warning");
        case Sanction::penalty:
            return tr("penalty");
        case Sanction::expulsion:
            return tr("expulsion");
        case Sanction::disqualification:
            return tr("disqualification");
    }
    return {};
}

QString Wording::cause(Cause cause) {
    switch (cause) {
        case Cause::injury:
            return tr("injury");
        case Cause::illness:
            return tr("illness");
        case Cause::expulsion:
            return tr("expulsion");
        case Cause::disqualification:
            return tr("disqualification");
        case Cause::declared:
            return tr("declared unable by the coach");
    }
    return {};
}

QString Wording::brief(Reason reason) {
    QString word = plain(describe(reason).word);
    for (const char* lead : {"libero-", "sub-", "redesignation-of-", "redesignation-"}) {
        if (word.startsWith(QLatin1String(lead))) {
            word.remove(0, static_cast<qsizetype>(std::string_view(lead).size()));
            break;
        }
    }
    return word.replace(QLatin1Char('-'), QLatin1Char(' '));
}

QString Wording::word(Reason reason) {
    return plain(describe(reason).word);
}

QString Wording::sentence(Reason reason) {
    return plain(describe(reason).text);
}

QString Wording::phase(Phase phase) {
    switch (phase) {
        case Phase::armed:
            return tr("Quiet until the serve");
        case Phase::open:
            return tr("Call it");
        case Phase::cleared:
            return tr("Put right in time");
        case Phase::accepted:
            return tr("Accepted");
        case Phase::overruled:
            return tr("Overruled");
    }
    return {};
}

QString Wording::rule(Reason reason) const {
    const ReasonRow& row = describe(reason);
    const std::string_view reference = row.reference[static_cast<std::size_t>(family_)];
    return reference == "memory" ? tr("from memory, no source") : plain(reference);
}

QString Wording::rule(const Verdict& verdict) const {
    const QString source = rule(verdict.reason);
    if (profile_ == nullptr) return source;
    const QString unproven =
        QString::fromStdString(unproven_words(*profile_, verdict.reason, verdict.remedy.action));
    if (unproven.isEmpty()) return source;
    return source.isEmpty() ? unproven : tr("%1; %2").arg(source, unproven);
}

QString Wording::why(Reason reason) const {
    const QString source = rule(reason);
    return source.isEmpty() ? sentence(reason) : tr("%1 (%2)").arg(sentence(reason), source);
}

QString Wording::prompt(const Prompt& prompt) const {
    const QString who = team(prompt.team);
    const QString first = number(prompt.players[0]);
    const QString second = number(prompt.players[1]);
    switch (prompt.kind) {
        case Prompt::Kind::none:
            return tr("Nothing is waiting");
        case Prompt::Kind::roster_missing:
            return tr("The team list of %1 is missing").arg(who);
        case Prompt::Kind::toss_missing:
            return tr("Record the toss: sides and first serve");
        case Prompt::Kind::set_to_start:
            return tr("Begin the set when both teams are back");
        case Prompt::Kind::lineup_missing:
            return tr("Line-up sheet of %1").arg(who);
        case Prompt::Kind::libero_box_open:
            return tr("%1: ask the second referee whether there is a second libero").arg(who);
        case Prompt::Kind::check_missing:
            return tr("%1: the second referee checks the six on court").arg(who);
        case Prompt::Kind::libero_must_leave:
            return first.isEmpty()
                       ? tr("%1: libero %2 must leave before the serve").arg(who, second)
                       : tr("%1: %2 returns for %3 before the serve").arg(who, first, second);
        case Prompt::Kind::place_empty:
            return tr("%1: a place on court is empty").arg(who);
        case Prompt::Kind::barred_must_leave:
            return tr("%1: %2 may not play on and must be substituted").arg(who, first);
        case Prompt::Kind::captain_to_name:
            return tr("%1: who is game captain now?").arg(who);
        case Prompt::Kind::courts_to_switch:
            return tr("The teams change courts");
        case Prompt::Kind::serve:
            return tr("%1 serves for %2").arg(first, who);
        case Prompt::Kind::decide_rally:
            return tr("Who won the rally?");
        case Prompt::Kind::match_finished:
            return tr("The match is over");
        case Prompt::Kind::match_interrupted:
            return tr("The match is interrupted");
    }
    return {};
}

QString Wording::act(const Prompt& prompt) const {
    const QString first = number(prompt.players[0]);
    const QString second = number(prompt.players[1]);
    switch (prompt.kind) {
        case Prompt::Kind::set_to_start:
            return tr("Begin the set");
        case Prompt::Kind::libero_box_open:
            return tr("Settle the box");
        case Prompt::Kind::check_missing:
            return tr("Checked: %1").arg(team(prompt.team));
        case Prompt::Kind::libero_must_leave:
            return first.isEmpty() ? QString() : tr("%1 in for %2").arg(first, second);
        case Prompt::Kind::place_empty:
        case Prompt::Kind::barred_must_leave:
            return tr("Substitution");
        case Prompt::Kind::captain_to_name:
            return tr("Name the captain");
        case Prompt::Kind::courts_to_switch:
            return tr("Courts changed");
        case Prompt::Kind::match_interrupted:
            return tr("It goes on here");
        case Prompt::Kind::serve:
            return first.isEmpty() ? tr("Serve hit") : tr("%1 has served").arg(first);
        case Prompt::Kind::none:
        case Prompt::Kind::roster_missing:
        case Prompt::Kind::toss_missing:
        case Prompt::Kind::lineup_missing:
        case Prompt::Kind::decide_rally:
        case Prompt::Kind::match_finished:
            return {};
    }
    return {};
}

QString Wording::remedy(const Verdict& verdict) const {
    const Remedy& remedy = verdict.remedy;
    const PerTeam<std::string> names{names_.a.toStdString(), names_.b.toStdString()};
    QStringList words{QString::fromStdString(remedy_words(remedy, verdict.team, names))};
    if (remedy.action == Action::point_and_service || remedy.action == Action::delay_penalty ||
        remedy.cancel > 0)
        words << tr("then %1 : %2, %3 serves")
                     .arg(remedy.score.a)
                     .arg(remedy.score.b)
                     .arg(team(remedy.serves));
    return words.join(tr("; "));
}

QString Wording::verdict(const Verdict& verdict) const {
    QString who = team(verdict.team);
    const QString first = number(verdict.players[0]);
    const QString second = number(verdict.players[1]);
    if (!first.isEmpty() && !second.isEmpty())
        who = tr("%1, %2 for %3").arg(who, first, second);
    else if (!first.isEmpty())
        who = tr("%1, %2").arg(who, first);
    return tr("%1: %2").arg(who, sentence(verdict.reason));
}

QString Wording::signer(Signer signer) const {
    return signer_words(signer, names_);
}

QString Wording::fact(const Fact& fact) const {
    return fact_words(fact, names_);
}

}  // namespace courthand::client
