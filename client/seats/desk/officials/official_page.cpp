#include "officials/official_page.h"

#include <algorithm>
#include <utility>

#include "choice_words.h"
#include "courthand/event/duty.h"
#include "courthand/event/fold.h"
#include "courthand/event/limits.h"
#include "officials/official_rows.h"
#include "officials/person_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

/// Teams to choose from at once: two lines of buttons.
constexpr int most_offered = 8;

bool works_here(const event::Person& person) {
    return person.role == event::Role::official || person.role == event::Role::worker;
}

}  // namespace

OfficialPage::OfficialPage(const venue::EventBook& book, ActPreview& preview, QObject* parent)
    : QObject(parent),
      book_(book),
      preview_(preview),
      rows_({QStringLiteral("key"), QStringLiteral("name"), QStringLiteral("about"),
             QStringLiteral("work"), QStringLiteral("mark"), QStringLiteral("state")}) {}

void OfficialPage::show() {
    rows_.show(official_rows(book_));
    Q_EMIT looked();
}

const event::Person* OfficialPage::known() const {
    const auto found = book_.state->persons.find(static_cast<std::uint16_t>(person_));
    return person_ <= 0 || found == book_.state->persons.end() ? nullptr : &found->second;
}

QString OfficialPage::title() const {
    if (known() == nullptr) return {};
    const QString words = person_words(book_, static_cast<std::uint16_t>(person_));
    return words.left(1).toUpper() + words.mid(1);
}

QString OfficialPage::about() const {
    const auto* const person = known();
    if (person == nullptr) return {};
    QStringList parts{role_words(person->role)};
    if (person->team != event::no_team) parts << text(book_.state->teams[person->team].name);
    const QString work =
        rows_.field(rows_.rowOf(QStringLiteral("person|%1").arg(person_)), QStringLiteral("work"))
            .toString();
    if (!work.isEmpty()) parts << work;
    return parts.join(QStringLiteral(" · "));
}

QString OfficialPage::name() const {
    const auto* const person = known();
    if (person == nullptr) return {};
    const auto found = book_.words->find(person->listed);
    return found == book_.words->end() ? QString() : text(found->second);
}

QVariantList OfficialPage::conflicts() const {
    QVariantList rows;
    const auto* const person = known();
    if (person == nullptr) return rows;
    for (const auto& interest : event::interests(*book_.state, *person))
        rows << QVariantMap{
            {QStringLiteral("team"), text(book_.state->teams[interest.team].name)},
            {QStringLiteral("words"), interest_words(*book_.state, interest)},
            {QStringLiteral("declared"), interest.kind == event::Interest::Kind::declared}};
    return rows;
}

bool OfficialPage::look(int person) {
    person_ = person;
    if (known() == nullptr) person_ = 0;
    complain({});
    Q_EMIT looked();
    return person_ != 0;
}

QVariantList OfficialPage::teamsLike(const QString& typed, const QString& chosen) const {
    QVariantList found;
    const auto add = [&](const QString& name) { found << QVariant(QVariantList{name, name}); };
    if (!chosen.isEmpty()) add(chosen);
    for (const event::Team& team : book_.state->teams) {
        if (found.size() >= most_offered) break;
        const QString name = text(team.name);
        if (name != chosen && !team.withdrawn &&
            name.contains(typed.trimmed(), Qt::CaseInsensitive))
            add(name);
    }
    return found;
}

void OfficialPage::complain(const QString& problem) {
    problem_ = problem;
    Q_EMIT problemChanged();
}

ActWish::Notes OfficialPage::clashes_after(std::vector<event::Fact> facts) const {
    return [this, facts = std::move(facts),
            person = static_cast<std::uint16_t>(person_)](const event::TournamentState& state) {
        event::TournamentState after = state;
        for (const auto& fact : facts) event::fold_in(after, fact);
        QStringList lines;
        for (const auto& one : event::clashes(after))
            if (one.clash.person == person)
                lines << tr("Clash in %1: %2")
                             .arg(text(after.node(one.match).name),
                                  clash_words(book_, after, one.clash));
        return lines;
    };
}

void OfficialPage::declare(const QString& team, const QString& why) {
    if (known() == nullptr) return;
    if (team.isEmpty()) return complain(tr("Choose the team."));
    complain({});
    const event::Fact fact =
        event::ConflictDeclared{static_cast<std::uint16_t>(person_), team.toStdString()};
    preview_.ask({tr("Conflict of interest: %1, %2").arg(title(), team),
                  tr("The conflict of interest is declared."),
                  clashes_after({fact}),
                  {fact},
                  why});
}

void OfficialPage::withdraw(const QString& team) {
    const auto index = book_.state->find_team(team.toStdString());
    if (known() == nullptr || !index) return;
    std::vector<event::Fact> facts;
    for (const auto number :
         event::declarations(*book_.state, static_cast<std::uint16_t>(person_), *index))
        facts.emplace_back(event::TakenBack{number});
    const auto note = [line = tr("%1 may work matches of %2 again.").arg(title(), team)](
                          const auto&) { return QStringList{line}; };
    if (!facts.empty())
        preview_.ask({tr("Take the conflict back: %1, %2").arg(title(), team),
                      tr("The conflict of interest is taken back."),
                      note,
                      std::move(facts),
                      {}});
}

std::uint16_t OfficialPage::next_number() const {
    std::uint16_t number = 1;
    while (book_.state->persons.contains(number)) ++number;
    return number;
}

void OfficialPage::list(const QString& role, const QString& team, const QString& name) {
    const auto chosen = choice_of<event::Role>(role);
    if (!chosen) return;
    event::PersonListed fact;
    fact.person = next_number();
    fact.role = *chosen;
    fact.team = team.toStdString();
    if (fact.person > event::most_persons)
        return complain(tr("The event has %1 persons already: take somebody off the list.")
                            .arg(event::most_persons));
    complain({});
    preview_.ask({tr("List %1 %2").arg(role_words(*chosen)).arg(fact.person),
                  tr("%1 %2 is listed.").arg(role_words(*chosen)).arg(fact.person),
                  {},
                  {fact},
                  name});
}

void OfficialPage::takeOff() {
    const auto* const person = known();
    if (person == nullptr) return;
    preview_.ask({tr("Take %1 off the list").arg(title()),
                  tr("The person is off the list."),
                  {},
                  {event::TakenBack{person->listed}},
                  {}});
}

void OfficialPage::lookAtCrew(const QString& name) {
    const auto found = book_.state->crews.find(name.toStdString());
    crew_ = found == book_.state->crews.end() ? QString() : name;
    chosen_ = found == book_.state->crews.end() ? std::vector<std::uint16_t>{} : found->second;
    complain({});
    Q_EMIT looked();
}

QVariantList OfficialPage::members() const {
    QVariantList rows;
    for (const auto& [number, person] : book_.state->persons) {
        const bool in = std::find(chosen_.begin(), chosen_.end(), number) != chosen_.end();
        if (in || works_here(person))
            rows << QVariantMap{{QStringLiteral("person"), number},
                                {QStringLiteral("words"), person_words(book_, number)},
                                {QStringLiteral("chosen"), in}};
    }
    return rows;
}

void OfficialPage::toggle(int person) {
    const auto number = static_cast<std::uint16_t>(person);
    const auto at = std::find(chosen_.begin(), chosen_.end(), number);
    if (at != chosen_.end())
        chosen_.erase(at);
    else
        chosen_.push_back(number);
    complain({});
    Q_EMIT looked();
}

void OfficialPage::form(const QString& name) {
    const QString wanted = crew_.isEmpty() ? name.trimmed() : crew_;
    if (wanted.isEmpty()) return complain(tr("Give the crew a name."));
    if (wanted.toUtf8().size() > static_cast<int>(event::most_name_bytes))
        return complain(tr("The name is too long: %1 bytes at most.").arg(event::most_name_bytes));
    if (crew_.isEmpty() && book_.state->crews.contains(wanted.toStdString()))
        return complain(tr("There is a crew %1 already: open it in the list.").arg(wanted));
    if (chosen_.size() > event::most_in_crew)
        return complain(tr("A crew has at most %1 persons.").arg(event::most_in_crew));
    complain({});
    event::CrewFormed fact{wanted.toStdString(), chosen_};
    const auto clashes = [this, fact](const event::TournamentState& state) {
        event::TournamentState after = state;
        event::fold_in(after, fact);
        QStringList lines;
        for (const auto& one : event::clashes(after))
            if (after.match(one.match).duty.crew == fact.crew && one.clash.person != 0)
                lines << tr("Clash in %1: %2")
                             .arg(text(after.node(one.match).name),
                                  clash_words(book_, after, one.clash));
        return lines;
    };
    preview_.ask(
        {tr("Crew %1").arg(wanted), tr("The crew %1 is kept.").arg(wanted), clashes, {fact}, {}});
}

}  // namespace courthand::seats
