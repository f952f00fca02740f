#include "officials/official_page.h"

#include <algorithm>
#include <map>
#include <utility>
#include <variant>

#include "choice_words.h"
#include "courthand/event/duty.h"
#include "courthand/event/fold.h"
#include "courthand/event/limits.h"
#include "offers.h"
#include "officials/left_words.h"
#include "officials/official_rows.h"
#include "officials/person_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

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
    const auto found = book_.state->crews.find(crew_.toStdString());
    if (found != book_.state->crews.end()) last_ = found->second;
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

bool OfficialPage::inWords() const {
    return known() != nullptr &&
           persons_in_words(book_).contains(static_cast<std::uint16_t>(person_));
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

QVariantList OfficialPage::teamsLike(const QString& typed, const QString& chosen, bool none) const {
    Offers offers{typed, chosen};
    if (none) offers.offer_always({}, tr("no team"));
    for (const event::Team& team : book_.state->teams)
        if (const QString name = text(team.name); !team.withdrawn || name == chosen)
            offers.offer(name, name);
    return offers.all();
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
        // What speaks against a match already is told elsewhere, and not by this act.
        const auto before = event::clashes(state);
        for (const auto& one : event::clashes(after))
            if (one.clash.person == person &&
                std::find(before.begin(), before.end(), one) == before.end())
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
    // The number of somebody who was taken off stands on papers and beside words about that person:
    // it is given again only when there is no other.
    const auto given = numbers_given(*book_.state);
    std::uint16_t number = 1;
    while (given.contains(number)) ++number;
    if (number <= event::most_persons) return number;
    number = 1;
    while (book_.state->persons.contains(number)) ++number;
    return number;
}

void OfficialPage::list(const QString& role, const QString& team, const QString& name) {
    const auto chosen = choice_of<event::Role>(role);
    if (!chosen) return;
    event::PersonListed fact;
    fact.role = *chosen;
    fact.team = team.toStdString();
    const auto facts = [this, fact]() mutable -> std::vector<event::Fact> {
        fact.person = next_number();
        if (fact.person > event::most_persons) return {};
        return {fact};
    };
    const QString full = tr("The event has %1 persons already: take somebody off the list.")
                             .arg(event::most_persons);
    auto now = ActWish::Facts(facts);
    auto first = now();
    if (first.empty()) return complain(full);
    complain({});
    preview_.ask({tr("List a new %1").arg(role_words(*chosen)),
                  tr("The new %1 is listed.").arg(role_words(*chosen)),
                  {},
                  std::move(first),
                  name,
                  std::move(now),
                  tr("The number has been given to somebody else: the next one is free."),
                  full});
}

void OfficialPage::takeOff() {
    if (known() == nullptr) return;
    const auto number = static_cast<std::uint16_t>(person_);
    // Listed more than once, an older listing would count again.
    const ActWish::Facts facts = [this, number] {
        std::vector<event::Fact> back;
        for (const auto fact : listings(*book_.state, number))
            back.emplace_back(event::TakenBack{fact});
        return back;
    };
    const auto note = [this, number](const auto&) {
        if (!persons_in_words(book_).contains(number)) return QStringList();
        return QStringList{
            tr("What was written about this person stays beside the record until "
               "it is erased: the page of officials keeps a line for that.")};
    };
    preview_.ask({tr("Take %1 off the list").arg(title()),
                  tr("The person is off the list."),
                  note,
                  facts(),
                  {},
                  facts,
                  tr("The person has been listed otherwise meanwhile."),
                  tr("The person is off the list already.")});
}

QVariantMap OfficialPage::inWordsOf(int person) const {
    const auto number = static_cast<std::uint16_t>(person);
    const auto all = persons_in_words(book_);
    const auto found = all.find(number);
    const bool named = found != all.end() && !found->second.isEmpty();
    return {{QStringLiteral("person"), person},
            {QStringLiteral("name"), named ? found->second : tr("Person %1").arg(person)}};
}

void OfficialPage::lookAtCrew(const QString& name) {
    const auto found = book_.state->crews.find(name.toStdString());
    const bool there = found != book_.state->crews.end();
    crew_ = there ? name : QString();
    last_ = there ? found->second : CrewChange::Persons{};
    change_ = {};
    complain({});
    Q_EMIT looked();
}

QVariantList OfficialPage::members() const {
    // In the order of their numbers, and never fewer while somebody chooses.
    std::map<std::uint16_t, QString> all;
    for (const auto& [number, person] : book_.state->persons)
        if (works_here(person) || change_.touches(number))
            all.emplace(number, person_words(book_, number));
    const CrewChange::Persons now = crew_now();
    for (const auto& persons : {now, change_.of(now)})
        for (const std::uint16_t number : persons)
            all.emplace(number, book_.state->persons.contains(number)
                                    ? person_words(book_, number)
                                    : tr("person %1, off the list").arg(number));
    QVariantList pairs;
    for (const auto& [number, words] : all) pairs << QVariant(QVariantList{int{number}, words});
    return pairs;
}

QVariantList OfficialPage::chosen() const {
    QVariantList numbers;
    for (const std::uint16_t number : change_.of(crew_now())) numbers << int{number};
    return numbers;
}

const CrewChange::Persons& OfficialPage::crew_now() const {
    // A crew with somebody taken off the list is none for the record: it is mended from here.
    const auto found = book_.state->crews.find(crew_.toStdString());
    return found == book_.state->crews.end() ? last_ : found->second;
}

void OfficialPage::toggle(int person) {
    change_.toggle(crew_now(), static_cast<std::uint16_t>(person));
    complain({});
    Q_EMIT looked();
}

ActWish::Notes OfficialPage::clashes_of_crew(const ActWish::Facts& facts) const {
    return [this, facts](const event::TournamentState& state) {
        QStringList lines;
        event::TournamentState after = state;
        for (const auto& fact : facts()) {
            event::fold_in(after, fact);
            for (const auto& one : event::clashes(after))
                if (after.match(one.match).duty.crew == std::get<event::CrewFormed>(fact).crew &&
                    one.clash.person != 0)
                    lines << tr("Clash in %1: %2")
                                 .arg(text(after.node(one.match).name),
                                      clash_words(book_, after, one.clash));
        }
        return lines;
    };
}

void OfficialPage::form(const QString& name) {
    const bool is_new = crew_.isEmpty();
    const QString wanted = is_new ? name.trimmed() : crew_;
    if (wanted.isEmpty()) return complain(tr("Give the crew a name."));
    if (wanted.toUtf8().size() > static_cast<int>(event::most_name_bytes))
        return complain(tr("The name is too long: %1 bytes at most.").arg(event::most_name_bytes));
    const QString taken = tr("There is a crew %1 already: open it in the list.").arg(wanted);
    if (is_new && book_.state->crews.contains(wanted.toStdString())) return complain(taken);
    if (change_.of(crew_now()).size() > event::most_in_crew)
        return complain(tr("A crew has at most %1 persons.").arg(event::most_in_crew));
    complain({});
    // The change is kept, and done to the crew that the record has by then.
    const ActWish::Facts facts = [this, is_new, crew = wanted.toStdString(), change = change_,
                                  last = crew_now()]() -> std::vector<event::Fact> {
        const auto found = book_.state->crews.find(crew);
        const bool there = found != book_.state->crews.end();
        if (is_new && there) return {};
        return {event::CrewFormed{crew, change.of(there ? found->second : last)}};
    };
    preview_.ask({tr("Crew %1").arg(wanted),
                  tr("The crew %1 is kept.").arg(wanted),
                  clashes_of_crew(facts),
                  facts(),
                  {},
                  facts,
                  is_new ? taken
                         : tr("The crew has been changed meanwhile: what you chose is done to it "
                              "as it is now."),
                  taken});
}

}  // namespace courthand::seats
