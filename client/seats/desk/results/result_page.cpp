#include "result_page.h"

#include <algorithm>
#include <variant>

#include "choice_words.h"
#include "courthand/event/advance.h"
#include "courthand/event/effects.h"
#include "courthand/event/fold.h"
#include "event_words.h"
#include "officials/person_words.h"
#include "placing.h"
#include "result_rows.h"
#include "typed_sets.h"

namespace courthand::seats {

namespace {

QStringList fields() {
    return {QStringLiteral("key"),    QStringLiteral("about"), QStringLiteral("first"),
            QStringLiteral("second"), QStringLiteral("known"), QStringLiteral("sets"),
            QStringLiteral("scores"), QStringLiteral("place"), QStringLiteral("stage"),
            QStringLiteral("mark"),   QStringLiteral("state")};
}

int stage_in(const QVariantMap& row) {
    return row.value(QStringLiteral("stage")).toInt();
}

}  // namespace

ResultPage::ResultPage(const venue::EventBook& book, const venue::TableResults& tables,
                       ActPreview& preview, QObject* parent)
    : EventPage(book, preview, fields(), parent), tables_(tables) {}

void ResultPage::show(event::DivisionIndex division) {
    division_ = division;
    std::vector<event::MatchRef> matches;
    if (has_division())
        for (std::size_t m = 0; m < book_.state->divisions[division].matches.size(); ++m)
            matches.push_back({division, static_cast<event::MatchIndex>(m)});
    auto rows = kept_.of(book_.state, matches, tables_, [&](std::size_t i) {
        return result_row(*book_.state, matches[i], tables_);
    });
    const auto waits = [](const QVariantMap& row) {
        return stage_in(row) == static_cast<int>(ResultStage::to_confirm);
    };
    confirmable_ = static_cast<int>(std::count_if(rows.begin(), rows.end(), waits));
    if (only_open_)
        rows.erase(
            std::remove_if(rows.begin(), rows.end(),
                           [](const QVariantMap& row) {
                               return stage_in(row) == static_cast<int>(ResultStage::confirmed) ||
                                      stage_in(row) == static_cast<int>(ResultStage::not_played);
                           }),
            rows.end());
    // What the desk is to do comes first.
    std::stable_partition(rows.begin(), rows.end(), waits);
    rows_.show(std::move(rows));
    Q_EMIT filterChanged();
    // Of no match there is nothing new to tell.
    if (!match_.isEmpty()) Q_EMIT looked();
}

void ResultPage::setOnlyOpen(bool only) {
    only_open_ = only;
    show(division_);
}

QString ResultPage::emptyWords() const {
    if (rows_.count() > 0) return {};
    if (!has_division()) return tr("No division is open yet. Open one on the page Teams.");
    const event::Division& division = book_.state->divisions[division_];
    const QString code = text(division.rules.division);
    // Where there are matches they have gone to where those with a result are.
    if (!division.matches.empty()) return tr("Every match of %1 has its result.").arg(code);
    return tr("%1 has no match yet. Draw its pools or make a bracket first.").arg(code);
}

std::optional<event::MatchRef> ResultPage::ref() const {
    return match_.isEmpty() ? std::nullopt : book_.state->find_match(match_.toStdString());
}

QString ResultPage::title() const {
    const auto found = ref();
    if (!found) return {};
    return tr("%1, %2").arg(match_, stage_of_graph(*book_.state, *found));
}

QString ResultPage::format() const {
    const auto found = ref();
    if (!found) return {};
    const MatchFormat format = book_.state->match(*found).format;
    if (format.all_sets_played != 0)
        return tr("%1 sets to %2 points, all of them played").arg(format.sets).arg(format.points);
    if (format.sets == 1) return tr("One set to %1 points").arg(format.deciding_points);
    return tr("Best of %1 sets to %2 points, the deciding one to %3")
        .arg(format.sets)
        .arg(format.points)
        .arg(format.deciding_points);
}

QString ResultPage::side(std::size_t which) const {
    const auto found = ref();
    return found ? side_words(*book_.state, *found, which) : QString();
}

QString ResultPage::first() const {
    return side(0);
}

QString ResultPage::second() const {
    return side(1);
}

QStringList ResultPage::about() const {
    QStringList lines;
    const auto found = ref();
    if (!found) return lines;
    const QString place = place_of_match(*book_.state, *found);
    if (!place.isEmpty()) lines << place;
    for (std::size_t which = 0; which < 2; ++which) {
        const QString why = text(
            event::why_open(*book_.state, found->division, book_.state->node(*found).sides[which]));
        if (!why.isEmpty()) lines << tr("%1 is not known yet: %2").arg(side(which), why);
    }
    if (tables_.to_award(*book_.state, *found))
        lines << tr("Lost by default at the table: it is to be awarded.");
    return lines;
}

QString ResultPage::work() const {
    const auto found = ref();
    if (!found) return {};
    const QStringList lines = duty_lines(book_, *found);
    return lines.isEmpty() ? tr("Nobody is named to work it.") : lines.join(QStringLiteral(" · "));
}

QString ResultPage::tableScores() const {
    const auto found = ref();
    const auto recorded = found ? tables_.of(*book_.state, *found) : std::nullopt;
    return recorded ? client::set_scores(recorded->sets) : QString();
}

int ResultPage::mark() const {
    const auto found = ref();
    return static_cast<int>(found ? result_words(*book_.state, *found, tables_).mark : Mark::quiet);
}

bool ResultPage::bySignatures() const {
    return book_.state->confirmer == event::Confirmer::signatures;
}

QString ResultPage::signatures() const {
    const auto found = ref();
    return found ? signature_words(*book_.state, *found, tables_) : QString();
}

void ResultPage::changeConfirmer() {
    const bool signatures = !bySignatures();
    const auto notes = [signatures](const event::TournamentState&) {
        return signatures ? QStringList{tr(
                                "This counts from now on: what tables have closed before is left "
                                "to the desk, and so is a match with a protest or a verdict "
                                "that stands.")}
                          : QStringList{};
    };
    preview_.ask({signatures ? tr("Let signatures at the table confirm results")
                             : tr("Leave results to the desk"),
                  signatures ? tr("Signatures at the table confirm results.")
                             : tr("The desk confirms results."),
                  notes,
                  {event::ConfirmerNamed{signatures ? event::Confirmer::signatures
                                                    : event::Confirmer::desk}},
                  {}});
}

QString ResultPage::state() const {
    const auto found = ref();
    return found ? result_words(*book_.state, *found, tables_).word : QString();
}

QString ResultPage::scores() const {
    const auto found = ref();
    if (!found || !book_.state->match(*found).result) return {};
    return client::set_scores(book_.state->match(*found).result->sets);
}

bool ResultPage::mayConfirm() const {
    const auto found = ref();
    return found && tables_.to_confirm(*book_.state, *found);
}

bool ResultPage::mayEnter() const {
    const auto found = ref();
    return found && !book_.state->match(*found).result && book_.state->side(*found, 0).is_team() &&
           book_.state->side(*found, 1).is_team();
}

bool ResultPage::mayReopen() const {
    const auto found = ref();
    return found && book_.state->match(*found).result.has_value();
}

bool ResultPage::look(const QString& match) {
    match_ = match;
    if (!ref()) match_.clear();
    problem_.clear();
    place_problem_.clear();
    Q_EMIT looked();
    Q_EMIT problemChanged();
    return !match_.isEmpty();
}

void ResultPage::complain(const QString& problem) {
    problem_ = problem;
    Q_EMIT problemChanged();
}

ActWish::Notes ResultPage::teams() const {
    return [name = match_.toStdString()](const event::TournamentState& state) {
        const auto match = state.find_match(name);
        if (!match) return QStringList();
        return QStringList{
            tr("%1 – %2").arg(side_words(state, *match, 0), side_words(state, *match, 1))};
    };
}

void ResultPage::ask(const QString& title, const QString& told, event::Fact fact,
                     ActWish::Facts renewed) {
    complain({});
    preview_.ask({title,
                  told,
                  teams(),
                  {std::move(fact)},
                  {},
                  std::move(renewed),
                  tr("The table has recorded something else by now."),
                  tr("The table has no finished result of this match any more.")});
}

std::vector<event::Fact> ResultPage::of_the_table(const QString& match) const {
    const auto found = book_.state->find_match(match.toStdString());
    auto fact = found ? tables_.confirmation(*book_.state, *found) : std::nullopt;
    if (!fact) return {};
    return {*std::move(fact)};
}

void ResultPage::confirm() {
    auto facts = of_the_table(match_);
    if (facts.empty()) return;
    ask(tr("Confirm the result of %1").arg(match_),
        tr("The result of %1 is confirmed.").arg(match_), std::move(facts.front()),
        [this, match = match_] { return of_the_table(match); });
}

bool ResultPage::mayPlace() const {
    const auto found = ref();
    return found && !book_.state->match(*found).result;
}

QString ResultPage::court() const {
    const auto found = ref();
    if (!found || !book_.state->match(*found).placement) return {};
    return QString::number(book_.state->match(*found).placement->court);
}

QString ResultPage::time() const {
    const auto found = ref();
    if (!found || !book_.state->match(*found).placement) return {};
    return typed_time(*book_.state, *book_.state->match(*found).placement);
}

void ResultPage::place(const QString& court, const QString& at) {
    auto facts = placing(*book_.state, match_, court.trimmed(), at.trimmed());
    const auto* wrong = std::get_if<QString>(&facts);
    place_problem_ = wrong != nullptr ? *wrong : QString{};
    Q_EMIT problemChanged();
    if (wrong != nullptr) return;
    const auto notes = [this, of = teams(), match = match_.toStdString(),
                        placed = std::get<0>(facts)](const event::TournamentState& state) {
        event::TournamentState after = state;
        for (const auto& fact : placed) event::fold_in(after, fact);
        return of(state) + place_clash_words(book_, state, after, match);
    };
    preview_.ask({tr("Court and time of %1").arg(match_),
                  tr("%1 has its place.").arg(match_),
                  notes,
                  std::move(std::get<0>(facts)),
                  {}});
}

void ResultPage::enter(const QString& typed) {
    auto read = read_sets(typed);
    if (const auto* wrong = std::get_if<QString>(&read)) return complain(*wrong);
    event::ResultConfirmed fact;
    fact.match = match_.toStdString();
    fact.from = event::ResultFrom::paper;
    fact.sets = std::move(std::get<0>(read));
    ask(tr("Result of %1 from paper").arg(match_),
        tr("The result of %1 is kept, marked as from paper.").arg(match_), std::move(fact));
}

void ResultPage::award(const QString& how, int loser, const QString& typed) {
    const auto award = choice_of<event::Award>(how);
    if (!award || !ref()) return;
    event::MatchAwarded fact;
    fact.match = match_.toStdString();
    fact.how = *award;
    if (*award != event::Award::double_default) {
        if (loser != 0 && loser != 1) return complain(tr("Choose the team that loses the match."));
        fact.team = side(static_cast<std::size_t>(loser)).toStdString();
    }
    if (*award == event::Award::team_short && !typed.trimmed().isEmpty()) {
        auto read = read_sets(typed);
        if (const auto* wrong = std::get_if<QString>(&read)) return complain(*wrong);
        fact.sets = std::move(std::get<0>(read));
    }
    ask(tr("%1: %2").arg(match_, client::award_words(*award)),
        tr("%1 is awarded: %2.").arg(match_, client::award_words(*award)), std::move(fact));
}

void ResultPage::reopen() {
    event::ResultReopened fact;
    fact.match = match_.toStdString();
    ask(tr("Reopen the result of %1").arg(match_),
        tr("The result of %1 is open again.").arg(match_), std::move(fact));
}

}  // namespace courthand::seats
