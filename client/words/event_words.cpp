#include "event_words.h"

#include <QCoreApplication>
#include <set>
#include <string>
#include <variant>

namespace courthand::client {

namespace {

struct EventWords {
    Q_DECLARE_TR_FUNCTIONS(EventWords)
};

/// Names in one sentence; the others are counted.
constexpr int most_named = 12;
/// Lines of one preview: more than a person reads before acting.
constexpr int most_changes = 16;

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString sentence_begin(QString words) {
    if (!words.isEmpty()) words[0] = words[0].toUpper();
    return words;
}

QString sentence(const QString& from) {
    if (from.isEmpty()) return from;
    QString words = sentence_begin(from);
    return words.endsWith(QLatin1Char('.')) ? words : words + QLatin1Char('.');
}

QString listed(const QStringList& names) {
    if (names.size() <= most_named) return names.join(QStringLiteral(", "));
    return EventWords::tr("%1 and %2 more")
        .arg(names.mid(0, most_named).join(QStringLiteral(", ")))
        .arg(names.size() - most_named);
}

QString listed(const std::vector<std::string>& names) {
    QStringList all;
    for (const auto& name : names) all << text(name);
    return listed(all);
}

QString source_words(const event::Source& source) {
    using Kind = event::Source::Kind;
    switch (source.kind) {
        case Kind::team:
            return text(source.of);
        case Kind::place:
            return EventWords::tr("place %1 of pool %2").arg(source.place).arg(text(source.of));
        case Kind::winner:
            return EventWords::tr("winner of %1").arg(text(source.of));
        case Kind::loser:
            return EventWords::tr("loser of %1").arg(text(source.of));
        case Kind::better:
        case Kind::worse:
            if (source.two.size() != 2) break;
            return (source.kind == Kind::better ? EventWords::tr("better of %1 and %2")
                                                : EventWords::tr("worse of %1 and %2"))
                .arg(source_words(source.two[0]), source_words(source.two[1]));
        case Kind::bye:
            return EventWords::tr("a bye");
        case Kind::none:
            break;
    }
    return EventWords::tr("nobody");
}

QString result_words(event::ResultFrom from) {
    switch (from) {
        case event::ResultFrom::table:
            break;
        case event::ResultFrom::paper:
            return EventWords::tr("Result of %1 from paper: %2");
        case event::ResultFrom::signed_record:
            return EventWords::tr("Result of %1 confirmed by its signatures: %2");
    }
    return EventWords::tr("Result of %1 confirmed: %2");
}

/// A sentence for each kind of fact; a new kind breaks the build.
struct Telling {
    QString operator()(const event::TournamentOpened& fact) const {
        return EventWords::tr("Tournament %1 opened").arg(text(fact.name));
    }
    QString operator()(const event::ConfirmerNamed& fact) const {
        return fact.by == event::Confirmer::signatures
                   ? EventWords::tr("Results are confirmed by signatures at the table")
                   : EventWords::tr("Results are confirmed by the desk");
    }
    QString operator()(const event::DivisionOpened& fact) const {
        return EventWords::tr("Division %1 opened").arg(text(fact.division));
    }
    QString operator()(const event::CourtOpened& fact) const {
        return EventWords::tr("Court %1 opened").arg(fact.court);
    }
    QString operator()(const event::TeamEntered& fact) const {
        if (!fact.last_pool.empty())
            return EventWords::tr("%1 entered in %2, pool %3 of the last event")
                .arg(text(fact.team), text(fact.division), text(fact.last_pool));
        return EventWords::tr("%1 entered in %2").arg(text(fact.team), text(fact.division));
    }
    QString operator()(const event::TeamDescribed& fact) const {
        return EventWords::tr("%1 described anew").arg(text(fact.team));
    }
    QString operator()(const event::TeamWithdrawn& fact) const {
        return EventWords::tr("%1 withdrawn").arg(text(fact.team));
    }
    QString operator()(const event::RosterFrozen& fact) const {
        return EventWords::tr("Team list of %1 frozen").arg(text(fact.team));
    }
    QString operator()(const event::PersonListed& fact) const {
        return EventWords::tr("Person %1 listed").arg(fact.person);
    }
    QString operator()(const event::ConflictDeclared& fact) const {
        return EventWords::tr("Conflict of interest of person %1 with %2 declared")
            .arg(fact.person)
            .arg(text(fact.team));
    }
    QString operator()(const event::CrewFormed& fact) const {
        QStringList persons;
        for (const auto person : fact.persons) persons << QString::number(person);
        return EventWords::tr("Crew %1 formed, persons: %2")
            .arg(text(fact.crew), persons.isEmpty() ? EventWords::tr("nobody") : listed(persons));
    }
    QString operator()(const event::SeedsGiven& fact) const {
        return EventWords::tr("Seeds given in %1: %2").arg(text(fact.division), listed(fact.teams));
    }
    QString operator()(const event::DrawMade& fact) const {
        if (fact.second_leg)
            return EventWords::tr("%1 drawn in %2 pools, each pair to meet twice")
                .arg(text(fact.division))
                .arg(fact.pools);
        return EventWords::tr("%1 drawn in %2 pools").arg(text(fact.division)).arg(fact.pools);
    }
    QString operator()(const event::TeamMoved& fact) const {
        if (fact.with.empty())
            return EventWords::tr("%1 moved to pool %2").arg(text(fact.team), text(fact.pool));
        return EventWords::tr("%1 moved to pool %2, %3 the other way")
            .arg(text(fact.team), text(fact.pool), text(fact.with));
    }
    QString operator()(const event::BracketMade& fact) const {
        return EventWords::tr("Bracket made in %1: %2, matches %3…")
            .arg(text(fact.division), bracket_words(fact.kind), text(fact.prefix));
    }
    QString operator()(const event::MatchAdded& fact) const {
        return EventWords::tr("Match %1 added: %2 – %3")
            .arg(text(fact.match), source_words(fact.first), source_words(fact.second));
    }
    QString operator()(const event::SidesGiven& fact) const {
        return EventWords::tr("Sides of %1 given: %2 – %3")
            .arg(text(fact.match), source_words(fact.first), source_words(fact.second));
    }
    QString operator()(const event::DutyGiven& fact) const {
        QStringList who;
        if (fact.workers.kind != event::Source::Kind::none) who << source_words(fact.workers);
        if (!fact.crew.empty()) who << EventWords::tr("crew %1").arg(text(fact.crew));
        if (fact.first_referee != 0)
            who << EventWords::tr("first referee person %1").arg(fact.first_referee);
        if (fact.second_referee != 0)
            who << EventWords::tr("second referee person %1").arg(fact.second_referee);
        return EventWords::tr("Work at %1: %2")
            .arg(text(fact.match), who.isEmpty() ? EventWords::tr("nobody") : listed(who));
    }
    QString operator()(const event::MatchPlaced& fact) const {
        return EventWords::tr("%1 placed on court %2").arg(text(fact.match)).arg(fact.court);
    }
    QString operator()(const event::MatchMoved& fact) const {
        return EventWords::tr("%1 moved to court %2").arg(text(fact.match)).arg(fact.court);
    }
    QString operator()(const event::MatchUnplaced& fact) const {
        return EventWords::tr("%1 taken off its court").arg(text(fact.match));
    }
    QString operator()(const event::PlanPublished& fact) const {
        return EventWords::tr("Version %1 of the plan published").arg(fact.version);
    }
    QString operator()(const event::RecordOpened& fact) const {
        return EventWords::tr("%1 has a record for its table").arg(text(fact.match));
    }
    QString operator()(const event::ResultConfirmed& fact) const {
        return result_words(fact.from).arg(text(fact.match), set_scores(fact.sets));
    }
    QString operator()(const event::ResultReopened& fact) const {
        return EventWords::tr("Result of %1 reopened").arg(text(fact.match));
    }
    QString operator()(const event::MatchAwarded& fact) const {
        if (fact.team.empty())
            return EventWords::tr("%1: %2").arg(text(fact.match), award_words(fact.how));
        return EventWords::tr("%1: %2, lost by %3")
            .arg(text(fact.match), award_words(fact.how), text(fact.team));
    }
    QString operator()(const event::LateClock& fact) const {
        return EventWords::tr("Clock for lateness of %1 at %2")
            .arg(text(fact.team), text(fact.match));
    }
    QString operator()(const event::DecisionMade& fact) const {
        return EventWords::tr("Pool %1 decided, %2: %3")
            .arg(text(fact.pool), decider_words(fact.by), listed(fact.teams));
    }
    QString operator()(const event::PenaltyCarried& fact) const {
        return EventWords::tr("Penalty of %1 carried to %2").arg(text(fact.team), text(fact.match));
    }
    QString operator()(const event::NoteWritten& fact) const {
        return fact.match.empty() ? EventWords::tr("Note written")
                                  : EventWords::tr("Note to %1 written").arg(text(fact.match));
    }
    QString operator()(const event::TakenBack& fact) const {
        return EventWords::tr("Fact %1 taken back").arg(fact.fact);
    }
};

}  // namespace

QString event_words(const event::Fact& fact) {
    return std::visit(Telling{}, fact);
}

QString fault_words(const tournament::Fault& fault) {
    const QString what =
        fault.place.empty()
            ? sentence(text(fault.message))
            : sentence(EventWords::tr("%1: %2").arg(text(fault.place), text(fault.message)));
    return fault.cure.empty() ? what : what + QLatin1Char(' ') + sentence(text(fault.cure));
}

QString finding_words(const event::Finding& finding) {
    return fault_words(finding.fault);
}

QString change_words(const event::Change& change) {
    const QString of = change.what.empty()
                           ? text(change.of)
                           : EventWords::tr("%1, %2").arg(text(change.of), text(change.what));
    return EventWords::tr("%1: %2 → %3").arg(of, text(change.was), text(change.is));
}

QStringList effect_lines(const event::Effects& effects, const std::vector<event::Change>& changes,
                         const event::TournamentState& state) {
    QStringList lines;
    std::set<std::string> told;
    for (const event::Change& change : changes) {
        told.insert(change.of);
        if (lines.size() < most_changes) lines << change_words(change);
    }
    if (changes.size() > most_changes)
        lines << EventWords::tr("and %1 more").arg(changes.size() - most_changes);
    // A record read anew, or a place that was published: nothing of it is shown old and new.
    QStringList others;
    for (const auto& names : {effects.matches, effects.places})
        for (const std::string& name : names)
            if (!told.contains(name)) others << text(name);
    if (!others.isEmpty()) lines << EventWords::tr("Changes too: %1").arg(listed(others));
    QStringList facts;
    for (const event::FactNumber number : effects.facts)
        if (number > 0 && number <= state.last()) facts << event_words(state.facts[number - 1]);
    if (!facts.isEmpty()) lines << EventWords::tr("Without effect then: %1").arg(listed(facts));
    return lines;
}

QString page_words(const std::vector<std::string>& titles) {
    if (titles.empty()) return {};
    QStringList pages;
    for (const auto& title : titles) pages << text(title);
    // The title of a court may have a comma.
    QString words = pages.mid(0, most_named).join(QStringLiteral("; "));
    if (pages.size() > most_named)
        words = EventWords::tr("%1; and %2 more").arg(words).arg(pages.size() - most_named);
    return EventWords::tr("Pages for everyone, where they are published: %1").arg(words);
}

QString kind_words(const QString& kind) {
    QString words = kind;
    return sentence_begin(words.replace(QLatin1Char('_'), QLatin1Char(' ')));
}

QString award_words(event::Award award) {
    switch (award) {
        case event::Award::default_:
            return EventWords::tr("default");
        case event::Award::forfeit:
            return EventWords::tr("forfeit");
        case event::Award::team_short:
            return EventWords::tr("team incomplete");
        case event::Award::double_default:
            return EventWords::tr("double default");
    }
    return {};
}

QString decider_words(standings::Decider decider) {
    switch (decider) {
        case standings::Decider::lot:
            return EventWords::tr("by lot");
        case standings::Decider::play_off:
            return EventWords::tr("by a play-off");
        case standings::Decider::director:
            return EventWords::tr("by the director");
    }
    return {};
}

QString bracket_words(event::BracketKind kind) {
    switch (kind) {
        case event::BracketKind::single:
            return EventWords::tr("single elimination");
        case event::BracketKind::double_:
            return EventWords::tr("double elimination");
        case event::BracketKind::consolation:
            return EventWords::tr("consolation");
        case event::BracketKind::placement:
            return EventWords::tr("every place is played for");
    }
    return {};
}

QString set_scores(const std::vector<event::SetScore>& sets) {
    QStringList all;
    for (const event::SetScore set : sets)
        all << QStringLiteral("%1-%2").arg(set.first).arg(set.second);
    return all.join(QLatin1Char(' '));
}

}  // namespace courthand::client
