#include "officials/official_rows.h"

#include <QCoreApplication>
#include <QStringList>
#include <map>

#include "courthand/event/duty.h"
#include "officials/left_words.h"
#include "officials/person_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

struct Officials {
    Q_DECLARE_TR_FUNCTIONS(Officials)
};

using event::TournamentState;

/// Matches in a row; the others are counted.
constexpr int most_named = 6;

QString listed(const QStringList& names) {
    if (names.size() <= most_named) return names.join(QStringLiteral(", "));
    return Officials::tr("%1 and %2 more")
        .arg(names.mid(0, most_named).join(QStringLiteral(", ")))
        .arg(names.size() - most_named);
}

/// Who works which matches.
struct Work {
    std::map<std::uint16_t, QStringList> persons;
    std::map<std::string, QStringList> crews;
};

Work work_of(const TournamentState& state) {
    Work work;
    for (const auto& [name, ref] : state.match_names) {
        const event::Duty& duty = state.match(ref).duty;
        if (!duty.crew.empty()) work.crews[duty.crew] << text(name);
        for (const std::uint16_t person : event::persons_of(state, duty))
            if (!work.persons[person].contains(text(name))) work.persons[person] << text(name);
    }
    return work;
}

QVariantMap row(const QString& key, const QString& title, const QStringList& about,
                const QStringList& matches, const MarkedWord& word) {
    QStringList parts = about;
    parts.removeAll(QString());
    return {{QStringLiteral("key"), key},
            {QStringLiteral("name"), title.left(1).toUpper() + title.mid(1)},
            {QStringLiteral("about"), parts.join(QStringLiteral(" · "))},
            {QStringLiteral("work"),
             matches.isEmpty() ? QString() : Officials::tr("works %1").arg(listed(matches))},
            {QStringLiteral("mark"), static_cast<int>(word.mark)},
            {QStringLiteral("state"), word.word}};
}

QVariantMap person_row(const venue::EventBook& book, std::uint16_t number,
                       const event::Person& person, const Work& work, int clashes) {
    const TournamentState& state = *book.state;
    QStringList conflicts;
    for (const auto& interest : event::interests(state, person))
        conflicts << interest_words(state, interest);
    MarkedWord word{Mark::quiet, {}};
    if (clashes > 0)
        word = {Mark::caution,
                clashes == 1 ? Officials::tr("1 clash") : Officials::tr("%1 clashes").arg(clashes)};
    else if (!conflicts.isEmpty())
        word = {Mark::notice, conflicts.size() == 1
                                  ? Officials::tr("1 conflict")
                                  : Officials::tr("%1 conflicts").arg(conflicts.size())};
    const auto matches = work.persons.find(number);
    return row(QStringLiteral("person|%1").arg(number), person_words(book, number),
               {role_words(person.role), listed(conflicts)},
               matches == work.persons.end() ? QStringList() : matches->second, word);
}

}  // namespace

std::vector<QVariantMap> official_rows(const venue::EventBook& book) {
    const TournamentState& state = *book.state;
    const Work work = work_of(state);
    std::map<std::uint16_t, int> clashes;
    for (const auto& one : event::clashes(state)) ++clashes[one.clash.person];
    std::vector<QVariantMap> rows;
    for (const auto& [name, persons] : state.crews) {
        QStringList members;
        for (const std::uint16_t person : persons) members << person_words(book, person);
        const auto matches = work.crews.find(name);
        rows.push_back(row(QStringLiteral("crew|") + text(name),
                           Officials::tr("Crew %1").arg(text(name)), {listed(members)},
                           matches == work.crews.end() ? QStringList() : matches->second, {}));
    }
    for (const auto& [number, person] : state.persons)
        if (person.role == event::Role::official || person.role == event::Role::worker)
            rows.push_back(person_row(book, number, person, work, clashes[number]));
    // Whoever is off the list and still in words: they can be erased.
    for (const auto& [number, name] : persons_in_words(book))
        if (!state.persons.contains(number))
            rows.push_back(row(QStringLiteral("left|%1").arg(number),
                               name.isEmpty() ? Officials::tr("person %1").arg(number)
                                              : Officials::tr("%1 (%2)").arg(name).arg(number),
                               {Officials::tr("off the list, still in words: touch to erase them")},
                               {}, {Mark::quiet, Officials::tr("off the list")}));
    return rows;
}

}  // namespace courthand::seats
