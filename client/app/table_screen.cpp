#include "client/app/table_screen.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QThread>
#include <cstdio>
#include <utility>

#include <fmt/format.h>

#include "client/session/unreadable.h"

namespace courthand::client {
namespace {

/// How long a start waits for the server to name the match before the table goes on without.
constexpr int wait_for_match_ms = 3000;
constexpr int look_ms = 500;

}  // namespace

TableScreen::TableScreen(std::unique_ptr<TableStation> station, QQmlApplicationEngine& engine)
    : station_{std::move(station)}, engine_{engine} {
    timer_.setInterval(look_ms);
    connect(&timer_, &QTimer::timeout, this, &TableScreen::look);
}

TableScreen::~TableScreen() = default;

std::string TableScreen::open() {
    if (const std::string words = station_->recovery_words(); !words.empty())
        fmt::print(stderr, "{}\n", words);
    std::string wrong;
    std::string unreadable = unless_unreadable([&] { wrong = show(choose_match()); });
    if (!unreadable.empty()) return unreadable;
    if (!wrong.empty()) return wrong;
    engine_.setInitialProperties({{QStringLiteral("seat"), QVariant::fromValue(seat_.get())}});
    engine_.load(QUrl(QStringLiteral("qrc:/qt/qml/Courthand/Table/TableWindow.qml")));
    if (engine_.rootObjects().isEmpty()) return "The window of the table seat cannot be loaded.";
    timer_.start();
    return {};
}

std::string TableScreen::choose_match() {
    if (std::string id = station_->match_left_open(); !id.empty()) return id;
    QElapsedTimer waited;
    waited.start();
    do {
        if (std::string id = station_->match_to_show(); !id.empty()) return id;
        if (!station_->syncs()) break;
        QThread::msleep(50);
    } while (waited.elapsed() < wait_for_match_ms);
    practice_ = true;
    const std::string no_enrolment = station_->not_enrolled_words();
    fmt::print("{}\n", no_enrolment.empty() ? "No match is planned on this court: a practice match "
                                              "is open, which is not sent."
                                            : no_enrolment);
    auto opened = station_->open_practice("international-2025", {"Team A", "Team B"});
    if (auto* error = std::get_if<JournalError>(&opened)) {
        fmt::print(stderr, "{}\n", error->message);
        return {};
    }
    return std::get<std::string>(opened);
}

std::string TableScreen::show(const std::string& match_id) {
    auto opened = station_->open_match(match_id);
    if (auto* wrong = std::get_if<std::string>(&opened)) return std::move(*wrong);
    auto match = std::move(std::get<0>(opened));
    auto seat = std::make_unique<TableSeat>(*match);
    // Queued: the seat that asks is replaced by what it asks for.
    connect(seat.get(), &TableSeat::nextMatchWanted, this, &TableScreen::go_on,
            Qt::QueuedConnection);
    connect(seat.get(), &TableSeat::newsSeen, this,
            [this](const QString& words) { station_->forget_news(words.toStdString()); });
    // Keys are those of the person at this table, whatever the match.
    seat->keys()->choose(QString::fromStdString(station_->keys()));
    connect(seat->keys(), &KeyMap::chosen, this, [this, keys = seat->keys()] {
        if (const auto error = station_->keep_keys(keys->choices().toStdString()))
            seat_->tell(QString::fromStdString(error->message));
    });
    if (!engine_.rootObjects().isEmpty())
        engine_.rootObjects().constFirst()->setProperty("seat", QVariant::fromValue(seat.get()));
    // The old seat goes only after the window has let go of it.
    seat_ = std::move(seat);
    match_ = std::move(match);
    return {};
}

void TableScreen::look() {
    tell_unreadable([this] { look_at_match(); });
}

void TableScreen::go_on() {
    tell_unreadable([this] { show_next(); });
}

/// A disk that fails ends no window: what is shown stays, and why nothing more comes is said once.
template <class Read>
void TableScreen::tell_unreadable(Read read) {
    const std::string words = unless_unreadable(read);
    if (std::exchange(told_unreadable_, words) != words && !words.empty())
        seat_->tell(QString::fromStdString(words));
}

void TableScreen::look_at_match() {
    const bool changed = match_->poll();
    station_->record_left_rulings(match_->sheet().match_id);
    for (const std::string& words : station_->unseen_news())
        seat_->tell(QString::fromStdString(words));
    if (changed) seat_->lookAgain();
    const std::string next = following();
    // What nobody has begun gives way at once when it is a practice or was moved away, and so does
    // a match that is only watched; a finished match when the person says so.
    const bool unbegun = match_->records().empty() && (practice_ || moved());
    const bool untouched = unbegun || watches();
    if (!next.empty() && untouched) return show_next();
    seat_->setNextMatch(QString::fromStdString(next.empty() ? next : station_->words_of(next)));
}

bool TableScreen::watches() const {
    return match_->writing().who == Writing::Who::elsewhere;
}

bool TableScreen::moved() const {
    return !practice_ && station_->left_court(match_->sheet().match_id);
}

std::string TableScreen::following() {
    const bool over = match_->state().set.stage == Stage::match_over;
    if (!over && !practice_ && !watches() && !moved()) return {};
    if (over && !asked_for_next_) {
        asked_for_next_ = true;
        station_->look_at_court();
    }
    std::string next = station_->match_to_show();
    return next == match_->sheet().match_id ? std::string{} : next;
}

void TableScreen::show_next() {
    const std::string next = following();
    if (next.empty()) return;
    if (const std::string wrong = show(next); !wrong.empty()) {
        fmt::print(stderr, "{}\n", wrong);
        return;
    }
    practice_ = false;
    asked_for_next_ = false;
}

}  // namespace courthand::client
