#include "venue_day.h"

#include <fmt/format.h>

#include <QTest>
#include <algorithm>
#include <future>
#include <stdexcept>

#include "client/app/enrolled_seat.h"
#include "venue/desk_client.h"
#include "venue/match_id.h"

namespace courthand::client::test {

namespace {

/// The size of a 10-inch tablet.
constexpr int window_width = 1280;
constexpr int window_height = 800;
constexpr std::chrono::seconds patience{30};

SeatOnScreen new_screen() {
    SeatOnScreen screen;
    screen.engine = std::make_unique<QQmlApplicationEngine>();
    screen.engine->addImportPath(QStringLiteral("qrc:/qt/qml"));
    return screen;
}

void show(SeatOnScreen& screen) {
    screen.window = qobject_cast<QQuickWindow*>(screen.engine->rootObjects().constFirst());
    if (screen.window == nullptr) throw std::runtime_error{"a seat has no window"};
    screen.window->resize(window_width, window_height);
    if (!QTest::qWaitForWindowExposed(screen.window))
        throw std::runtime_error{"the window of a seat does not come up"};
}

EnrolledSeat seat_in(const std::filesystem::path& folder, Seat seat) {
    SeatOptions options;
    options.folder = folder;
    options.seat = seat;
    auto known = enrolled_seat(options);
    if (const auto* wrong = std::get_if<std::string>(&known)) throw std::runtime_error{*wrong};
    return std::get<EnrolledSeat>(std::move(known));
}

/// The team lists of the course as the desk would import them.
std::string team_lists(const MatchCourse& course) {
    const PerTeam<const char*> colours{"1f4e9e", "b3202c"};
    std::string csv = "team,number,captain,colour\n";
    for (const Team team : {Team::A, Team::B}) {
        const Roster& roster = course.roster(team);
        for (std::size_t i = 0; i < roster.count; ++i)
            csv += fmt::format("{},{},{},{}\n", course.script().names[team],
                               roster.players[i].number(),
                               roster.players[i] == roster.captain ? "yes" : "", colours[team]);
    }
    return csv;
}

/// What an act of the desk answered.
template <class Value>
class Reply {
  public:
    [[nodiscard]] std::function<void(const Value&)> taker() {
        return [this](const Value& value) { promise_.set_value(value); };
    }
    [[nodiscard]] Value wait() {
        auto future = promise_.get_future();
        if (future.wait_for(patience) != std::future_status::ready)
            throw std::runtime_error{"the server does not answer the desk"};
        return future.get();
    }

  private:
    std::promise<Value> promise_;
};

venue::Id id_of(const venue::RosterReading& reading, const std::string& name) {
    for (const venue::TeamListed& team : reading.teams)
        if (team.name == name) return team.id;
    throw std::runtime_error{"the desk has no team " + name};
}

}  // namespace

VenueDay::VenueDay(const MatchCourse& course) {
    plan(course);
    open_head();
    open_table();
}

void VenueDay::plan(const MatchCourse& course) {
    const auto folder = venue_.enrol_seat("desk", "desk");
    venue::DeskClient desk{open_channel(seat_in(folder, Seat::desk))};
    desk.start({[](const venue::DeskBook&) {}, [](const venue::Link&) {}});
    Reply<venue::RosterReading> reading;
    desk.read_roster({team_lists(course), "harbour-cup.csv", {}}, true, reading.taker());
    const venue::RosterReading read = reading.wait();
    if (!read.kept) throw std::runtime_error{"the desk does not keep the lists: " + read.failed};
    venue::MatchWanted wanted;
    wanted.match_id = venue::new_match_id();
    wanted.first_team = id_of(read, course.script().names.a);
    wanted.second_team = id_of(read, course.script().names.b);
    wanted.court = court;
    wanted.profile = course.script().profile;
    Reply<venue::Outcome> created;
    desk.create_match(wanted, created.taker());
    if (const venue::Outcome outcome = created.wait(); !outcome.done)
        throw std::runtime_error{"the desk cannot plan the match: " + outcome.problem};
    desk.stop();
}

void VenueDay::open_table() {
    table_folder_ = venue_.enrol_table("table-3", court);
    auto station = client::open_table(table_folder_, venue_.host().address());
    if (!station) throw std::runtime_error{"the table does not open"};
    if (!eventually([&] { return !station->next_match().empty(); }))
        throw std::runtime_error{"the match planned by the desk does not come to the table"};
    table_ = new_screen();
    table_screen_ = std::make_unique<TableScreen>(std::move(station), *table_.engine);
    if (const std::string wrong = table_screen_->open(); !wrong.empty())
        throw std::runtime_error{wrong};
    show(table_);
}

void VenueDay::open_head() {
    const EnrolledSeat known = seat_in(venue_.enrol_seat("head", "head"), Seat::head);
    head_ = new_screen();
    head_screen_ = std::make_unique<HeadScreen>(known, *head_.engine);
    if (const std::string wrong = head_screen_->open(false); !wrong.empty())
        throw std::runtime_error{wrong};
    show(head_);
    watch_ = std::make_unique<venue::BoardClient>(open_channel(known), "Deputy");
    watch_->start({[this](const venue::Board& board) {
                       const auto* card = board.court(court);
                       const std::scoped_lock lock{mutex_};
                       hash_on_board_ = card == nullptr ? 0 : card->state_hash;
                   },
                   [](const venue::Link&) {}});
}

std::uint64_t VenueDay::hash_on_board() const {
    const std::scoped_lock lock{mutex_};
    return hash_on_board_;
}

std::vector<std::string> VenueDay::journaled() const {
    return bytes_of_journal(table_screen_->station().journal(), match().sheet().match_id);
}

std::vector<std::string> VenueDay::stored() const {
    return venue_.record(table_folder_, match().sheet().match_id);
}

}  // namespace courthand::client::test
