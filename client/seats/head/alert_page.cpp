#include "alert_page.h"

#include <QPointer>
#include <QVariantMap>
#include <algorithm>
#include <tuple>

#include "record_words.h"
#include "venue_words.h"

namespace courthand::seats {

namespace {

bool listed(const std::vector<Jersey>& jerseys, Jersey jersey) {
    return std::find(jerseys.begin(), jerseys.end(), jersey) != jerseys.end();
}

QVariantList places(const Six& six, const Six& other, const std::vector<Jersey>& liberos) {
    QVariantList list;
    for (const Position position : all_positions) {
        const Jersey jersey = six[index(position)];
        list << QVariantMap{
            {QStringLiteral("number"), number_of(jersey)},
            {QStringLiteral("numeral"), numeral_of(position)},
            {QStringLiteral("libero"), listed(liberos, jersey)},
            {QStringLiteral("changed"), jersey != other[index(position)]},
            {QStringLiteral("spoken"),
             AlertPage::tr("position %1: %2").arg(numeral_of(position), number_of(jersey))}};
    }
    return list;
}

QVariantMap line(EntryNumber number, const QString& words, const QString& when) {
    return {{QStringLiteral("number"), QString::number(number)},
            {QStringLiteral("words"), words},
            {QStringLiteral("when"), when}};
}

}  // namespace

AlertPage::AlertPage(venue::BoardSource& source, QObject* parent)
    : QObject(parent), source_(source), fork_(source) {
    connect(&fork_, &ForkPage::told, this, [this](const QString& words) {
        Q_EMIT told(words);
        close();
    });
}

QString AlertPage::alertId() const {
    return text(alert_.id);
}
int AlertPage::mark() const {
    return static_cast<int>(severity_words(alert_.severity).mark);
}
QString AlertPage::severityWord() const {
    return severity_words(alert_.severity).word;
}
QString AlertPage::title() const {
    return alert_title(alert_);
}
QString AlertPage::detail() const {
    return text(alert_.sentence);
}
QString AlertPage::age() const {
    return age_words(server_now_ - alert_.since);
}
QString AlertPage::rule() const {
    return text(alert_.rule);
}
QString AlertPage::since() const {
    const int rally = alert_.evidence.since_rally;
    return rally > 0 ? tr("at fault since rally %1 of set %2").arg(rally).arg(alert_.set)
                     : QString();
}

QString AlertPage::remedy() const {
    return text(alert_.evidence.remedy);
}
QString AlertPage::scoreNow() const {
    return score_words(score_);
}

QString AlertPage::scoreIfApplied() const {
    const auto& evidence = alert_.evidence;
    return evidence.score_if_ruled ? score_words(*evidence.score_if_ruled) : QString();
}

QString AlertPage::servesIfApplied() const {
    const auto& serves = alert_.evidence.serves_if_ruled;
    return serves ? tr("%1 to serve").arg(text(names_[*serves])) : QString();
}

QString AlertPage::owner() const {
    return alert_.claimed_by.empty() ? QString() : tr("%1 is going").arg(text(alert_.claimed_by));
}

QString AlertPage::ended() const {
    return gone_ ? tr("This alert has ended: it was ruled, or its cause is gone.") : QString();
}

bool AlertPage::hasSix() const {
    return alert_.evidence.before.has_value() && alert_.evidence.after.has_value();
}

QVariantList AlertPage::before() const {
    if (!hasSix()) return {};
    return places(*alert_.evidence.before, *alert_.evidence.after, liberos_);
}

QVariantList AlertPage::after() const {
    if (!hasSix()) return {};
    return places(*alert_.evidence.after, *alert_.evidence.before, liberos_);
}

QVariantList AlertPage::entries() const {
    QVariantList list;
    const PerTeam<QString> names{text(names_.a), text(names_.b)};
    for (const auto& entry : alert_.evidence.entries) {
        const QString words = entry.content ? client::record_words(*entry.content, names)
                                            : tr("written by a newer program: not readable here");
        list << line(entry.number, words, {});
    }
    return list;
}

QVariantList AlertPage::replacements() const {
    constexpr std::size_t shown = 4;
    const auto& all = alert_.evidence.replacements;
    QVariantList list;
    for (std::size_t i = all.size() > shown ? all.size() - shown : 0; i < all.size(); ++i) {
        const auto& each = all[i];
        list << line(each.number, tr("%1 for %2").arg(number_of(each.in), number_of(each.out)),
                     tr("rally %1, %2").arg(each.rally).arg(score_words(each.score)));
    }
    return list;
}

bool AlertPage::mayShelve() const {
    return open() && alert_.severity != Severity::critical;
}

QString AlertPage::whyNotShelve() const {
    return open() && alert_.severity == Severity::critical
               ? tr("A critical alert cannot be shelved: somebody must go.")
               : QString();
}

void AlertPage::begin() {
    busy_ = true;
    problem_.clear();
    Q_EMIT changed();
}

// The source answers on its own thread, perhaps after this page is gone.
venue::Answer AlertPage::answer(const QString& words, bool closes) {
    return [page = QPointer<AlertPage>(this), words, closes](const venue::Outcome& outcome) {
        if (!page) return;
        QMetaObject::invokeMethod(
            page.data(),
            [page, words, closes, outcome] {
                if (!page) return;
                page->busy_ = false;
                page->problem_ = text(outcome.problem);
                if (outcome.done)
                    Q_EMIT page->told(words);
                else if (!page->open())
                    Q_EMIT page->refused(page->problem_);
                if (outcome.done && closes)
                    page->close();
                else
                    Q_EMIT page->changed();
            },
            Qt::QueuedConnection);
    };
}

void AlertPage::claim() {
    if (!open() || busy_) return;
    begin();
    source_.claim(alert_.id, answer(tr("Shown to everyone: you are going."), false));
}

bool AlertPage::mayAcknowledge() const {
    return open() && alert_.severity != Severity::critical && !alert_.seen && !gone_;
}

void AlertPage::acknowledge() {
    if (!mayAcknowledge() || busy_) return;
    begin();
    source_.acknowledge(alert_.id, answer(tr("Noted as seen."), false));
}

void AlertPage::decide(int choice, const QString& note) {
    if (!open() || busy_) return;
    if (choice < Accept || choice > Otherwise) {
        problem_ = tr("Choose what was decided first.");
        Q_EMIT changed();
        return;
    }
    begin();
    source_.rule(alert_.id, static_cast<venue::RulingChoice>(choice), note.trimmed().toStdString(),
                 answer(tr("Ruling recorded."), true));
}

void AlertPage::shelve(int minutes, const QString& reason) {
    if (!open() || busy_) return;
    if (!mayShelve() || reason.trimmed().isEmpty()) {
        problem_ =
            mayShelve() ? tr("Say why it can wait; then it can be shelved.") : whyNotShelve();
        Q_EMIT changed();
        return;
    }
    begin();
    source_.shelve(alert_.id, std::chrono::minutes(minutes), reason.trimmed().toStdString(),
                   answer(tr("Shelved; it comes back by itself in %1 min.").arg(minutes), true));
}

void AlertPage::answerTakeOver(bool consent) {
    if (asks()) answer_take_over(venue::Alert(alert_), consent);
}

void AlertPage::answer_take_over(const venue::Alert& alert, bool consent) {
    if (busy_ || alert.asking_device.empty()) return;
    begin();
    const QString where = court_words(alert.court);
    source_.answer_take_over(alert.match_id, alert.asking_device, consent,
                             answer(consent ? tr("%1: the new table goes on.").arg(where)
                                            : tr("%1: the new table does not go on.").arg(where),
                                    open() && alert_.id == alert.id));
}

void AlertPage::lookAtFork() {
    if (forked()) fork_.look(alert_, where_, {text(names_.a), text(names_.b)});
}

void AlertPage::close() {
    alert_ = {};
    where_.clear();
    gone_ = false;
    problem_.clear();
    Q_EMIT changed();
}

void AlertPage::take(const venue::Board& board, const venue::Alert& alert) {
    alert_ = alert;
    team_name_ = text(alert.team_name);
    names_ = {tr("team A").toStdString(), tr("team B").toStdString()};
    score_ = alert.score;
    court_ = {};
    liberos_.clear();
    QStringList parts{court_words(alert.court)};
    const QString match = match_words(alert, board.left_behind(alert));
    if (!match.isEmpty()) parts << match;
    const auto* const court = board.court(alert.court);
    if (court != nullptr && !court->match_id.empty() && court->match_id == alert.match_id) {
        court_ = *court;
        names_ = {court->teams.a.name, court->teams.b.name};
        score_ = court->set == alert.set ? court->score : alert.score;
        if (alert.team) {
            const auto& team = court->teams[*alert.team];
            team_colour_ = colour_of(team.colour);
            for (const auto& each : team.designations) liberos_.push_back(each.jersey);
        }
        parts << tr("%1 against %2").arg(text(names_.a), text(names_.b));
    }
    if (alert.set > 0) parts << tr("set %1, %2").arg(alert.set).arg(score_words(alert.score));
    where_ = parts.join(QStringLiteral(" · "));
}

void AlertPage::open_alert(const venue::Board& board, const std::string& alert_id) {
    const auto* const found = board.alert(alert_id);
    if (found == nullptr) {
        close();
        return;
    }
    gone_ = false;
    busy_ = false;
    problem_.clear();
    take(board, *found);
    look_at_standings();
    Q_EMIT changed();
}

void AlertPage::look_at_standings() {
    ruled_ = event_ != nullptr && open() ? standings_if_ruled(*event_, court_, alert_)
                                         : RuledStandings{};
}

void AlertPage::show_event(std::shared_ptr<const event::TournamentState> state) {
    event_ = std::move(state);
    if (!open()) return;
    const RuledStandings before = ruled_;
    look_at_standings();
    if (ruled_ != before) Q_EMIT changed();
}

QVariantList AlertPage::standings() const {
    QVariantList list;
    for (const auto& row : ruled_.rows) list << row;
    return list;
}

void AlertPage::show(const venue::Board& board) {
    if (!open()) return;
    const auto* const found = board.alert(alert_.id);
    // The board changes with every rally of the hall; the page is redrawn only for its own alert.
    const auto shown = [this] {
        return std::tuple(gone_, alert_, names_, score_, where_, court_.set, court_.finished_sets);
    };
    const auto before = shown();
    gone_ = found == nullptr;
    if (found != nullptr) take(board, venue::Alert(*found));
    if (shown() == before) return;
    look_at_standings();
    Q_EMIT changed();
}

void AlertPage::tick(venue::Moment server) {
    server_now_ = server;
    if (open()) Q_EMIT ageChanged();
}

}  // namespace courthand::seats
