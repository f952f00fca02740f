#include "division_page.h"

#include <QDateTime>
#include <QRandomGenerator>
#include <QRegularExpression>
#include <QTimeZone>
#include <algorithm>
#include <optional>
#include <utility>

#include "choice_words.h"
#include "courthand/draw/pools.h"
#include "courthand/event/act.h"
#include "courthand/event/fold.h"
#include "courthand/event/limits.h"
#include "courthand/rules/profile.h"
#include "courthand/standings/chain.h"
#include "courthand/standings/unvalued.h"
#include "courthand/tournament/brackets.h"
#include "division_limits.h"
#include "made_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

int number_in(const QVariantMap& said, const char* name) {
    return said.value(QString::fromLatin1(name)).toInt();
}

std::string word_in(const QVariantMap& said, const char* name) {
    return said.value(QString::fromLatin1(name)).toString().trimmed().toStdString();
}

/// The numbers of a format that a sheet asks for; the rest is as the profile has it.
event::FormatChoice format_in(const QVariantMap& said, MatchFormat format) {
    const int sets = number_in(said, "sets");
    if (sets == 0) return {};
    format.sets = static_cast<std::uint8_t>(sets);
    // Nobody wins more than half of an even number for certain: all of them are played.
    format.all_sets_played = sets % 2 == 0 ? 1 : 0;
    if (const int points = number_in(said, "points"); points > 0)
        format.points = static_cast<std::uint8_t>(std::min(points, 99));
    // The only set of a match is its deciding one.
    if (sets == 1) format.deciding_points = format.points;
    if (const int points = number_in(said, "decidingPoints"); points > 0)
        format.deciding_points = static_cast<std::uint8_t>(std::min(points, 99));
    return {true, format};
}

/// What a chain has no value for, where a pool could come to it: no decision would help that pool.
QStringList unordered_words(const event::DivisionOpened& division, const MatchFormat& format) {
    const standings::Chain& chain = *standings::find_chain(division.chain);
    QStringList scores;
    for (const auto& score : standings::unvalued(chain, {format.sets, format.all_sets_played != 0}))
        scores << text(score);
    if (scores.isEmpty()) return {};
    return {DivisionPage::tr("“%1” gives no match points for %2: pools of this format could never "
                             "be put in order. Choose another chain, or give the pools another "
                             "format when they are drawn.")
                .arg(text(chain.title), scores.join(DivisionPage::tr(" and ")))};
}

QString no_division() {
    return DivisionPage::tr("No division is open yet. Open one on the page Teams first.");
}

/// Times that were said before there was a time zone are of UTC. Each is said anew as the clock of
/// the hall shows it, so that nobody plays at another moment.
std::vector<event::Fact> placed_anew(const event::TournamentState& state, const QTimeZone& zone) {
    std::vector<event::Fact> facts;
    for (const event::MatchRef ref : event::times_without_zone(state)) {
        const event::Placement& place = *state.match(ref).placement;
        const auto utc =
            QDateTime::fromSecsSinceEpoch(qint64{place.at.minutes} * 60, QTimeZone::utc());
        event::MatchPlaced fact;
        fact.match = state.node(ref).name;
        fact.court = place.court;
        fact.at.minutes = place.at.minutes + zone.offsetFromUtc(utc) / 60;
        fact.timing = place.timing;
        fact.may_start_early = place.may_start_early;
        facts.emplace_back(std::move(fact));
    }
    return facts;
}

event::TournamentState tried(event::TournamentState state, const event::Fact& fact) {
    event::fold_in(state, fact);
    return state;
}

}  // namespace

DivisionPage::DivisionPage(const venue::EventBook& book, ActPreview& preview, QObject* parent)
    : QObject(parent),
      book_(book),
      preview_(preview),
      lot_(QRandomGenerator::system()->generate64()) {}

void DivisionPage::show(event::DivisionIndex division) {
    division_ = division;
    Q_EMIT changed();
}

const event::Division* DivisionPage::division() const {
    return division_ < book_.state->division_count() ? &book_.state->divisions[division_] : nullptr;
}

QVariantList DivisionPage::profiles() const {
    QVariantList all;
    for (const auto& id : profile_ids()) all << QVariant(QVariantList{text(id), text(id)});
    return all;
}

QVariantList DivisionPage::chains() const {
    QVariantList all;
    for (const auto& id : standings::chain_ids())
        all << QVariant(QVariantList{text(id), text(standings::find_chain(id)->title)});
    return all;
}

QString DivisionPage::seeds() const {
    QStringList lines;
    const auto* const of = division();
    if (of == nullptr) return {};
    for (const event::TeamIndex team : of->seeds)
        if (team != event::no_team) lines << text(book_.state->teams[team].name);
    for (const event::TeamIndex team : of->teams) {
        const QString name = text(book_.state->teams[team].name);
        if (!lines.contains(name) && !book_.state->teams[team].withdrawn) lines << name;
    }
    return lines.join(QLatin1Char('\n'));
}

int DivisionPage::teamCount() const {
    const auto* const of = division();
    if (of == nullptr) return 0;
    return static_cast<int>(
        std::count_if(of->teams.begin(), of->teams.end(),
                      [&](event::TeamIndex team) { return !book_.state->teams[team].withdrawn; }));
}

QString DivisionPage::freePrefix() const {
    return text(tournament::free_prefix(
        [this](const std::string& name) { return book_.state->find_match(name).has_value(); }));
}

int DivisionPage::poolCount() const {
    const auto* const of = division();
    return of != nullptr ? static_cast<int>(of->pools.size()) : 0;
}

void DivisionPage::complain(const QString& problem) {
    problem_ = problem;
    Q_EMIT problemChanged();
}

void DivisionPage::forgetProblem() {
    complain({});
}

void DivisionPage::openTournament(const QString& name, const QString& first, const QString& last,
                                  const QString& zone, const QString& confirmer) {
    event::TournamentOpened fact;
    fact.name = name.trimmed().toStdString();
    const auto from = event::date_of(first.trimmed().toStdString());
    const auto to = event::date_of(last.trimmed().toStdString());
    if (fact.name.empty()) return complain(tr("Write the name of the tournament."));
    if (!from || !to) return complain(tr("Write both days as in 2026-11-28."));
    // Of an empty name the time zone is that of this computer, and valid.
    if (zone.trimmed().isEmpty())
        return complain(tr("Write the time zone of the hall, as in Europe/London."));
    if (!QTimeZone(zone.trimmed().toUtf8()).isValid())
        return complain(tr("“%1” is no time zone. Write one as in Europe/London.").arg(zone));
    fact.first_day = *from;
    fact.last_day = *to;
    fact.time_zone = zone.trimmed().toStdString();
    complain({});
    std::vector<event::Fact> facts{fact};
    const auto confirms = choice_of<event::Confirmer>(confirmer);
    if (confirms && *confirms != book_.state->confirmer)
        facts.emplace_back(event::ConfirmerNamed{*confirms});
    const QTimeZone in_hall{QByteArray::fromStdString(fact.time_zone)};
    for (event::Fact& place : placed_anew(*book_.state, in_hall)) facts.push_back(std::move(place));
    preview_.ask({tr("Open the tournament %1").arg(name.trimmed()),
                  tr("The tournament is open."),
                  {},
                  std::move(facts),
                  {}});
}

void DivisionPage::openDivision(const QVariantMap& said) {
    event::DivisionOpened fact;
    fact.division = word_in(said, "code");
    // What the sheet does not ask, and what is left empty, stays as it is.
    const auto known = book_.state->find_division(fact.division);
    if (known) fact = book_.state->divisions[*known].rules;
    if (const std::string name = word_in(said, "name"); !name.empty()) fact.name = name;
    fact.profile = word_in(said, "profile");
    fact.chain = word_in(said, "chain");
    static const QRegularExpression code(QStringLiteral("^[A-Za-z0-9._+/-]{1,48}$"));
    if (!code.match(text(fact.division)).hasMatch())
        return complain(tr("Write a code of letters and figures for the division, as in U16."));
    const Profile* const profile = find_profile(fact.profile);
    if (profile == nullptr) return complain(tr("Choose the rules of the division."));
    if (standings::find_chain(fact.chain) == nullptr)
        return complain(tr("Choose the chain by which its pools are put in order."));
    fact.format = format_in(said, profile->rules.format);
    if (const QString wrong = take_limits(said, fact); !wrong.isEmpty()) return complain(wrong);
    fact.withdrawn = said.value(QStringLiteral("struck")).toBool() ? event::WithdrawnResults::struck
                                                                   : event::WithdrawnResults::kept;
    complain({});
    const QStringList unordered =
        unordered_words(fact, fact.format.own ? fact.format.format : profile->rules.format);
    preview_.ask({tr("Open division %1").arg(text(fact.division)),
                  tr("Division %1 is open.").arg(text(fact.division)),
                  [unordered](const auto&) { return unordered; },
                  {std::move(fact)},
                  {}});
}

QString DivisionPage::limitWords(const QString& code) const {
    const auto known = book_.state->find_division(code.trimmed().toStdString());
    if (!known) return {};
    const QString words = limit_words(book_.state->divisions[*known].rules);
    return words.isEmpty()
               ? tr("Division %1 is open already, without limits.").arg(code.trimmed())
               : tr("Division %1 is open already; a limit that is left empty stays: %2.")
                     .arg(code.trimmed(), words);
}

void DivisionPage::giveSeeds(const QString& lines) {
    const auto* const of = division();
    if (of == nullptr) return complain(no_division());
    std::vector<event::Fact> facts;
    std::uint16_t number = 0;
    for (const QString& line : lines.split(QLatin1Char('\n'), Qt::SkipEmptyParts)) {
        const QString name = line.trimmed();
        if (name.isEmpty()) continue;
        if (number % event::most_listed == 0)
            facts.push_back(
                event::SeedsGiven{of->rules.division, static_cast<std::uint16_t>(number + 1), {}});
        std::get<event::SeedsGiven>(facts.back()).teams.push_back(name.toStdString());
        ++number;
    }
    if (facts.empty()) return complain(tr("Write the teams in order, best first, one a line."));
    complain({});
    preview_.ask({tr("Give the seeds of %1").arg(text(of->rules.division)),
                  tr("The seeds are given."),
                  {},
                  std::move(facts),
                  {}});
}

void DivisionPage::drawPools(const QVariantMap& said) {
    const auto* const of = division();
    const auto method = choice_of<event::DrawMethod>(text(word_in(said, "method")));
    if (of == nullptr) return complain(no_division());
    if (!method) return;
    event::DrawMade fact;
    fact.division = of->rules.division;
    fact.method = *method;
    const int pools = number_in(said, "pools");
    if (pools < 1 || pools > static_cast<int>(draw::most_pools))
        return complain(tr("Write how many pools, from 1 to %1.").arg(draw::most_pools));
    fact.pools = static_cast<std::uint8_t>(pools);
    // Kept in the fact: the same number draws the same pools again. It stands while this program
    // runs, so that nobody looks at one draw after another and takes the one that he likes.
    if (*method == event::DrawMethod::rows) fact.seed_number = lot_;
    fact.prefix = word_in(said, "prefix");
    static const QRegularExpression between(QStringLiteral("[\\s,;]+"));
    for (const QString& cut : text(word_in(said, "cuts")).split(between, Qt::SkipEmptyParts)) {
        bool good = false;
        const int place = cut.toInt(&good);
        if (!good || place < 1 || place > 32 || fact.cuts.size() >= event::most_cuts)
            return complain(
                tr("“%1” is no place of a pool. Write the last place that goes on, as in 2.")
                    .arg(cut));
        fact.cuts.push_back(static_cast<std::uint8_t>(place));
    }
    fact.format = format_in(said, of->format);
    fact.second_leg = said.value(QStringLiteral("secondLeg")).toBool();
    complain({});
    const auto made = [fact](const event::TournamentState& state) {
        const auto in = state.find_division(fact.division);
        if (!in) return QStringList();
        const bool by_seed = fact.method != event::DrawMethod::by_hand;
        return (by_seed ? unseeded_words(state, *in) : QStringList()) +
               pools_made(tried(state, fact), *in);
    };
    preview_.ask({tr("Draw %1 pools in %2").arg(pools).arg(text(fact.division)),
                  tr("The pools are drawn."),
                  made,
                  {std::move(fact)},
                  {}});
}

void DivisionPage::makeBracket(const QVariantMap& said) {
    const auto* const of = division();
    const auto kind = choice_of<event::BracketKind>(text(word_in(said, "kind")));
    if (of == nullptr) return complain(no_division());
    if (!kind) return;
    event::BracketMade fact;
    fact.division = of->rules.division;
    fact.kind = *kind;
    fact.prefix = word_in(said, "prefix");
    if (fact.prefix.empty())
        return complain(
            tr("Write what stands before the numbers of its matches, as in %1.").arg(freePrefix()));
    fact.size = static_cast<std::uint16_t>(std::clamp(number_in(said, "size"), 0, 512));
    fact.from_place = static_cast<std::uint8_t>(std::clamp(number_in(said, "from"), 0, 32));
    fact.to_place = static_cast<std::uint8_t>(std::clamp(number_in(said, "to"), 0, 32));
    fact.third_place = said.value(QStringLiteral("thirdPlace")).toBool();
    fact.second_final = said.value(QStringLiteral("secondFinal")).toBool();
    fact.best_place = static_cast<std::uint16_t>(std::clamp(number_in(said, "best"), 1, 512));
    complain({});
    const auto made = [fact](const event::TournamentState& state) {
        const auto in = state.find_division(fact.division);
        if (!in) return QStringList();
        const bool by_seed = fact.to_place == 0;
        return (by_seed ? unseeded_words(state, *in) : QStringList()) +
               matches_made(state, tried(state, fact), *in);
    };
    preview_.ask({tr("Make a bracket in %1").arg(text(fact.division)),
                  tr("The bracket is made."),
                  made,
                  {std::move(fact)},
                  {}});
}

}  // namespace courthand::seats
