#include "duties/duty_page.h"

#include <utility>

#include "courthand/event/advance.h"
#include "courthand/event/duty.h"
#include "courthand/event/fold.h"
#include "officials/person_words.h"
#include "results/result_rows.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

/// To choose from at once: two lines of buttons.
constexpr int most_offered = 8;

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

/// The offers of one choice: what is chosen, nobody, and what has the typed text in it.
class Offers {
  public:
    Offers(const QString& typed, const QString& chosen, const QString& nobody)
        : typed_(typed.trimmed()), chosen_(chosen), nobody_(nobody) {
        add(nobody_, DutyPage::tr("nobody"));
    }
    void offer(const QString& value, const QString& word) {
        if (value == chosen_ && value != nobody_)
            offers_.prepend(QVariantList{value, word});
        else if (offers_.size() < most_offered && word.contains(typed_, Qt::CaseInsensitive))
            add(value, word);
    }
    [[nodiscard]] QVariantList all() const { return offers_; }

  private:
    void add(const QString& value, const QString& word) {
        offers_ << QVariant(QVariantList{value, word});
    }

    QString typed_;
    QString chosen_;
    QString nobody_;
    QVariantList offers_;
};

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

bool DutyPage::differs() const {
    const auto found = ref();
    return found && !(recorded(*found) == wanted_);
}

bool DutyPage::look(const QString& match) {
    match_ = match;
    const auto found = ref();
    if (!found) match_.clear();
    wanted_ = found ? recorded(*found) : event::DutyGiven{};
    reckon();
    return found.has_value();
}

void DutyPage::show() {
    if (!match_.isEmpty()) reckon();
}

void DutyPage::reckon() {
    clashes_ = ref() ? clashes_with(*book_.state, wanted_) : QStringList();
    Q_EMIT changed();
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
    Offers offers{typed, workers(), QString()};
    const auto found = ref();
    if (!found) return offers.all();
    const event::Division& division = state.divisions[found->division];
    const auto source = event::workers_of(state, *found);
    if (workers() == as_it_is && source)
        offers.offer(as_it_is, text(event::source_words(state, found->division, *source)));
    for (const event::TeamIndex team : division.teams)
        if (!state.teams[team].withdrawn)
            offers.offer(text(state.teams[team].name), text(state.teams[team].name));
    // Who works after a match is named by typing the match: there are too many to offer all.
    for (const auto& match : division.graph.matches)
        for (const QLatin1String word : {loser_of, winner_of}) {
            const QString value = word + text(match.name);
            const bool named = match.name == typed.trimmed().toUpper().toStdString();
            if (named || value == workers() || (!typed.isEmpty() && value == typed.trimmed()))
                offers.offer(value, word + tr("of %1").arg(text(match.name)));
        }
    return offers.all();
}

QVariantList DutyPage::crewsLike(const QString& typed) const {
    Offers offers{typed, crew(), QString()};
    for (const auto& [name, persons] : book_.state->crews) offers.offer(text(name), text(name));
    return offers.all();
}

QVariantList DutyPage::refereesLike(const QString& typed, bool second) const {
    Offers offers{typed, second ? secondReferee() : firstReferee(), QStringLiteral("0")};
    for (const auto& [number, person] : book_.state->persons)
        if (person.role == event::Role::official)
            offers.offer(QString::number(number), person_words(book_, number));
    return offers.all();
}

void DutyPage::chooseWorkers(const QString& value) {
    if (value != as_it_is) wanted_.workers = read(*book_.state, value);
    reckon();
}

void DutyPage::chooseCrew(const QString& value) {
    wanted_.crew = value.toStdString();
    reckon();
}

void DutyPage::chooseReferee(const QString& value, bool second) {
    (second ? wanted_.second_referee : wanted_.first_referee) = value.toUShort();
    reckon();
}

void DutyPage::give() {
    if (!differs()) return;
    preview_.ask({tr("Who works %1").arg(match_),
                  tr("The work at %1 is given.").arg(match_),
                  [this, fact = wanted_](const auto& state) { return clashes_with(state, fact); },
                  {wanted_},
                  {}});
}

}  // namespace courthand::seats
