#include "officials/person_words.h"

#include <QCoreApplication>
#include <algorithm>

#include "courthand/event/advance.h"
#include "courthand/event/plan_clash.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

struct Officials {
    Q_DECLARE_TR_FUNCTIONS(Officials)
};

/// The team that works, or where it comes from; empty: nobody.
QString workers_words(const event::TournamentState& state, event::MatchRef match) {
    const auto source = event::workers_of(state, match);
    if (!source) return {};
    const event::Side side = state.divisions[match.division].settled[*source];
    return text(side.is_team() ? state.teams[side.team].name
                               : event::source_words(state, match.division, *source));
}

}  // namespace

QString role_words(event::Role role) {
    switch (role) {
        case event::Role::player:
            return Officials::tr("player");
        case event::Role::coach:
            return Officials::tr("coach");
        case event::Role::official:
            return Officials::tr("official");
        case event::Role::worker:
            return Officials::tr("worker");
    }
    return {};
}

QString numbered_words(const event::TournamentState& state, std::uint16_t number) {
    const auto person = state.persons.find(number);
    if (person == state.persons.end()) return Officials::tr("person %1").arg(number);
    return Officials::tr("%1 %2", "role, number").arg(role_words(person->second.role)).arg(number);
}

QString person_words(const venue::EventBook& book, std::uint16_t number) {
    const auto person = book.state->persons.find(number);
    const auto name = person == book.state->persons.end() ? book.words->end()
                                                          : book.words->find(person->second.listed);
    return name == book.words->end()
               ? numbered_words(*book.state, number)
               : Officials::tr("%1 (%2)", "name, number").arg(text(name->second)).arg(number);
}

QString interest_words(const event::TournamentState& state, const event::Interest& interest) {
    const QString team = text(state.teams[interest.team].name);
    switch (interest.kind) {
        case event::Interest::Kind::declared:
            return Officials::tr("declared: %1").arg(team);
        case event::Interest::Kind::own_team:
            return Officials::tr("own team: %1").arg(team);
        case event::Interest::Kind::own_club:
            return Officials::tr("own club: %1").arg(team);
    }
    return {};
}

QString clash_words(const venue::EventBook& book, const event::TournamentState& state,
                    const event::Clash& clash) {
    const QString who =
        clash.person != 0 ? person_words(book, clash.person) : text(state.teams[clash.team].name);
    return Officials::tr("%1 %2", "who, what speaks against it")
        .arg(who, text(event::objection_words(state, clash)));
}

QStringList place_clash_words(const venue::EventBook& book, const event::TournamentState& before,
                              const event::TournamentState& after, const std::string& match) {
    QStringList lines;
    const auto ref = after.find_match(match);
    if (!ref) return lines;
    for (const event::PlanClash& clash : event::plan_clashes(after, *ref))
        lines << Officials::tr("Clash: %1").arg(text(event::in_words(after, *ref, clash)));
    for (const event::Clash& clash : event::clashes(after, *ref))
        lines << Officials::tr("Clash: %1").arg(clash_words(book, after, clash));
    const auto had = event::clashes(before);
    for (const event::MatchClash& one : event::clashes(after))
        if (one.match != *ref && std::find(had.begin(), had.end(), one) == had.end())
            lines << Officials::tr("Clash: %1: %2",
                                   "the match whose duty it is, what speaks against it")
                         .arg(text(after.node(one.match).name),
                              clash_words(book, after, one.clash));
    return lines;
}

QString duty_words(const event::TournamentState& state, event::MatchRef match) {
    const event::Duty& duty = state.match(match).duty;
    QStringList parts;
    if (const QString workers = workers_words(state, match); !workers.isEmpty())
        parts << Officials::tr("work: %1").arg(workers);
    if (!duty.crew.empty()) parts << Officials::tr("crew %1").arg(text(duty.crew));
    QStringList referees;
    for (const std::uint16_t referee : {duty.first_referee, duty.second_referee})
        if (referee != 0) referees << QString::number(referee);
    if (!referees.isEmpty())
        parts << (referees.size() == 1
                      ? Officials::tr("referee %1").arg(referees.first())
                      : Officials::tr("referees %1").arg(referees.join(QStringLiteral(", "))));
    return parts.join(QStringLiteral(" · "));
}

QStringList duty_lines(const venue::EventBook& book, event::MatchRef match) {
    const event::TournamentState& state = *book.state;
    const event::Duty& duty = state.match(match).duty;
    QStringList lines;
    if (const QString workers = workers_words(state, match); !workers.isEmpty())
        lines << (duty.fact != 0 ? Officials::tr("Work team: %1").arg(workers)
                                 : Officials::tr("Work team by the pool’s order: %1").arg(workers));
    if (duty.first_referee != 0)
        lines << Officials::tr("First referee: %1").arg(person_words(book, duty.first_referee));
    if (duty.second_referee != 0)
        lines << Officials::tr("Second referee: %1").arg(person_words(book, duty.second_referee));
    const auto crew = state.crews.find(duty.crew);
    if (crew == state.crews.end()) return lines;
    QStringList persons;
    for (const std::uint16_t person : crew->second) persons << person_words(book, person);
    lines << Officials::tr("Crew %1: %2").arg(text(duty.crew), persons.join(QStringLiteral(", ")));
    return lines;
}

}  // namespace courthand::seats
