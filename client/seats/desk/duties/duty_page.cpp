#include "duties/duty_page.h"

#include <utility>
#include <variant>
#include <vector>

#include "courthand/event/advance.h"
#include "courthand/event/duty.h"
#include "courthand/event/fold.h"
#include "offers.h"
#include "officials/person_words.h"
#include "results/result_rows.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

/// Clashes in sight beside the choice. All of them are told before anything is recorded.
constexpr qsizetype most_clashes = 4;

using Kind = event::Source::Kind;

constexpr QLatin1String winner_of{"winner "};
constexpr QLatin1String loser_of{"loser "};
/// A source that the record has and this sheet does not offer, such as a place of a pool.
constexpr QLatin1String as_it_is{"="};

/// A source as the sheet writes it: the name of a team, "winner A1", "loser A1"; empty: nobody.
QString written(const event::Source& source) {
    if (source.kind == Kind::none) return {};
    if (source.kind == Kind::team) return text(source.of);
    if (source.kind == Kind::winner) return winner_of + text(source.of);
    if (source.kind == Kind::loser) return loser_of + text(source.of);
    return as_it_is;
}

/// A team is found before a match: no team can be called "loser A1" by chance and be missed.
event::Source read(const event::TournamentState& state, const QString& value) {
    event::Source source;
    if (value.isEmpty()) return source;
    source.kind = Kind::team;
    source.of = value.toStdString();
    if (state.find_team(source.of)) return source;
    for (const auto& [kind, word] : {std::pair{Kind::winner, winner_of}, {Kind::loser, loser_of}})
        if (value.startsWith(word)) {
            source.kind = kind;
            source.of = value.mid(word.size()).toStdString();
        }
    return source;
}

}  // namespace

DutyPage::DutyPage(const venue::EventBook& book, ActPreview& preview, QObject* parent)
    : QObject(parent), book_(book), preview_(preview) {}

std::optional<event::MatchRef> DutyPage::ref() const {
    return match_.isEmpty() ? std::nullopt : book_.state->find_match(match_.toStdString());
}

QString DutyPage::title() const {
    return tr("Who works %1").arg(match_);
}

QString DutyPage::about() const {
    const auto found = ref();
    if (!found) return tr("This match is not there any more.");
    const QString teams =
        tr("%1 – %2").arg(side_words(*book_.state, *found, 0), side_words(*book_.state, *found, 1));
    const QString place = place_of_match(*book_.state, *found);
    return place.isEmpty() ? teams : tr("%1 · %2").arg(teams, place);
}

QStringList DutyPage::now() const {
    const auto found = ref();
    if (!found) return {};
    const QStringList lines = duty_lines(book_, *found);
    return lines.isEmpty() ? QStringList{tr("Nobody yet.")} : lines;
}

QString DutyPage::workers() const {
    return written(wanted_.workers);
}

event::DutyGiven DutyPage::recorded(event::MatchRef match) const {
    const event::TournamentState& state = *book_.state;
    const event::Duty& duty = state.match(match).duty;
    event::DutyGiven fact{state.node(match).name, duty.workers, duty.crew, duty.first_referee,
                          duty.second_referee};
    // By the pool's order of play: said, it stays that team.
    const auto source = event::workers_of(state, match);
    if (duty.fact == 0 && source) {
        const event::Side side = state.divisions[match.division].settled[*source];
        if (side.is_team()) fact.workers = {Kind::team, state.teams[side.team].name, 0, {}};
    }
    return fact;
}

event::DutyGiven DutyPage::with(const Chosen& chosen, event::MatchRef match) const {
    event::DutyGiven fact = recorded(match);
    if (chosen.workers) fact.workers = *chosen.workers;
    if (chosen.crew) fact.crew = *chosen.crew;
    if (chosen.first_referee) fact.first_referee = *chosen.first_referee;
    if (chosen.second_referee) fact.second_referee = *chosen.second_referee;
    return fact;
}

bool DutyPage::differs() const {
    const auto found = ref();
    return found && !(recorded(*found) == wanted_);
}

bool DutyPage::look(const QString& match) {
    match_ = match;
    const auto found = ref();
    if (!found) match_.clear();
    chosen_ = {};
    reckon();
    return found.has_value();
}

void DutyPage::show() {
    if (!match_.isEmpty()) reckon();
}

void DutyPage::reckon() {
    const auto found = ref();
    wanted_ = found ? with(chosen_, *found) : event::DutyGiven{};
    clashes_ = found ? clashes_with(*book_.state, wanted_) : QStringList();
    Q_EMIT changed();
}

QStringList DutyPage::clashes() const {
    if (clashes_.size() <= most_clashes) return clashes_;
    return clashes_.mid(0, most_clashes - 1)
           << tr("and %1 more clashes, told before it is recorded")
                  .arg(clashes_.size() - most_clashes + 1);
}

QStringList DutyPage::clashes_with(const event::TournamentState& state,
                                   const event::DutyGiven& fact) const {
    event::TournamentState after = state;
    event::fold_in(after, fact);
    QStringList lines;
    const auto match = after.find_match(fact.match);
    if (!match) return lines;
    for (const auto& clash : event::clashes(after, *match))
        lines << tr("Clash: %1").arg(clash_words(book_, after, clash));
    return lines;
}

QVariantList DutyPage::workersLike(const QString& typed) const {
    const event::TournamentState& state = *book_.state;
    Offers offers{typed, workers()};
    offers.offer_always({}, tr("nobody"));
    const auto found = ref();
    if (!found) return offers.all();
    const event::Division& division = state.divisions[found->division];
    const auto source = event::workers_of(state, *found);
    if (written(recorded(*found).workers) == as_it_is && source)
        offers.offer(as_it_is, text(event::source_words(state, found->division, *source)));
    for (const event::TeamIndex team : division.teams)
        if (!state.teams[team].withdrawn)
            offers.offer(text(state.teams[team].name), text(state.teams[team].name));
    // Who works after a match is named by typing the match: there are too many to offer all.
    const auto is = [word = typed.trimmed()](const QString& value) {
        return value.compare(word, Qt::CaseInsensitive) == 0;
    };
    for (const auto& match : division.graph.matches)
        for (const QLatin1String word : {loser_of, winner_of}) {
            const QString name = text(match.name);
            const QString value = word + name;
            if (is(name) || is(value) || value == workers())
                offers.offer(value, word + tr("of %1").arg(name));
        }
    return offers.all();
}

QVariantList DutyPage::crewsLike(const QString& typed) const {
    Offers offers{typed, crew()};
    offers.offer_always({}, tr("nobody"));
    for (const auto& [name, persons] : book_.state->crews) offers.offer(text(name), text(name));
    return offers.all();
}

QVariantList DutyPage::refereesLike(const QString& typed, bool second) const {
    const QString chosen = second ? secondReferee() : firstReferee();
    Offers offers{typed, chosen};
    offers.offer_always(QStringLiteral("0"), tr("nobody"));
    for (const auto& [number, person] : book_.state->persons)
        if (const QString value = QString::number(number);
            person.role == event::Role::official || value == chosen)
            offers.offer(value, person_words(book_, number));
    return offers.all();
}

void DutyPage::chooseWorkers(const QString& value) {
    chosen_.workers.reset();
    if (value != as_it_is) chosen_.workers = read(*book_.state, value);
    reckon();
}

void DutyPage::chooseCrew(const QString& value) {
    chosen_.crew = value.toStdString();
    reckon();
}

void DutyPage::chooseReferee(const QString& value, bool second) {
    (second ? chosen_.second_referee : chosen_.first_referee) = value.toUShort();
    reckon();
}

void DutyPage::give() {
    if (!differs()) return;
    const ActWish::Facts facts = [this, name = match_.toStdString(),
                                  chosen = chosen_]() -> std::vector<event::Fact> {
        const auto match = book_.state->find_match(name);
        if (!match) return {};
        return {with(chosen, *match)};
    };
    const auto notes = [this, facts](const event::TournamentState& state) {
        QStringList lines;
        for (const auto& fact : facts())
            lines << clashes_with(state, std::get<event::DutyGiven>(fact));
        return lines;
    };
    preview_.ask({tr("Who works %1").arg(match_),
                  tr("The work at %1 is given.").arg(match_),
                  notes,
                  facts(),
                  {},
                  facts,
                  tr("The work at this match has changed meanwhile: what you chose is done to it "
                     "as it is now."),
                  tr("This match is not there any more.")});
}

}  // namespace courthand::seats
