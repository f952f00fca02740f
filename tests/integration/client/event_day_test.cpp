// A small tournament from its script to its final places, with nobody at any seat: a real server,
// simulated tables, a simulated desk.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <map>

#include "courthand/event/advance.h"
#include "tests/integration/client/onlooker.h"
#include "tests/integration/client/venue_kit.h"
#include "tests/testkit/everybody.h"
#include "wire/sha256.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

using testkit::Everybody;

constexpr const char* small_cup =
    R"(# common practice, no source: two pools of three, then the places
tournament "Harbour Cup" from 2026-11-28 to 2026-11-28 zone Europe/London
division U16 profile international-2021 chain international-2017 format best-of 3 points 11 deciding 5
court 1 opens 2026-11-28T08:30 closes 2026-11-28T19:00
court 2 opens 2026-11-28T08:30 closes 2026-11-28T19:00
team "Harbour Lights" in U16
team "Mill Lane" in U16
team "Saltmarsh" in U16
team "Quayside" in U16
team "Ropewalk" in U16
team "Lantern Hill" in U16
draw U16 serpentine pools 2
bracket U16 placement prefix M size 4 to-place 2
place A1 court 1 at 2026-11-28T09:00
place A2 court 1 at 2026-11-28T09:20
place A3 court 1 at 2026-11-28T09:40
place B1 court 2 at 2026-11-28T09:00
place B2 court 2 at 2026-11-28T09:20
place B3 court 2 at 2026-11-28T09:40
place M1 court 1 at 2026-11-28T10:00
place M2 court 2 at 2026-11-28T10:00
place M3 court 1 at 2026-11-28T10:20
place M4 court 2 at 2026-11-28T10:20
)";
constexpr std::size_t matches_of_cup = 10;

std::size_t results_of(const event::TournamentState& state) {
    std::size_t counted = 0;
    for (const auto& [name, ref] : state.match_names)
        if (state.match(ref).result_counts) ++counted;
    return counted;
}

TEST(EventDay, GoesFromItsScriptToItsFinalPlaces) {
    const ScratchFolder scratch;
    const auto script = scratch.path() / "small-cup.event";
    std::ofstream{script} << small_cup;
    Venue venue{{"--event", script.string()}};
    const auto first = venue.enrol_table("table-1", 1);
    const auto second = venue.enrol_table("table-2", 2);
    Onlooker head{venue.enrol_seat("head", "head")};
    {
        Everybody everybody;
        everybody.table(first, 1);
        everybody.table(second, 2);
        everybody.desk(venue.enrol_seat("desk", "desk"));
        ASSERT_TRUE(eventually([&] { return results_of(*head.state()) == matches_of_cup; },
                               std::chrono::seconds{120}))
            << results_of(*head.state()) << " results after fact " << head.state()->last();
    }
    const auto state = head.state();
    ASSERT_EQ(state->match_names.size(), matches_of_cup);
    EXPECT_TRUE(event::waiting(*state).empty());
    const auto places = event::final_places(*state, 0);
    EXPECT_TRUE(std::any_of(places.begin(), places.end(), [](const event::Ended& ended) {
        return ended.first == 1 && ended.last == 1;
    })) << "nobody has won";
    for (const auto& [name, ref] : state->match_names) {
        const event::MatchState& match = state->match(ref);
        ASSERT_TRUE(match.result && match.result_counts) << name;
        EXPECT_EQ(match.result->from, event::ResultFrom::table) << name;
        // What was confirmed is the record as the table ended it.
        const auto& table = match.placement->court == 1 ? first : second;
        const auto record = venue.record(table, wire::Uuid{match.record.bytes}.to_text());
        ASSERT_FALSE(record.empty()) << name;
        EXPECT_EQ(match.result->head.bytes, wire::sha256(record.back())) << name;
    }
}

// Desk and tables confirm whatever they can, each as fast as it can.
TEST(EventDay, OfDeskAndSignaturesWhoeverComesFirstConfirmsAndNobodyTwice) {
    const ScratchFolder scratch;
    const auto script = scratch.path() / "small-cup.event";
    std::ofstream{script} << small_cup << "results-by signatures\n";
    Venue venue{{"--event", script.string(), "--signed-after", "0"}};
    const auto first = venue.enrol_table("table-1", 1);
    const auto second = venue.enrol_table("table-2", 2);
    Onlooker head{venue.enrol_seat("head", "head")};
    {
        Everybody everybody;
        everybody.table(first, 1, true);
        everybody.table(second, 2, true);
        everybody.desk(venue.enrol_seat("desk", "desk"));
        ASSERT_TRUE(eventually([&] { return results_of(*head.state()) == matches_of_cup; },
                               std::chrono::seconds{120}))
            << results_of(*head.state()) << " results after fact " << head.state()->last();
    }
    const auto state = head.state();
    EXPECT_TRUE(state->findings.empty()) << state->findings.front().fault.message;
    std::map<std::string, int> confirmed;
    for (const event::Fact& fact : state->facts)
        if (const auto* result = std::get_if<event::ResultConfirmed>(&fact))
            ++confirmed[result->match];
    EXPECT_EQ(confirmed.size(), matches_of_cup);
    for (const auto& [name, times] : confirmed) EXPECT_EQ(times, 1) << name;
    for (const auto& [name, ref] : state->match_names) {
        const event::MatchState& match = state->match(ref);
        ASSERT_TRUE(match.result) << name;
        const auto& table = match.placement->court == 1 ? first : second;
        const auto record = venue.record(table, wire::Uuid{match.record.bytes}.to_text());
        // The desk may confirm before the last one has signed; the result is then of that entry.
        EXPECT_TRUE(std::any_of(record.begin(), record.end(), [&](const std::string& entry) {
            return match.result->head.bytes == wire::sha256(entry);
        })) << name;
    }
}

}  // namespace
}  // namespace courthand::client
