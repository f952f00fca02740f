// Which match the screen of a table shows: one that the desk has moved away gives way, one that a
// late ruling takes the end of is gone on with.
#include <gtest/gtest.h>

#include <QQmlApplicationEngine>
#include <QTest>

#include "client/app/table_screen.h"
#include "courthand/sim/match_player.h"
#include "tests/unit/client/journal_kit.h"

namespace courthand::client::test {
namespace {

class ShownMatch : public testing::Test {
  protected:
    void SetUp() override {
        TableStation::Options options;
        options.folder = folder_.path();
        options.court = 4;
        auto opened = TableStation::open(std::move(options));
        ASSERT_TRUE(std::holds_alternative<std::unique_ptr<TableStation>>(opened));
        station_ = std::move(std::get<0>(opened));
    }
    /// The sheet of a match that the desk has planned on this court.
    [[nodiscard]] StoredMatch planned(std::uint32_t number) const {
        v1::FetchMatchResponse sheet;
        const StoredMatch made =
            open_here(station_->device(), 4, "international-2025", {"Quayside", "Saltmarsh"});
        EXPECT_TRUE(sheet.ParseFromString(made.sheet));
        sheet.mutable_match()->set_number(number);
        sheet.clear_writer();
        return keep(sheet);
    }
    void put_on_court(const std::vector<StoredMatch>& matches, const std::string& id) {
        ASSERT_FALSE(station_->journal().store(matches, {{court_match_setting, id}}));
    }

    ScratchFolder folder_;
    std::unique_ptr<TableStation> station_;
};

TEST_F(ShownMatch, ThatIsMovedAwayBeforeItBeganGivesWay) {
    const StoredMatch first = planned(12);
    const StoredMatch next = planned(13);
    put_on_court({first}, first.match_id);
    QQmlApplicationEngine engine;
    engine.addImportPath(QStringLiteral("qrc:/qt/qml"));
    Journal& journal = station_->journal();
    TableScreen screen{std::move(station_), engine};
    ASSERT_EQ(screen.open(), "");
    ASSERT_EQ(screen.match().sheet().match_id, first.match_id);
    v1::FetchMatchResponse moved;
    ASSERT_TRUE(moved.ParseFromString(first.sheet));
    moved.mutable_match()->set_court(5);
    ASSERT_FALSE(journal.store({keep(moved), next}, {{court_match_setting, next.match_id}}));
    EXPECT_TRUE(
        QTest::qWaitFor([&] { return screen.match().sheet().match_id == next.match_id; }, 30000))
        << "it stays on the screen";
}

// Until the next start the table took it for finished.
TEST_F(ShownMatch, WhoseEndIsTakenBackIsGoneOnWith) {
    const StoredMatch first = planned(12);
    const StoredMatch next = planned(13);
    put_on_court({first, next}, first.match_id);
    const auto match = std::move(std::get<0>(station_->open_match(first.match_id)));
    sim::MatchPlayer player{6};
    while (const auto step = player.next(match->rules(), match->state()))
        ASSERT_FALSE(
            (step->fact ? match->record(*step->fact, step->words) : match->strike_last()).error);
    ASSERT_EQ(match->state().set.stage, Stage::match_over);
    put_on_court({}, next.match_id);
    ASSERT_EQ(station_->match_to_show(), next.match_id);
    while (match->state().set.stage == Stage::match_over) ASSERT_FALSE(match->strike_last().error);
    EXPECT_EQ(station_->match_to_show(), first.match_id);
}

// After the last rally the table was switched off: the captains stand before it and wait.
TEST_F(ShownMatch, WhoseResultWaitsForSignaturesIsThereAgainAfterARestart) {
    const StoredMatch first = planned(12);
    const StoredMatch next = planned(13);
    put_on_court({first, next}, first.match_id);
    auto match = std::move(std::get<0>(station_->open_match(first.match_id)));
    sim::MatchPlayer player{6};
    while (const auto step = player.next(match->rules(), match->state()))
        ASSERT_FALSE(
            (step->fact ? match->record(*step->fact, step->words) : match->strike_last()).error);
    put_on_court({}, next.match_id);
    ASSERT_FALSE(match->record(Signature{Signer::captain_a}).error);
    EXPECT_EQ(station_->match_left_open(), first.match_id);
    match.reset();
    {
        QQmlApplicationEngine engine;
        engine.addImportPath(QStringLiteral("qrc:/qt/qml"));
        TableScreen screen{std::move(station_), engine};
        ASSERT_EQ(screen.open(), "");
        EXPECT_EQ(screen.match().sheet().match_id, first.match_id);
    }
    SetUp();
    const auto again = std::move(std::get<0>(station_->open_match(first.match_id)));
    ASSERT_FALSE(again->record(Signature{Signer::captain_b}).error);
    ASSERT_FALSE(again->record(Signature{Signer::first_referee}).error);
    EXPECT_EQ(station_->match_left_open(), "") << "it is closed";
    EXPECT_EQ(station_->match_to_show(), next.match_id);
}

// Whoever went on did not wait for signatures.
TEST_F(ShownMatch, ThatIsBegunComesBeforeOneThatIsNotSigned) {
    const StoredMatch first = planned(12);
    const StoredMatch next = planned(13);
    put_on_court({first, next}, first.match_id);
    const auto match = std::move(std::get<0>(station_->open_match(first.match_id)));
    ASSERT_FALSE(match->record(Default{Team::B}).error);
    ASSERT_EQ(match->state().set.stage, Stage::match_over);
    put_on_court({}, next.match_id);
    const auto begun = std::move(std::get<0>(station_->open_match(next.match_id)));
    ASSERT_FALSE(begun->record(Roster{.team = Team::A}).error);
    EXPECT_EQ(station_->match_left_open(), next.match_id);
}

}  // namespace
}  // namespace courthand::client::test
