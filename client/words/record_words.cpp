#include "record_words.h"

#include <QCoreApplication>
#include <QStringList>

#include "wording.h"

namespace courthand::client {

namespace {

struct SignerWords {
    Q_DECLARE_TR_FUNCTIONS(Signer)

  public:
    static QString of(Signer signer, const PerTeam<QString>& names) {
        switch (signer) {
            case Signer::captain_a:
                return tr("captain of %1").arg(names.a);
            case Signer::captain_b:
                return tr("captain of %1").arg(names.b);
            case Signer::coach_a:
                return tr("coach of %1").arg(names.a);
            case Signer::coach_b:
                return tr("coach of %1").arg(names.b);
            case Signer::scorer:
                return tr("scorer");
            case Signer::assistant_scorer:
                return tr("assistant scorer");
            case Signer::second_referee:
                return tr("second referee");
            case Signer::first_referee:
                return tr("first referee");
        }
        return {};
    }
};

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Entry)

  public:
    const PerTeam<QString>& names;

    [[nodiscard]] QString team(Team which) const { return names[which]; }
    [[nodiscard]] static QString six(const Six& order) {
        QStringList numbers;
        for (const Jersey jersey : order) {
            numbers << (jersey.worn() ? Wording::number(jersey) : QStringLiteral("–"));
        }
        return numbers.join(QLatin1Char(' '));
    }
    QString operator()(const MatchOpened&) const { return tr("Match opened"); }
    QString operator()(const Roster& fact) const {
        return tr("%1: team list, %2 players").arg(team(fact.team)).arg(fact.count);
    }
    QString operator()(const Toss& fact) const {
        return tr("Toss: %1 serves").arg(team(fact.serves));
    }
    QString operator()(const SetStarted& fact) const { return tr("Set %1").arg(fact.number); }
    QString operator()(const LineUp& fact) const {
        return tr("%1: line-up %2").arg(team(fact.team), six(fact.order));
    }
    QString operator()(const LiberoBoxSettled& fact) const {
        const bool number = fact.entry.mark == LiberoBox::Mark::number;
        return tr("%1: libero box %2: %3")
            .arg(team(fact.team))
            .arg(fact.box + 1)
            .arg(number ? Wording::number(fact.entry.number) : tr("none"));
    }
    QString operator()(const LineUpChecked& fact) const {
        return tr("%1: line-up checked").arg(team(fact.team));
    }
    QString operator()(const Whistle&) const { return tr("Whistle for service"); }
    QString operator()(const Serve& fact) const {
        return fact.server.worn() ? tr("Served by %1").arg(Wording::number(fact.server))
                                  : tr("Served");
    }
    QString operator()(const RallyWon& fact) const {
        return tr("Rally won by %1").arg(team(fact.team));
    }
    QString operator()(const Replay&) const { return tr("Rally replayed"); }
    QString operator()(const LiberoReplacement& fact) const {
        return tr("%1: libero replacement, %2 for %3")
            .arg(team(fact.team), Wording::number(fact.in), Wording::number(fact.out));
    }
    QString operator()(const Substitution& fact) const {
        QStringList pairs;
        for (std::size_t i = 0; i < fact.count; ++i) {
            pairs << tr("%1 for %2")
                         .arg(Wording::number(fact.pairs[i].in),
                              Wording::number(fact.pairs[i].out));
        }
        return tr("%1: substitution, %2").arg(team(fact.team), pairs.join(QStringLiteral(", ")));
    }
    QString operator()(const ExceptionalSubstitution& fact) const {
        return tr("%1: exceptional substitution, %2 for %3")
            .arg(team(fact.team), Wording::number(fact.in), Wording::number(fact.out));
    }
    QString operator()(const TimeOut& fact) const {
        return tr("%1: time-out").arg(team(fact.team));
    }
    QString operator()(const GameCaptain& fact) const {
        return tr("%1: game captain %2").arg(team(fact.team), Wording::number(fact.player));
    }
    QString operator()(const LiberoUnable& fact) const {
        return tr("%1: libero %2 unable to play")
            .arg(team(fact.team), Wording::number(fact.libero));
    }
    QString operator()(const Redesignation& fact) const {
        return tr("%1: re-designation, %2 for %3")
            .arg(team(fact.team), Wording::number(fact.in), Wording::number(fact.out));
    }
    QString operator()(const Misconduct& fact) const {
        return tr("%1: misconduct, %2, %3")
            .arg(team(fact.team), Wording::sanction(fact.sanction),
                 fact.person.worn() ? Wording::number(fact.person) : tr("bench"));
    }
    QString operator()(const Delay& fact) const {
        return tr("%1: delay, %2").arg(team(fact.team), Wording::sanction(fact.sanction));
    }
    QString operator()(const ImproperRequest& fact) const {
        return tr("%1: improper request").arg(team(fact.team));
    }
    QString operator()(const Injury& fact) const {
        return tr("%1: play stopped for %2").arg(team(fact.team), Wording::number(fact.player));
    }
    QString operator()(const Recovery& fact) const {
        return tr("%1: recovery time for %2").arg(team(fact.team), Wording::number(fact.player));
    }
    QString operator()(const PositionalFault& fact) const {
        return tr("%1: positional fault").arg(team(fact.team));
    }
    QString operator()(const CourtSwitch&) const { return tr("Courts changed"); }
    QString operator()(const Interval&) const { return tr("Interval"); }
    QString operator()(const Interrupted&) const { return tr("Match interrupted"); }
    QString operator()(const Resumed& fact) const {
        switch (fact.how) {
            case Resumed::How::same_court:
                return tr("Match resumed");
            case Resumed::How::other_court:
                return tr("Set played anew on another court");
            case Resumed::How::over_four_hours:
                return tr("Match played anew");
        }
        return {};
    }
    QString operator()(const Ruling& fact) const {
        const QString reason = Wording::word(fact.reason);
        return fact.decision != Ruling::Decision::overrule
                   ? tr("%1: ruling, fault stands: %2").arg(team(fact.team), reason)
                   : tr("%1: ruling, no fault: %2").arg(team(fact.team), reason);
    }
    QString operator()(const Incomplete& fact) const {
        return fact.scope == Incomplete::Scope::set
                   ? tr("%1 incomplete for the set").arg(team(fact.team))
                   : tr("%1 incomplete for the match").arg(team(fact.team));
    }
    QString operator()(const Default& fact) const { return tr("%1: default").arg(team(fact.team)); }
    QString operator()(const Protest& fact) const {
        return tr("%1: protest announced").arg(team(fact.team));
    }
    QString operator()(const ScoreCorrection& fact) const {
        return tr("Score set to %1").arg(tr("%1 : %2").arg(fact.score.a).arg(fact.score.b));
    }
    QString operator()(const Note& fact) const {
        return fact.kind == Note::Kind::signature ? tr("Signature of an unknown function")
                                                  : tr("Remark");
    }
    QString operator()(const Signature& fact) const {
        return tr("Signed by: %1").arg(signer_words(fact.by, names));
    }
};

/// Beside the words of a fact, not among them: a kind without words would pass for a fact there.
struct RecordWords {
    Q_DECLARE_TR_FUNCTIONS(Entry)

  public:
    Words words;

    QString operator()(const Fact& fact) const { return std::visit(words, fact); }
    QString operator()(const Strike& strike) const {
        return tr("Entry %1 struck").arg(strike.target);
    }
    QString operator()(const Insert& insert) const {
        return tr("Inserted after entry %1: %2")
            .arg(insert.after)
            .arg(std::visit(words, insert.fact));
    }
    QString operator()(const Amend& amend) const {
        return tr("Entry %1 now reads: %2").arg(amend.target).arg(std::visit(words, amend.fact));
    }
};

}  // namespace

QString signer_words(Signer signer, const PerTeam<QString>& names) {
    return SignerWords::of(signer, names);
}

QString fact_words(const Fact& fact, const PerTeam<QString>& names) {
    return std::visit(Words{names}, fact);
}

QString record_words(const Record& record, const PerTeam<QString>& names) {
    return std::visit(RecordWords{Words{names}}, record);
}

}  // namespace courthand::client
