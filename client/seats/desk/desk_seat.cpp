#include "desk_seat.h"

#include <QDateTime>
#include <QPointer>
#include <chrono>
#include <utility>

#include "courthand/rules/profile.h"
#include "desk_words.h"
#include "venue/match_id.h"
#include "work_list.h"

namespace courthand::seats {

namespace {

/// So long after the last news the next waits for what comes with it. Many courts tell a point a
/// second each, which nobody reads faster, and every telling costs a frame of the screen.
constexpr std::chrono::milliseconds between_news{100};

QStringList fields(std::initializer_list<const char*> names) {
    QStringList list;
    for (const char* name : names) list << QString::fromLatin1(name);
    return list;
}

}  // namespace

DeskSeat::DeskSeat(venue::DeskSource& desk, venue::BoardSource& board, venue::EventSource& event,
                   venue::EventExporter& exporter, DeskNames names, QObject* parent)
    : QObject(parent),
      desk_(desk),
      board_source_(board),
      venue_name_(std::move(names.venue)),
      work_(fields({"key", "mark", "title", "detail", "act", "subject"})),
      matches_(
          fields({"matchId", "number", "time", "first", "second", "firstColour", "secondColour",
                  "court", "mark", "state", "lineUps", "sets", "scores", "movable", "spoken"})),
      courts_(fields({"court", "name", "playing", "load", "about"})),
      teams_(fields({"teamId", "name", "club", "colour", "players", "numbers", "liberos"})),
      devices_(fields({"deviceId", "name", "place", "mark", "state", "revoked"})),
      rosters_(desk),
      code_(desk),
      fork_(board),
      tournament_(event, book_),
      audit_(desk, {book_, tournament_.book(), tournament_.names()}),
      export_(exporter, tournament_.book(), std::move(names.author)) {
    connect(&fork_, &ForkPage::told, this, &DeskSeat::told);
    connect(tournament_.preview(), &ActPreview::done, this, &DeskSeat::told);
    connect(tournament_.people(), &TeamPeople::told, this, &DeskSeat::told);
    connect(&export_, &ExportPage::told, this, &DeskSeat::told);
    connect(&export_, &ExportPage::refused, this, &DeskSeat::refused);
    connect(&tournament_, &EventDesk::bookChanged, this, &DeskSeat::show_named);
    connect(&tournament_, &EventDesk::bookChanged, this, &DeskSeat::venueNameChanged);
    // A log is long, and what it tells hangs on the record: not on the news of the courts.
    connect(&tournament_, &EventDesk::recordChanged, &audit_, &AuditList::show);
    pause_.setSingleShot(true);
    pause_.setInterval(between_news);
    connect(&pause_, &QTimer::timeout, this, &DeskSeat::hear);
    const auto call_hear = [this] {
        QMetaObject::invokeMethod(this, &DeskSeat::hear, Qt::QueuedConnection);
    };
    desk_.start({[this, call_hear](const venue::DeskBook& book) {
                     {
                         const std::scoped_lock lock{newest_mutex_};
                         newest_book_ = book;
                     }
                     call_hear();
                 },
                 [this](const venue::Link& link) {
                     QMetaObject::invokeMethod(
                         this,
                         [this, link] {
                             link_ = link;
                             Q_EMIT linkChanged();
                         },
                         Qt::QueuedConnection);
                 }});
    board_source_.start({[this, call_hear](const venue::Board& news) {
                             {
                                 const std::scoped_lock lock{newest_mutex_};
                                 newest_board_ = news;
                             }
                             call_hear();
                         },
                         {}});
}

DeskSeat::~DeskSeat() {
    board_source_.stop();
    desk_.stop();
}

void DeskSeat::hear() {
    if (!pause_.isActive() && take()) pause_.start();
}

bool DeskSeat::take() {
    std::optional<venue::DeskBook> book;
    std::optional<venue::Board> board;
    {
        const std::scoped_lock lock{newest_mutex_};
        book = std::exchange(newest_book_, std::nullopt);
        board = std::exchange(newest_board_, std::nullopt);
    }
    if (!book && !board) return false;
    if (board) board_ = *std::move(board);
    if (book) {
        const bool other_teams = book->teams != book_.teams;
        book_ = *std::move(book);
        tournament_.desk_changed();
        if (other_teams) teams_.show(team_rows(book_));
        devices_.show(device_rows(book_));
    }
    show_named();
    courts_.show(court_rows(book_, board_));
    if (book) Q_EMIT bookChanged();
    return true;
}

void DeskSeat::show_named() {
    work_.show(work_rows(book_, board_, tournament_));
    matches_.show(match_rows_.of(book_, board_, tournament_.names()));
}

QString DeskSeat::venueName() const {
    const auto& opened = tournament_.book().state->opened;
    return opened && !opened->name.empty() ? text(opened->name) : venue_name_;
}

QStringList DeskSeat::profiles() const {
    QStringList ids;
    for (const auto& id : profile_ids()) ids << text(id);
    return ids;
}

QString DeskSeat::usualProfile() const {
    const QString usual = QStringLiteral("international-2025");
    const QStringList known = profiles();
    return known.contains(usual) ? usual : known.value(0);
}

QString DeskSeat::clock() const {
    if (book_.as_of == venue::Moment{}) return {};
    return QDateTime::fromMSecsSinceEpoch(book_.as_of.count()).toString(QStringLiteral("HH:mm"));
}

int DeskSeat::linkMark() const {
    return static_cast<int>(mark_of(link_.state));
}

QString DeskSeat::linkWord() const {
    switch (link_.state) {
        case venue::LinkState::live:
            return tr("Live");
        case venue::LinkState::connecting:
            return tr("Connecting");
        case venue::LinkState::lost:
            return tr("No connection; trying again");
        case venue::LinkState::refused:
            return text(link_.words);
    }
    return {};
}

bool DeskSeat::begin() {
    if (busy_) return false;
    busy_ = true;
    problem_.clear();
    Q_EMIT requestChanged();
    return true;
}

void DeskSeat::refuse(const QString& problem) {
    problem_ = problem;
    Q_EMIT requestChanged();
}

void DeskSeat::forgetProblem() {
    problem_.clear();
    Q_EMIT requestChanged();
}

venue::Answer DeskSeat::answer(const QString& words) {
    return [self = QPointer<DeskSeat>(this), words](const venue::Outcome& outcome) {
        if (!self) return;
        QMetaObject::invokeMethod(
            self.data(),
            [self, words, outcome] {
                if (!self) return;
                self->busy_ = false;
                self->problem_ = text(outcome.problem);
                if (outcome.done) self->wanted_match_.clear();
                Q_EMIT self->requestChanged();
                if (outcome.done) Q_EMIT self->told(words);
            },
            Qt::QueuedConnection);
    };
}

void DeskSeat::createMatch(const QString& first, const QString& second, int court,
                           const QString& profile) {
    if (first.isEmpty() || second.isEmpty()) {
        refuse(tr("Choose both teams."));
        return;
    }
    if (first == second) {
        refuse(tr("A team cannot play against itself: choose another second team."));
        return;
    }
    if (!begin()) return;
    if (wanted_match_.empty()) wanted_match_ = venue::new_match_id();
    desk_.create_match({wanted_match_, first.toStdString(), second.toStdString(),
                        static_cast<venue::CourtNumber>(court), profile.toStdString()},
                       answer(tr("The match is planned.")));
}

void DeskSeat::assignCourt(const QString& match_id, int court) {
    if (!begin()) return;
    desk_.assign_court(match_id.toStdString(), static_cast<venue::CourtNumber>(court),
                       answer(court > 0 ? tr("The match goes to court %1.").arg(court)
                                        : tr("The match is off its court.")));
}

void DeskSeat::revokeDevice(const QString& device_id, const QString& reason) {
    if (!begin()) return;
    desk_.revoke_device(device_id.toStdString(), reason.toStdString(),
                        answer(tr("The device is withdrawn.")));
}

void DeskSeat::answerTakeOver(const QString& match_id, const QString& device_id, bool consent) {
    if (!begin()) return;
    const auto answered = answer(consent ? tr("The new table goes on with the match.")
                                         : tr("The new table does not go on."));
    board_source_.answer_take_over(
        match_id.toStdString(), device_id.toStdString(), consent,
        [self = QPointer<DeskSeat>(this), answered](const venue::Outcome& outcome) {
            answered(outcome);
            if (!self || outcome.done) return;
            QMetaObject::invokeMethod(
                self.data(), [self, outcome] { Q_EMIT self->refused(text(outcome.problem)); },
                Qt::QueuedConnection);
        });
}

void DeskSeat::lookAtFork(const QString& alert_id) {
    const auto* const alert = board_.alert(alert_id.toStdString());
    if (alert == nullptr) return;
    PerTeam<QString> names{tr("team A"), tr("team B")};
    if (const auto* const court = board_.court(alert->court);
        court != nullptr && court->match_id == alert->match_id)
        names = {text(court->teams.a.name), text(court->teams.b.name)};
    const QString where = tr("%1 · %2 against %3").arg(court_words(alert->court), names.a, names.b);
    fork_.look(*alert, where, names);
}

}  // namespace courthand::seats
