#include "entries/team_people.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "courthand/event/about.h"
#include "courthand/event/limits.h"
#include "officials/person_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

using Numbers = std::vector<std::uint8_t>;

QString listed(const Numbers& numbers) {
    QStringList parts;
    for (const std::uint8_t number : numbers) parts << QString::number(number);
    return parts.join(QLatin1Char(' '));
}

/// Those of the first that are not in the second; both in order.
QString without(const Numbers& of, const Numbers& these) {
    Numbers left;
    std::set_difference(of.begin(), of.end(), these.begin(), these.end(), std::back_inserter(left));
    return listed(left);
}

Numbers in_order(Numbers numbers) {
    std::sort(numbers.begin(), numbers.end());
    return numbers;
}

}  // namespace

TeamPeople::TeamPeople(venue::EventSource& source, const venue::EventBook& book,
                       const venue::DeskBook& desk, ActPreview& preview, QObject* parent)
    : QObject(parent), source_(source), book_(book), desk_(desk), preview_(preview) {}

const event::Team* TeamPeople::team() const {
    const auto index = team_.isEmpty() ? std::nullopt : book_.state->find_team(team_.toStdString());
    return index ? &book_.state->teams[*index] : nullptr;
}

Numbers TeamPeople::numbers() const {
    Numbers numbers;
    for (const auto& listed : desk_.teams)
        if (text(listed.name) == team_)
            for (const auto& player : listed.players)
                numbers.push_back(static_cast<std::uint8_t>(player.number));
    return in_order(std::move(numbers));
}

QString TeamPeople::list() const {
    const Numbers now = numbers();
    if (now.empty()) return tr("No team list. Import one on the page “Import”.");
    return now.size() == 1 ? tr("1 player: %1").arg(listed(now))
                           : tr("%1 players: %2").arg(now.size()).arg(listed(now));
}

bool TeamPeople::frozen() const {
    const auto* const known = team();
    return known != nullptr && known->roster_frozen != 0;
}

QString TeamPeople::frozenWords() const {
    if (!frozen()) return tr("Not frozen. From then on a change needs a reason.");
    const event::Team& known = *team();
    const auto why = book_.words->find(known.roster_frozen);
    const QString numbers = tr("Frozen: %1").arg(listed(in_order(known.roster)));
    return why == book_.words->end()
               ? numbers
               : tr("%1. Changed because: %2").arg(numbers, text(why->second));
}

QString TeamPeople::difference() const {
    if (!frozen() || !mayFreeze()) return {};
    const Numbers then = in_order(team()->roster);
    const Numbers now = numbers();
    QStringList parts;
    if (const QString in = without(now, then); !in.isEmpty()) parts << tr("in: %1").arg(in);
    if (const QString out = without(then, now); !out.isEmpty()) parts << tr("out: %1").arg(out);
    return tr("The list has changed since: %1").arg(parts.join(QStringLiteral(" · ")));
}

bool TeamPeople::mayFreeze() const {
    const auto* const known = team();
    if (known == nullptr) return false;
    const Numbers now = numbers();
    return !now.empty() && (known->roster_frozen == 0 || now != in_order(known->roster));
}

QVariantList TeamPeople::named() const {
    QVariantList rows;
    const auto* const known = team();
    if (known == nullptr) return rows;
    for (const auto& [number, person] : book_.state->persons) {
        if (person.team == event::no_team || &book_.state->teams[person.team] != known) continue;
        const auto name = book_.words->find(person.listed);
        if (name == book_.words->end()) continue;
        const QString role =
            person.jersey.worn()
                ? tr("%1 %2").arg(role_words(person.role)).arg(person.jersey.number())
                : role_words(person.role);
        rows << QVariantMap{{QStringLiteral("person"), number},
                            {QStringLiteral("name"), text(name->second)},
                            {QStringLiteral("about"), role}};
    }
    return rows;
}

void TeamPeople::complain(const QString& problem) {
    problem_ = problem;
    Q_EMIT changed();
}

void TeamPeople::forgetProblem() {
    complain({});
}

void TeamPeople::look(const QString& team) {
    team_ = team;
    complain({});
}

void TeamPeople::freeze() {
    if (!mayFreeze()) return;
    const Numbers now = numbers();
    if (now.size() > event::most_on_roster)
        return complain(tr("The list has %1 players: a team plays with at most %2. Import a "
                           "shorter list.")
                            .arg(now.size())
                            .arg(event::most_on_roster));
    const bool again = frozen();
    complain({});
    preview_.ask({again ? tr("Change the frozen list of %1").arg(team_)
                        : tr("Freeze the list of %1").arg(team_),
                  tr("The list of %1 is frozen.").arg(team_),
                  [note = again ? difference() : list()](const auto&) { return QStringList{note}; },
                  {event::RosterFrozen{team_.toStdString(), now}}});
}

std::vector<event::FactNumber> TeamPeople::words_about(int person) const {
    auto numbers = event::facts_about(book_.state->facts, static_cast<std::uint16_t>(person));
    std::erase_if(numbers,
                  [&](event::FactNumber number) { return !book_.words->contains(number); });
    return numbers;
}

void TeamPeople::eraseName(int person) {
    if (busy_ || person <= 0) return;
    const auto facts = words_about(person);
    if (facts.empty()) return complain(tr("Nothing is kept in words about this person any more."));
    busy_ = true;
    complain({});
    source_.erase_words(facts, [this, to = post_.to()](const venue::Outcome& outcome) {
        to.call([this, outcome] { end(outcome); });
    });
}

void TeamPeople::end(const venue::Outcome& outcome) {
    busy_ = false;
    complain(text(outcome.problem));
    if (outcome.done) Q_EMIT told(tr("The name is erased."));
}

}  // namespace courthand::seats
