// The Harbour Cup that deploy/run opens, from its first match to its final places: a real server, a
// simulated table on each of its six courts, and a desk at its window, who confirms the first
// result and the last ones by keys while a simulated desk takes the others. What it came to is
// compared with what others make of the exported record.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <QQmlApplicationEngine>
#include <QQuickWindow>
#include <QTest>
#include <algorithm>
#include <cstdio>
#include <fstream>
#include <functional>
#include <set>

#include "client/app/enrolled_seat.h"
#include "courthand/event/ending.h"
#include "desk_seat.h"
#include "screen_hand.h"
#include "tests/integration/client/venue_kit.h"
#include "tests/testkit/everybody.h"
#include "venue/board_client.h"
#include "venue/desk_client.h"
#include "venue/event_client.h"
#include "venue/export_client.h"

namespace courthand::client::test {
namespace {

constexpr int courts = 6;
constexpr std::size_t matches_of_cup = 59;
/// Of the brackets; no pool wants a lot any more when so many have their results.
constexpr std::size_t left_to_the_window = 4;
constexpr int patience_ms = 30'000;
/// Of six tables on the slowest machine.
constexpr int patience_with_the_cup_ms = 400'000;

bool comes(const std::function<bool()>& condition) {
    return QTest::qWaitFor(condition, patience_ms);
}

/// What a program prints, errors too; its exit status if it is not 0.
std::string printed(const std::string& command) {
    FILE* const pipe = popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr) return "cannot be started: " + command;
    std::string text;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe))
        text.push_back(static_cast<char>(c));
    const int status = pclose(pipe);
    if (status == 0) return text;
    return text + "exit status " + std::to_string(WEXITSTATUS(status));
}

/// The desk at its window, as the program opens it.
class DeskAtWindow {
  public:
    explicit DeskAtWindow(const EnrolledSeat& known)
        : channel_{open_channel(known)},
          board_{channel_, "Tournament desk", board_options(known)},
          desk_{channel_},
          event_{channel_, "desk at its window"},
          exporter_{channel_},
          seat_{desk_, board_, event_, exporter_, {"Harbour Cup", "desk at its window"}} {
        engine_ = std::make_unique<QQmlApplicationEngine>();
        engine_->addImportPath(QStringLiteral("qrc:/qt/qml"));
        engine_->setInitialProperties({{QStringLiteral("seat"), QVariant::fromValue(&seat_)}});
        engine_->load(QUrl{QStringLiteral("qrc:/qt/qml/Courthand/Desk/DeskWindow.qml")});
        if (engine_->rootObjects().isEmpty()) throw std::runtime_error{"the desk does not load"};
        auto* const window = qobject_cast<QQuickWindow*>(engine_->rootObjects().constFirst());
        window->resize(1366, 768);
        window->requestActivate();
        if (!QTest::qWaitForWindowActive(window)) throw std::runtime_error{"the desk is not shown"};
        hand_ = std::make_unique<ScreenHand>(*window);
    }
    ~DeskAtWindow() { engine_.reset(); }
    DeskAtWindow(const DeskAtWindow&) = delete;
    DeskAtWindow& operator=(const DeskAtWindow&) = delete;

    [[nodiscard]] ScreenHand& hand() { return *hand_; }
    [[nodiscard]] seats::EventDesk& tournament() { return *seat_.tournament(); }
    [[nodiscard]] const event::TournamentState& state() {
        return *seat_.tournament()->book().state;
    }
    [[nodiscard]] std::size_t results() {
        const auto& names = state().match_names;
        return static_cast<std::size_t>(std::count_if(
            names.begin(), names.end(),
            [this](const auto& match) { return state().match(match.second).result_counts; }));
    }
    /// The first of the results that wait, by keys: the page, its first line, what its sheet goes
    /// on with, and what the preview shows. What did not come; empty when it is confirmed.
    [[nodiscard]] std::string confirms_a_result() {
        seats::ResultPage& page = *tournament().results();
        seats::ActPreview& preview = *tournament().preview();
        hand_->key(Qt::Key_F8);
        if (!comes([&] { return page.confirmable() > 0; })) return "a result that waits";
        hand_->key(Qt::Key_Home);
        hand_->key(Qt::Key_Return);
        if (!comes([&] { return hand_->shows(QStringLiteral("confirmResult")); }))
            return "a sheet that confirms, of " + page.match().toStdString();
        const QString match = page.match();
        hand_->key(Qt::Key_Return);
        if (!comes([&] { return preview.mayAct(); }))
            return "the preview of " + match.toStdString();
        hand_->picture(QStringLiteral("cup-") + match);
        hand_->key(Qt::Key_Return);
        if (!comes([&] { return !preview.open() && !page.mayConfirm(); }))
            return "the act on " + match.toStdString();
        if (!comes([&] { return !hand_->shows(QStringLiteral("confirmResult")); }))
            return "the page after " + match.toStdString();
        return {};
    }

  private:
    std::shared_ptr<grpc::Channel> channel_;
    venue::BoardClient board_;
    venue::DeskClient desk_;
    venue::EventClient event_;
    venue::ExportClient exporter_;
    seats::DeskSeat seat_;
    std::unique_ptr<QQmlApplicationEngine> engine_;
    std::unique_ptr<ScreenHand> hand_;
};

class WholeCup : public testing::Test {
  protected:
    void SetUp() override {
        SeatOptions options;
        options.folder = venue_.enrol_seat("desk", "desk");
        options.seat = Seat::desk;
        const auto known = enrolled_seat(options);
        ASSERT_TRUE(std::holds_alternative<EnrolledSeat>(known));
        desk_ = std::make_unique<DeskAtWindow>(std::get<EnrolledSeat>(known));
        for (int court = 1; court <= courts; ++court)
            tables_.push_back(venue_.enrol_table("table-" + std::to_string(court), court));
        simulated_desk_ = venue_.enrol_seat("simulated-desk", "desk");
    }
    void TearDown() override { desk_.reset(); }

    void play_to_the_end() {
        testkit::Everybody tables;
        std::uint64_t seed = 1;
        for (const auto& table : tables_) tables.table(table, seed++);
        ASSERT_EQ(desk_->confirms_a_result(), "");
        {
            testkit::Everybody desks;
            desks.desk(simulated_desk_);
            ASSERT_TRUE(QTest::qWaitFor(
                [&] { return desk_->results() >= matches_of_cup - left_to_the_window; },
                patience_with_the_cup_ms))
                << desk_->results() << " results after fact " << desk_->state().last();
        }
        while (desk_->results() < matches_of_cup) {
            const std::size_t before = desk_->results();
            ASSERT_EQ(desk_->confirms_a_result(), "") << before << " results";
            ASSERT_TRUE(comes([&] { return desk_->results() > before; }));
        }
    }
    /// As `places.csv` of the export has them: "1 1 Mill Lane".
    [[nodiscard]] static std::set<std::string> exported_places(const std::filesystem::path& out) {
        std::ifstream file{out / "places.csv"};
        std::set<std::string> places;
        std::string line;
        std::getline(file, line);
        while (std::getline(file, line)) {
            std::replace(line.begin(), line.end(), ',', ' ');
            const auto end = line.find_last_not_of('\r');
            places.insert(line.substr(line.find(' ') + 1, end - line.find(' ')));
        }
        return places;
    }
    /// As the window shows them.
    [[nodiscard]] std::set<std::string> shown_places() {
        std::set<std::string> places;
        auto& rows = *desk_->tournament().places()->rows();
        for (int row = 0; row < rows.count(); ++row) {
            const QString place = rows.field(row, QStringLiteral("place")).toString();
            const QString first = place.section(QChar(0x2013), 0, 0);
            const QString last = place.section(QChar(0x2013), -1, -1);
            const QString name = rows.field(row, QStringLiteral("name")).toString();
            places.insert(QStringLiteral("%1 %2 %3").arg(first, last, name).toStdString());
        }
        return places;
    }

    Venue venue_{{"--event", COURTHAND_HARBOUR_CUP}};
    std::unique_ptr<DeskAtWindow> desk_;
    std::vector<std::filesystem::path> tables_;
    std::filesystem::path simulated_desk_;
};

TEST_F(WholeCup, IsPlayedConfirmedAndEndsAsOthersMakeOfItsRecord) {
    ASSERT_NO_FATAL_FAILURE(play_to_the_end());
    // Brackets are filled, and nothing waits for a person.
    auto& boxes = *desk_->tournament().bracket()->boxes();
    EXPECT_EQ(boxes.count(), 23);
    for (int row = 0; row < boxes.count(); ++row)
        for (const char* known : {"firstKnown", "secondKnown", "winner"})
            EXPECT_GT(boxes.field(row, QString::fromLatin1(known)).toInt(), 0)
                << boxes.field(row, QStringLiteral("key")).toString().toStdString();
    EXPECT_TRUE(event::event_over(desk_->state()));
    desk_->hand().key(Qt::Key_F7);
    desk_->hand().picture(QStringLiteral("cup-bracket"));
    desk_->hand().key(Qt::Key_F10);
    EXPECT_NE(desk_->hand().await(QStringLiteral("placeList")), nullptr);
    desk_->hand().picture(QStringLiteral("cup-places"));

    const ScratchFolder scratch;
    const auto out = scratch.path() / "out";
    const auto exported = server::testing::run_server_command(
        {"export", "--database", venue_.database().dsn(), "--to", out.string()});
    ASSERT_EQ(exported.exit_code, 0) << exported.output;
    // Every draw, pool and place again from the facts, and every confirmed result by its table.
    const std::string verified = printed(COURTHAND_VERIFY " " + (out / "event.jsonl").string());
    EXPECT_NE(verified.find("is whole: \"Harbour Cup\""), std::string::npos) << verified;
    EXPECT_NE(verified.find("59 matches"), std::string::npos) << verified;
    // The second model, from the results alone.
    EXPECT_EQ(printed(COURTHAND_PLAYED_CUP " --chain " COURTHAND_CHAIN " " + out.string()), "");
    const auto places = shown_places();
    EXPECT_EQ(places.size(), 24U);
    EXPECT_EQ(places, exported_places(out));
}

}  // namespace
}  // namespace courthand::client::test
