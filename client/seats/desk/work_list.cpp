#include "work_list.h"

#include <QCoreApplication>
#include <algorithm>
#include <optional>
#include <string>

#include "desk_words.h"
#include "event_desk.h"
#include "event_work.h"
#include "venue/fork.h"

namespace courthand::seats {

namespace {

struct Desk {
    Q_DECLARE_TR_FUNCTIONS(Desk)
};

// A critical alert that nobody has taken for this long is the desk's business too.
constexpr std::chrono::seconds unclaimed_after{60};
constexpr std::chrono::minutes silent_after{3};

using Rows = std::vector<QVariantMap>;

void add(Rows& rows, const QString& key, Mark mark, const QString& title, const QString& detail,
         const Act& act = {}) {
    rows.push_back(work_row(key, mark, title, detail, act));
}

/// " · earlier match 12": nobody is to take it for the match that is on the court now.
QString named_match(const venue::Board& board, const venue::Alert& alert) {
    const QString words = match_words(alert, board.left_behind(alert));
    return words.isEmpty() ? words : QStringLiteral(" · ") + words;
}

void add_alerts(Rows& rows, const venue::Board& board) {
    for (const auto& alert : board.alerts) {
        const auto age = board.as_of - alert.since;
        const bool waits = alert.severity == Severity::critical && alert.claimed_by.empty() &&
                           age >= unclaimed_after;
        // A fork has a line of its own, with what the desk can do.
        if (!waits || alert.code == venue::forked_code) continue;
        // It is the head official's first: what only the desk can do stands above it.
        add(rows, QStringLiteral("alert-") + text(alert.id), Mark::caution,
            Desk::tr("%1: nobody is going").arg(court_words(alert.court)),
            Desk::tr("%1, open for %2").arg(alert_title(alert), span_words(age)) +
                named_match(board, alert));
    }
}

// Two devices have written one match: whoever looks first of desk and head official decides.
void add_forks(Rows& rows, const venue::Board& board) {
    for (const auto& alert : board.alerts) {
        if (alert.code != venue::forked_code) continue;
        add(rows, QStringLiteral("fork-") + text(alert.id), Mark::fault,
            Desk::tr("%1: two records of one match").arg(court_words(alert.court)),
            Desk::tr("look at both and choose which one counts"),
            {QStringLiteral("fork"), text(alert.id)});
    }
}

// A device that asks to go on with a match: whoever is first of desk and head official answers.
void add_take_overs(Rows& rows, const venue::Board& board) {
    for (const auto& alert : board.alerts) {
        if (alert.asking_device.empty()) continue;
        add(rows, QStringLiteral("take-over-") + text(alert.id), Mark::caution,
            Desk::tr("%1: another table asks to go on").arg(court_words(alert.court)),
            text(alert.sentence),
            {QStringLiteral("take-over"),
             QVariantMap{{QStringLiteral("match"), text(alert.match_id)},
                         {QStringLiteral("device"), text(alert.asking_device)}}});
    }
}

void add_refused_entries(Rows& rows, const venue::Board& board) {
    for (const auto& alert : board.alerts) {
        if (alert.code != "entries-refused") continue;
        add(rows, QStringLiteral("refused-") + text(alert.id), Mark::caution,
            Desk::tr("%1: entries that the server could not take").arg(court_words(alert.court)),
            text(alert.sentence));
    }
}

bool live(venue::MatchStatus status) {
    return status != venue::MatchStatus::signed_off && status != venue::MatchStatus::cancelled &&
           status != venue::MatchStatus::finished;
}

/// The record asks for its confirmation: it has a row there.
bool waits_in_record(const EventDesk& event, const std::optional<std::string>& name) {
    const auto& state = *event.book().state;
    const auto match = name ? state.find_match(*name) : std::nullopt;
    return match &&
           (event.tables().to_confirm(state, *match) || event.tables().to_award(state, *match));
}

void add_matches(Rows& rows, const venue::DeskBook& book, const EventDesk& event) {
    for (const auto& match : book.matches) {
        const auto name = event.names().of(match.id);
        const QString called = name               ? text(*name)
                               : match.number > 0 ? Desk::tr("Match %1").arg(match.number)
                                                  : Desk::tr("A match opened at its table");
        if (match.status == venue::MatchStatus::finished && !waits_in_record(event, name)) {
            add(rows, QStringLiteral("signed-") + text(match.id), Mark::notice,
                Desk::tr("%1 is finished, not signed").arg(called), match_words(match));
        }
        if (live(match.status) && match.court == 0) {
            add(rows, QStringLiteral("court-") + text(match.id), Mark::caution,
                Desk::tr("%1 has no court").arg(called), match_words(match),
                {QStringLiteral("court"), text(match.id)});
        }
    }
}

void add_teams(Rows& rows, const venue::DeskBook& book) {
    for (const auto& team : book.teams) {
        if (!team.players.empty()) continue;
        const bool due = std::any_of(book.matches.begin(), book.matches.end(), [&](const auto& m) {
            return live(m.status) && (m.first == team.name || m.second == team.name);
        });
        add(rows, QStringLiteral("roster-") + text(team.id), due ? Mark::caution : Mark::quiet,
            Desk::tr("%1: team list missing").arg(text(team.name)),
            due ? Desk::tr("it has a match to play") : Desk::tr("no match planned yet"),
            {QStringLiteral("roster"), {}});
    }
}

bool writes_its_court(const venue::DeskBook& book, const venue::DeviceListed& device) {
    return std::any_of(
        book.courts.begin(), book.courts.end(),
        [&](const venue::CourtListed& court) { return court.device_id == device.id; });
}

void add_devices(Rows& rows, const venue::DeskBook& book) {
    for (const auto& court : book.courts) {
        if (court.match_id.empty() || !court.device_id.empty()) continue;
        add(rows, QStringLiteral("code-%1").arg(court.number), Mark::caution,
            Desk::tr("%1 has no table device").arg(court_words(court.number)),
            Desk::tr("a match is on the court"),
            {QStringLiteral("code"), static_cast<int>(court.number)});
    }
    for (const auto& device : book.devices) {
        if (device.revoked || device.seat != venue::Seat::table || !device.last_seen) continue;
        // Another one writes there: this one was replaced, or is a spare one in its bag.
        if (!writes_its_court(book, device)) continue;
        const auto silence = book.as_of - *device.last_seen;
        if (silence < silent_after) continue;
        add(rows, QStringLiteral("seen-") + text(device.id), Mark::notice,
            Desk::tr("%1, %2: not seen for %3")
                .arg(text(device.name), court_words(device.court), span_words(silence)),
            Desk::tr(
                "send a runner; the table may be playing on. Is it gone for good: withdraw it"),
            {QStringLiteral("withdraw"), QVariantMap{{QStringLiteral("device"), text(device.id)},
                                                     {QStringLiteral("name"), text(device.name)}}});
    }
}

}  // namespace

QVariantMap work_row(const QString& key, Mark mark, const QString& title, const QString& detail,
                     const Act& act) {
    return {{QStringLiteral("key"), key},      {QStringLiteral("mark"), static_cast<int>(mark)},
            {QStringLiteral("title"), title},  {QStringLiteral("detail"), detail},
            {QStringLiteral("act"), act.name}, {QStringLiteral("subject"), act.subject}};
}

std::vector<QVariantMap> work_rows(const venue::DeskBook& book, const venue::Board& board,
                                   const EventDesk& event) {
    Rows rows = event_work_rows(event.book(), event.record_work(), event.link(), event.tables());
    // When all is played and confirmed nobody has anywhere to go.
    if (!event.record_work().over) add_alerts(rows, board);
    add_forks(rows, board);
    add_take_overs(rows, board);
    add_refused_entries(rows, board);
    add_matches(rows, book, event);
    add_teams(rows, book);
    add_devices(rows, book);
    std::stable_sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
        return a.value(QStringLiteral("mark")).toInt() < b.value(QStringLiteral("mark")).toInt();
    });
    return rows;
}

}  // namespace courthand::seats
