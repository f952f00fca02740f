// Calendars: RFC 5545, "Internet Calendaring and Scheduling Core Object Specification".
#include "server/publish/calendar.h"

#include <gmock/gmock.h>
#include <libical/ical.h>

#include <memory>
#include <sstream>

#include "hall_of.h"
#include "server/publish/court_page.h"

namespace courthand::server::publish {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

std::string value_of(const std::string& text, const std::string& name, std::size_t which = 0) {
    std::size_t at = 0;
    for (std::size_t i = 0; i <= which; ++i) at = text.find("\n" + name + ":", at) + 1;
    return text.substr(at + name.size() + 1, text.find('\r', at) - at - name.size() - 1);
}

TEST(Calendar, HasTheMatchesThatHaveATimeInUtc) {
    const HallView hall = testing::hall_of(testing::planned_cup());
    const std::string text = calendar(hall, "court 1", matches_on(hall, 1));
    EXPECT_EQ(value_of(text, "DTSTART"), "20261128T090000Z");
    EXPECT_EQ(value_of(text, "DTSTART", 1), "20261128T094000Z");
    EXPECT_EQ(value_of(text, "LOCATION"), "Court 1");
    EXPECT_THAT(calendar(hall, "court 9", matches_on(hall, 9)), Not(HasSubstr("VEVENT")));
}

TEST(Calendar, OfATeamWithoutATimeIsACalendarAllTheSame) {
    const HallView hall = testing::hall_of(event::testing::small_cup());
    const std::string text = calendar(hall, "nobody", {});
    const std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)> read{
        icalparser_parse_string(text.c_str()), &icalcomponent_free};
    ASSERT_TRUE(read);
    EXPECT_EQ(icalcomponent_count_errors(read.get()), 0);
    EXPECT_EQ(icalcomponent_count_components(read.get(), ICAL_ANY_COMPONENT), 1);
}

TEST(Calendar, AFactThatMovesNoMatchLeavesItAsItIs) {
    SiteMaker maker;
    HallView hall = testing::hall_of(testing::planned_cup(), 1);
    const auto before = maker.make(hall);
    hall = testing::hall_of(testing::planned_cup() + "result B1 paper 25-3 25-4\n", 2);
    const auto after = maker.make(hall);
    EXPECT_EQ(before.files->at("court-1.ics"), after.files->at("court-1.ics"));
    EXPECT_NE(before.files->at("pools.html"), after.files->at("pools.html"));
}

TEST(Calendar, AMoveKeepsTheUidAndRaisesTheSequence) {
    const HallView before = testing::hall_of(testing::planned_cup());
    const HallView after =
        testing::hall_of(testing::planned_cup() + "move A2 court 1 at 2026-11-28T10:30\n");
    const std::string was = calendar(before, "court 1", matches_on(before, 1));
    const std::string is = calendar(after, "court 1", matches_on(after, 1));
    EXPECT_EQ(value_of(was, "UID", 1), value_of(is, "UID", 1));
    EXPECT_NE(value_of(was, "UID", 0), value_of(was, "UID", 1));
    EXPECT_LT(std::stoul(value_of(was, "SEQUENCE", 1)), std::stoul(value_of(is, "SEQUENCE", 1)));
    EXPECT_EQ(value_of(is, "DTSTART", 1), "20261128T103000Z");
}

TEST(Calendar, TheHourOfSummerIsTakenOff) {
    // Clocks in London stand one hour before UTC until 25 October 2026 (IANA time zone database).
    const HallView hall = testing::hall_of(
        "tournament \"Harbour Cup\" from 2026-10-24 to 2026-10-25 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017\n"
        "court 1\nteam \"Quayside\" in U16\nteam \"Saltmarsh\" in U16\n"
        "match M1 in U16 first \"Quayside\" second \"Saltmarsh\"\n"
        "match M2 in U16 first \"Quayside\" second \"Saltmarsh\"\n"
        "place M1 court 1 at 2026-10-24T10:00 timing fixed\n"
        "place M2 court 1 at 2026-10-25T10:00 timing fixed\n");
    const std::string text = calendar(hall, "court 1", matches_on(hall, 1));
    EXPECT_EQ(value_of(text, "DTSTART"), "20261024T090000Z");
    EXPECT_EQ(value_of(text, "DTSTART", 1), "20261025T100000Z");
}

TEST(Calendar, NoLineIsLongerThan75BytesAndNoCharacterIsCut) {
    const std::string name = "Müller, Söhne; und " + std::string(10, 'x') + " ÄÖÜ äöü ßßßß";
    const HallView hall = testing::hall_of(
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-28 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017\n"
        "court 1\nteam \"" +
        name +
        "\" in U16\nteam \"Saltmarsh\" in U16\n"
        "match M1 in U16 first \"" +
        name +
        "\" second \"Saltmarsh\"\n"
        "place M1 court 1 at 2026-11-28T10:00 timing fixed\n");
    const std::string text = calendar(hall, "court 1", matches_on(hall, 1));
    std::istringstream lines{text};
    std::string unfolded;
    for (std::string line; std::getline(lines, line);) {
        ASSERT_FALSE(line.empty());
        EXPECT_EQ(line.back(), '\r');
        line.pop_back();
        EXPECT_LE(line.size(), 75U);
        ASSERT_FALSE(line.empty());
        const auto first = static_cast<unsigned char>(line[line.front() == ' ' ? 1 : 0]);
        EXPECT_NE(first & 0xC0U, 0x80U) << line;
        unfolded += line.front() == ' ' ? line.substr(1) : "\n" + line;
    }
    EXPECT_THAT(unfolded, HasSubstr("M1: Müller\\, Söhne\\; und xxxx"));
}

TEST(Calendar, AnIndependentLibraryReadsIt) {
    const HallView hall = testing::hall_of(testing::planned_cup());
    const std::string text = calendar(hall, "court 1", matches_on(hall, 1));
    const std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)> read{
        icalparser_parse_string(text.c_str()), &icalcomponent_free};
    ASSERT_TRUE(read);
    EXPECT_EQ(icalcomponent_count_errors(read.get()), 0);
    EXPECT_NE(icalrestriction_check(read.get()), 0) << icalcomponent_as_ical_string(read.get());
    EXPECT_EQ(icalcomponent_count_components(read.get(), ICAL_VEVENT_COMPONENT), 2);
    icalcomponent* const second = [&] {
        (void)icalcomponent_get_first_component(read.get(), ICAL_VEVENT_COMPONENT);
        return icalcomponent_get_next_component(read.get(), ICAL_VEVENT_COMPONENT);
    }();
    const icaltimetype begins = icalcomponent_get_dtstart(second);
    EXPECT_EQ(icaltime_as_timet(begins), 1'795'858'800) << icaltime_as_ical_string(begins);
    EXPECT_EQ(icaldurationtype_as_int(icalcomponent_get_duration(second)), 60 * 60);
    EXPECT_EQ(static_cast<event::FactNumber>(icalcomponent_get_sequence(second)),
              hall.event->match(*hall.event->find_match("A2")).placement->fact);
    EXPECT_STREQ(icalcomponent_get_location(second), "Court 1");
}

TEST(Calendar, AnOfficialHasTheMatchesOfHisDuty) {
    const HallView hall = testing::hall_of(testing::planned_cup() +
                                           "person 700 official\nduty A2 first-referee 700\n");
    EXPECT_THAT(matches_worked_by(hall, 700), ::testing::SizeIs(1));
    EXPECT_THAT(matches_worked_by(hall, 701), IsEmpty());
    const auto made = SiteMaker{}.make(hall);
    EXPECT_THAT(testing::text_at(made, "official-700.ics"), HasSubstr("SUMMARY:A2: "));
}

}  // namespace
}  // namespace courthand::server::publish
