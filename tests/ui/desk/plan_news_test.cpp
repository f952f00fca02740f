// The plan is published with what has changed since the version that is out.
#include <variant>

#include "plan_news.h"
#include "tournament_fixture.h"

namespace courthand::tests {
namespace {

TEST_F(TournamentTest, ThePlanIsPublishedWithWhatHasChangedShownFirst) {
    const auto facts =
        event_case("plan-published-and-changed", "move M3 court 1 at 2026-11-28T10:00");
    ASSERT_NO_FATAL_FAILURE(open(facts));
    ASSERT_EQ(state().plan.version, 1u);
    screen->key(Qt::Key_F8);
    screen->picture(QStringLiteral("results-plan-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    screen->click(QStringLiteral("publishPlan"));
    EXPECT_EQ(
        screen->text_of(QStringLiteral("actNote0")),
        QStringLiteral("M3: was Court 1 at 2026-11-28 10:00, now Court 2 at 2026-11-28 10:30 (fact "
                       "15: the net of court 1 is torn)"));
    Screen::settle();
    screen->picture(QStringLiteral("plan-publish-1366"));
    EXPECT_EQ(screen->cut(), QStringList());
    EXPECT_EQ(state().plan.version, 1u) << "nothing is done yet";
    record();
    const auto* const published = std::get_if<event::PlanPublished>(&last_fact());
    ASSERT_NE(published, nullptr);
    EXPECT_EQ(published->version, 2u);

    // By key, and there is no news now.
    screen->key(Qt::Key_P, Qt::ControlModifier);
    EXPECT_EQ(screen->text_of(QStringLiteral("actNote0")),
              QStringLiteral("Nothing has changed since version 2."));
}

TEST(PlanNews, SaysWhatMovedWhatCameAndWhatLostItsPlace) {
    EXPECT_EQ(seats::plan_news({}, {}),
              QStringList{QStringLiteral("No match has a court and a time yet.")});
    event::TournamentState state;
    state.plan.version = 2;
    state.plan.published["M1"].court = 3;
    state.plan.published["M1"].at = *event::local_time_of("2026-11-28T09:30");
    EXPECT_EQ(seats::plan_news(state, {}),
              QStringList{QStringLiteral("M1: was Court 3 at 2026-11-28 09:30, has no place now")});
    for (int m = 10; m < 50; ++m)
        state.plan.published["M" + std::to_string(m)] = state.plan.published["M1"];
    const QStringList many = seats::plan_news(state, {});
    ASSERT_EQ(many.size(), 25);
    EXPECT_EQ(many.back(), QStringLiteral("and 17 more"));
}

}  // namespace
}  // namespace courthand::tests
