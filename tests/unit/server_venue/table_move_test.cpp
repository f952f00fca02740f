// What the tables of earlier programs hold comes into the record, once, however often it is begun.
#include <fmt/format.h>

#include <chrono>
#include <thread>

#include "courthand/event/act.h"
#include "courthand/event/fold.h"
#include "record_kit.h"
#include "server/desk/fitted_teams.h"
#include "server/desk/table_move.h"
#include "server/tournament/hall_clock.h"
#include "server/tournament/opening.h"

namespace courthand::server::desk {
namespace {

/// Tables of before in memory.
class Tables : public FormerTableStore {
  public:
    Result<std::optional<FormerTables>> read() override { return content; }
    Status moved(std::span<const TeamId> kept_back) override {
        kept.assign(kept_back.begin(), kept_back.end());
        content.reset();
        return Status::fine();
    }

    std::optional<FormerTables> content{std::in_place};
    std::vector<TeamId> kept;
};

Team team(const std::string& name, const std::string& club, std::uint8_t players) {
    Team made{TeamId{new_uuid()}, name, club, "0044aa", {}, {}};
    for (std::uint8_t p = 0; p < players; ++p) {
        ListedPlayer player;
        player.number = Jersey{static_cast<std::uint8_t>(players - p)};
        if (p % 2 == 0) player.name = fmt::format("Player {} of {}", p, club);
        player.captain = p == 1;
        player.libero = p == 2;
        made.players.push_back(std::move(player));
    }
    return made;
}

class TableMove : public testing::OnRecord {
  protected:
    MatchPlan planned(const Team& first, const Team& second, std::uint32_t court) {
        MatchPlan plan;
        plan.key = {tournament_, MatchId{new_uuid()}};
        plan.first = {first.id, first.name, first.club, first.colour};
        plan.second = {second.id, second.name, second.club, second.colour};
        plan.court = court;
        plan.profile = "international-2025";
        plan.profile_hash = find_profile(plan.profile)->hash;
        plan.format = find_profile(plan.profile)->rules.format;
        return value_or_throw(matches.create_match(plan));
    }
    Result<Moved> move(tournament::RecordKeeper& keeper) {
        return move_tables(tables, keeper, matches, tournament_);
    }
    /// What people see of the record: not the ids of facts.
    struct Seen {
        std::vector<Team> teams;
        std::vector<Court> courts;
        std::vector<std::pair<std::string, event::RecordId>> matches;
        friend bool operator==(const Seen&, const Seen&) = default;
    };
    Seen seen() {
        Seen seen{value_or_throw(desk->teams()), value_or_throw(desk->courts()), {}};
        for (const auto& [name, ref] : state().match_names)
            seen.matches.emplace_back(name, state().match(ref).record);
        return seen;
    }
    void fill(std::size_t teams, std::size_t planned_matches) {
        for (std::size_t t = 0; t < teams; ++t)
            tables.content->teams.push_back(team(fmt::format("Team {:03}", t), "Harbour", 6));
        tables.content->courts = {{1, "Quay"}, {2, ""}, {7, "Pier"}};
        for (std::size_t m = 0; m < planned_matches; ++m)
            (void)planned(tables.content->teams[m % teams],
                          tables.content->teams[(m + 1 + m / teams) % teams],
                          static_cast<std::uint32_t>(m % 3));
    }

    Tables tables;
};

/// As the record calls matches that had numbers alone.
std::vector<StoredMatch> named(std::vector<StoredMatch> plans) {
    for (StoredMatch& match : plans) match.plan.name = fmt::format("{}", match.plan.number);
    return plans;
}

TEST_F(TableMove, TeamsCourtsAndMatchesAreInTheRecordAsTheyWere) {
    fill(8, 12);
    const std::vector<Team> before = tables.content->teams;
    const auto plans = value_or_throw(matches.matches(tournament_));
    const Moved moved = value_or_throw(move(*record));
    EXPECT_EQ(moved.teams, 8U);
    EXPECT_EQ(moved.courts, 3U);
    EXPECT_EQ(moved.matches, 12U);
    EXPECT_TRUE(moved.notes.empty());
    auto after = value_or_throw(desk->teams());
    for (Team& team : after) team.division.clear();
    EXPECT_EQ(after, before) << "also their ids";
    const std::vector<Court> courts{{1, "Quay"}, {2, ""}, {7, "Pier"}};
    EXPECT_EQ(value_or_throw(desk->courts()), courts);
    for (const StoredMatch& match : plans) {
        const auto ref = state().find_match(fmt::format("{}", match.plan.number));
        ASSERT_TRUE(ref.has_value()) << match.plan.number;
        EXPECT_EQ(state().match(*ref).record, tournament::record_id(match.plan.key.match));
        EXPECT_EQ(state().match(*ref).placement.has_value(), match.plan.court != 0);
    }
    EXPECT_TRUE(state().findings.empty());
    EXPECT_FALSE(tables.content.has_value());

    // The opener finds every plan as it is wanted, but for the names that plans have since.
    const auto opening = tournament::opening(tournament_, record->known(), named(plans));
    EXPECT_EQ(tournament::opening(tournament_, record->known(), plans).changed.size(), 12U);
    EXPECT_TRUE(opening.records.empty());
    EXPECT_TRUE(opening.made.empty());
    EXPECT_TRUE(opening.changed.empty());

    const auto last = state().last();
    EXPECT_EQ(value_or_throw(move(*record)).teams, 0U);
    EXPECT_EQ(state().last(), last);
}

/// The tables had moments, and no time zone: the record has them in UTC.
TEST_F(TableMove, TheVenueIsOpenedInItsTimeZoneAndEveryMatchKeepsItsMoment) {
    fill(4, 0);
    const auto& teams = tables.content->teams;
    const event::LocalTime nine = *event::local_time_of("2026-07-04T09:00");
    for (std::size_t m = 0; m < 3; ++m) {
        MatchPlan plan = planned(teams[m], teams[m + 1], 1);
        // To the second, as a person may have written it.
        plan.scheduled_at = tournament::HallClock{state()}.moment(nine) + std::chrono::hours{m} +
                            std::chrono::seconds{30};
        (void)value_or_throw(matches.change_match(plan));
    }
    (void)value_or_throw(move(*record));
    const auto plans = value_or_throw(matches.matches(tournament_));
    ASSERT_EQ(event::times_without_zone(state()).size(), 3U);
    say({event::ResultConfirmed{
        "1", event::ResultFrom::paper, {{25, 20}, {25, 22}, {25, 18}}, {}, {}}});

    const event::TournamentOpened opened{"Harbour Cup", *event::date_of("2026-07-04"),
                                         *event::date_of("2026-07-05"), "Europe/Athens"};
    tournament::Act alone;
    alone.author = "desk 1";
    alone.seen = state().last();
    alone.facts = tournament::newly_said({{opened, {}}});
    const Status refused = record->act(alone).status();
    EXPECT_EQ(refused.code, StatusCode::invalid);
    EXPECT_NE(refused.cure.find("same act"), std::string::npos) << refused.text();

    // As the desk says it: each place anew, as the clock of the hall shows its moment.
    event::TournamentState in_hall;
    event::fold_in(in_hall, opened);
    std::vector<event::Fact> act{opened};
    for (const event::MatchRef ref : event::times_without_zone(state())) {
        const event::Placement& place = *state().match(ref).placement;
        const auto moment = tournament::HallClock{state()}.moment(place.at);
        act.push_back(event::MatchPlaced{state().node(ref).name, place.court,
                                         tournament::HallClock{in_hall}.shows(moment), place.timing,
                                         place.may_start_early});
    }
    say(std::move(act));
    EXPECT_EQ(event::written(state().match(*state().find_match("1")).placement->at),
              "2026-07-04T12:00");
    const auto opening = tournament::opening(tournament_, record->known(), named(plans));
    EXPECT_EQ(opening.changed.size(), 1U) << "the one that was played";
    for (const auto& changed : opening.changed) {
        EXPECT_EQ(changed.plan.status, PlanStatus::confirmed);
        const MatchPlan before = value_or_throw(matches.match(changed.plan.key)).plan;
        EXPECT_EQ(changed.plan.scheduled_at, before.scheduled_at);
    }
    EXPECT_TRUE(opening.made.empty());
}

TEST_F(TableMove, CutOffAnywhereAndBegunAgainItEndsTheSame) {
    fill(150, 500);
    const FormerTables content = *tables.content;
    (void)value_or_throw(move(*record));
    const Seen whole = seen();
    const auto facts_of_one = state().last();
    for (int acts = 0;; ++acts) {
        tables.content = content;
        testing::CutFactStore cut{matches};
        cut.acts_left = acts;
        tournament::RecordKeeper before{tournament_, cut};
        const bool done = move(before).ok();
        cut.acts_left = -1;
        record = std::make_unique<tournament::RecordKeeper>(tournament_, cut);
        desk = std::make_unique<DeskStore>(*record);
        tables.content = content;
        (void)value_or_throw(move(*record));
        EXPECT_EQ(seen(), whole) << "cut after " << acts;
        EXPECT_EQ(state().last(), facts_of_one);
        desk.reset();
        record.reset();
        if (done) break;
        ASSERT_LT(acts, 20);
    }
}

TEST_F(TableMove, TwoServersThatBeginAtOnceEndRight) {
    fill(100, 200);
    const FormerTables content = *tables.content;
    Tables of_other;
    of_other.content = content;
    tournament::RecordKeeper other{tournament_, facts};
    std::thread second{
        [&] { (void)value_or_throw(move_tables(of_other, other, matches, tournament_)); }};
    (void)value_or_throw(move(*record));
    second.join();
    ASSERT_TRUE(record->catch_up().ok());
    EXPECT_EQ(state().teams.size(), 100U);
    EXPECT_EQ(state().persons.size(), 600U);
    EXPECT_EQ(state().match_names.size(), 200U);
    EXPECT_TRUE(state().findings.empty());
    // One division, three courts; a team with its list; a match with its record and, of two in
    // three, its court.
    EXPECT_EQ(state().last(), 1U + 3U + 100U * 8U + 200U * 2U + 133U);
}

TEST_F(TableMove, OfTwoTeamsOfOneNameTheSecondIsCalledAfterItsClub) {
    tables.content->teams = {team("Quayside", "", 2), team("Quayside", "North", 3),
                             team("Quayside", "South", 4), team("Quayside (South)", "", 5)};
    const auto ids = tables.content->teams;
    const MatchPlan plan = planned(ids[1], ids[2], 1);
    const Moved moved = value_or_throw(move(*record));
    ASSERT_EQ(moved.notes.size(), 2U);
    EXPECT_EQ(moved.notes[0],
              "Quayside of North is called Quayside (North) from now on: names are given once.");
    const auto name = [&](std::size_t team) { return desk->team(ids[team].id)->name; };
    EXPECT_EQ(name(0), "Quayside");
    EXPECT_EQ(name(1), "Quayside (North)");
    EXPECT_EQ(name(2), "Quayside (South) 2") << "a name that was given is not taken away";
    EXPECT_EQ(name(3), "Quayside (South)");
    for (std::size_t t = 0; t < 4; ++t)
        EXPECT_EQ(desk->team(ids[t].id)->players, ids[t].players) << t;
    // The desk finds it written down beside the team.
    const auto known = record->known();
    std::size_t notes = 0;
    for (const auto& [fact, words] : *known.words)
        if (std::holds_alternative<event::NoteWritten>(known.state->facts[fact - 1])) {
            ++notes;
            EXPECT_NE(words.find("from now on"), std::string::npos);
        }
    EXPECT_EQ(notes, 2U);
    EXPECT_EQ(matches.match(plan.key)->plan.first.name, "Quayside") << "plans stay as they are";
    EXPECT_EQ(moved.matches, 1U);
}

TEST_F(TableMove, WhatTheRecordCannotHaveStaysAndIsTold) {
    tables.content->teams = {team("A\tteam", "Harbour", 30), team("Quayside", "", 2)};
    tables.content->teams[0].colour = "blue";
    const auto ids = tables.content->teams;
    (void)planned(ids[0], team("Stranger", "", 1), 1);
    MatchPlan cancelled = planned(ids[0], ids[1], 0);
    cancelled.status = PlanStatus::cancelled;
    (void)value_or_throw(matches.change_match(cancelled));
    MatchPlan old = planned(ids[0], ids[1], 0);
    old.profile = "international-1999";
    (void)value_or_throw(matches.change_match(old));
    (void)planned(ids[0], ids[1], 2);
    const Moved moved = value_or_throw(move(*record));
    EXPECT_EQ(tables.kept, std::vector{ids[0].id});
    EXPECT_EQ(moved.matches, 1U);
    EXPECT_EQ(moved.notes.size(), 6U);
    EXPECT_EQ(desk->team(ids[0].id)->name, "A team");
    EXPECT_EQ(desk->team(ids[0].id)->players.size(), 24U);
    EXPECT_EQ(desk->team(ids[0].id)->colour, "");
    EXPECT_EQ(matches.matches(tournament_)->size(), 4U);
}

TEST_F(TableMove, NamesAreCutBetweenLetters) {
    std::string name(63, 'x');
    EXPECT_EQ(fitted_name(name + "éa"), name);
    EXPECT_EQ(fitted_name(name + "aé"), name + "a");
}

}  // namespace
}  // namespace courthand::server::desk
