// What the pages say, and what of them is news.
#include <gmock/gmock.h>

#include <set>

#include "courthand/event/pages.h"
#include "hall_of.h"

namespace courthand::server::publish {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

TEST(Pages, SayWhatStandsOnEachCourt) {
    HallView hall = testing::hall_of(testing::planned_cup());
    hall.courts[1] = testing::playing(2, 12, 9);
    hall.courts[1].serving = CourtNow::Serving::second;
    const std::string page = testing::text_at(SiteMaker{}.make(hall), "index.html");
    EXPECT_THAT(page, HasSubstr("Mill Lane</th><td class=\"sets\">0</td><td>12</td>"));
    EXPECT_THAT(page, HasSubstr("Quayside <span class=\"serves\">serves</span></th>"));
    EXPECT_THAT(page, HasSubstr("Set 1"));
    EXPECT_THAT(page, HasSubstr("<p>No match.</p>"));
}

TEST(Pages, ATeamsDayHasItsMatchesAndItsWork) {
    const HallView hall = testing::hall_of(testing::planned_cup());
    const auto made = SiteMaker{}.make(hall);
    const auto a1 = *hall.event->find_match("A1");
    const event::TeamIndex first = hall.event->side(a1, 0).team;
    const std::string page = testing::text_at(made, team_path(first));
    EXPECT_THAT(page, HasSubstr("<time datetime=\"2026-11-28T09:00\">"));
    EXPECT_THAT(page, HasSubstr("<b>2-0</b> <small>25-20 25-22</small>"));
    EXPECT_THAT(page, HasSubstr("Matches this team works"));
    EXPECT_THAT(page, HasSubstr("<link rel=\"stylesheet\""));
}

TEST(Pages, PoolsHaveTheirOrderAsFarAsItStands) {
    const HallView hall = testing::hall_of(testing::planned_cup());
    const std::string page = testing::text_at(SiteMaker{}.make(hall), "pools.html");
    EXPECT_THAT(page, HasSubstr("<td>1-0</td><td>2-0</td><td>50-42</td>"));
    EXPECT_THAT(page, HasSubstr("places are provisional"));
}

TEST(Pages, EveryLinkLeadsToAFile) {
    const auto made = SiteMaker{}.make(testing::hall_of(testing::planned_cup()));
    for (const auto& [path, file] : *made.files) {
        if (path == "page.js") continue;
        for (std::size_t at = 0; (at = file->bytes.find("href=\"", at)) != std::string::npos;) {
            at += 6;
            const std::string to = file->bytes.substr(at, file->bytes.find('"', at) - at);
            EXPECT_EQ(made.files->count(to), 1U) << path << " leads to " << to;
        }
    }
}

TEST(Pages, NamesThatLookLikeMarkupStayText) {
    const HallView hall = testing::hall_of(
        "tournament \"<b>Cup</b>\" from 2026-11-28 to 2026-11-28 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017\n"
        "team \"<script>alert('1')</script>\" in U16\n");
    const auto made = SiteMaker{}.make(hall);
    for (const auto& [path, file] : *made.files) {
        // A calendar is no markup.
        if (file->type.find("text/html") != 0) continue;
        EXPECT_THAT(file->bytes, Not(HasSubstr("<script>alert"))) << path;
        EXPECT_THAT(file->bytes, Not(HasSubstr("<b>Cup"))) << path;
    }
}

TEST(Pages, NoNameOfAPersonIsOnAnyOfThem) {
    // The state has no names of persons; numbers of players are not published either.
    const HallView hall = testing::hall_of(
        testing::planned_cup() + "person 901 player team \"Mill Lane\" jersey 77 captain\n");
    const auto made = SiteMaker{}.make(hall);
    for (const auto& [path, file] : *made.files)
        EXPECT_THAT(file->bytes, Not(::testing::ContainsRegex("[^0-9a-f]77[^0-9a-f]"))) << path;
}

TEST(Pages, ARallyIsNewsOfItsCourtAloneAndRemakesNothingElse) {
    SiteMaker maker;
    HallView hall = testing::hall_of(testing::planned_cup());
    hall.courts[1] = testing::playing(2, 12, 9);
    const auto before = maker.make(hall);
    hall.courts[1].score = {13, 9};
    const auto after = maker.make(hall);
    ASSERT_THAT(after.news, SizeIs(1));
    EXPECT_EQ(after.news[0].piece.id, "court-2");
    EXPECT_THAT(after.news[0].pages, Contains("index.html"));
    EXPECT_THAT(after.news[0].pages, Contains("court-2.html"));
    EXPECT_THAT(after.news[0].pages, Not(Contains("court-1.html")));
    EXPECT_THAT(after.remade, IsEmpty());
    EXPECT_NE(before.files->at("index.html")->etag, after.files->at("index.html")->etag);
    EXPECT_EQ(before.files->at("pools.html"), after.files->at("pools.html"));
    EXPECT_FALSE(maker.make(hall).changed());
}

TEST(Pages, APieceThatComesMakesItsPageAnew) {
    SiteMaker maker;
    HallView hall = testing::hall_of(testing::planned_cup());
    (void)maker.make(hall);
    // The court stands on the pages of the two teams from now on.
    hall.courts[1] = testing::playing(2, 0, 0);
    const auto made = maker.make(hall);
    const auto mill_lane = *hall.event->find_team("Mill Lane");
    EXPECT_THAT(made.remade, Contains(team_path(mill_lane)));
    EXPECT_THAT(made.remade, Not(Contains("index.html")));
}

TEST(Pages, AReaderOfAPageThatIsGoneIsTold) {
    SiteMaker maker;
    (void)maker.make(testing::hall_of(testing::planned_cup(), 1));
    const auto made = maker.make(testing::hall_of(event::testing::small_cup(), 2));
    EXPECT_THAT(made.remade, Contains("court-1.html"));
    EXPECT_EQ(made.files->count("court-1.html"), 0U);
}

/// The desk names them before it reopens a result (event/pages.h).
TEST(Pages, ThatChangeWhenAResultIsReopenedAreThoseThatTheDeskNames) {
    std::string played = testing::planned_cup() +
                         "place M1 court 2 at 2026-11-28T12:00 timing fixed\n"
                         "duty M2 workers 1 of A\n";
    for (const char* match : {"A2", "A3", "B1", "B2", "B3"})
        played += std::string{"result "} + match + " paper 25-20 25-20\n";
    const HallView before = testing::hall_of(played, 1);
    ASSERT_TRUE(before.event->findings.empty());
    SiteMaker maker;
    const auto was = maker.make(before);
    for (const std::string said : {"reopen A1\n", "reopen A1\nreopen B3\n", "take-back 9\n"}) {
        SCOPED_TRACE(said);
        const HallView after = testing::hall_of(played + said, 2);
        std::set<std::string> changed;
        const auto is = SiteMaker{}.make(after);
        for (const auto& [path, file] : *was.files) {
            const auto now = is.files->find(path);
            if (file->type.find("text/html") == 0 &&
                (now == is.files->end() || now->second->stamp != file->stamp))
                changed.insert(testing::title_of(file->bytes));
        }
        const auto named = event::pages_that_change(*before.event, *after.event);
        EXPECT_EQ(std::set<std::string>(named.begin(), named.end()), changed);
        EXPECT_THAT(named, Contains(event::pools_title));
    }
}

TEST(Pages, SayWhetherThePlanIsPublished) {
    const HallView draft = testing::hall_of(testing::planned_cup());
    EXPECT_THAT(testing::text_at(SiteMaker{}.make(draft), "team-1.html"),
                HasSubstr("not published yet"));
    const HallView published = testing::hall_of(testing::planned_cup() + "publish 1\n");
    EXPECT_THAT(testing::text_at(SiteMaker{}.make(published), "team-1.html"),
                HasSubstr("Plan, version 1."));
}

}  // namespace
}  // namespace courthand::server::publish
