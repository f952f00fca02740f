// A database as the program before schema 31 left it: what its desk tables hold is in the record of
// the tournament once a server has started on it, and is listed as it was.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <map>

#include "courthand/rules/profile.h"
#include "device_kit.h"
#include "server/desk/postgres/pg_former_tables.h"
#include "server/service/desk_message.h"
#include "server/service/match_message.h"
#include "server/store/postgres/match_rows.h"
#include "server/store/postgres/migrations.h"
#include "server/store/postgres/pg_match_store.h"
#include "server/testing/or_throw.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {
namespace {

constexpr std::uint32_t last_of_before = 30;

/// Filled by SQL: teams with and without names of players, two teams of one name, courts, and
/// matches of which the first ten were planned, begun or moved.
class OldDatabase {
  public:
    OldDatabase(int teams, int matches) {
        postgres::Database pool{database.dsn()};
        throw_if_failed(pool.run("make an old schema", [&](pqxx::work& work) {
            work.exec(
                "create table schema_version (number integer primary key, name text not null, "
                "applied_at timestamptz not null default now())");
            for (const postgres::Migration& migration : postgres::migrations()) {
                if (migration.number > last_of_before) break;
                work.exec(std::string{migration.sql});
                work.exec_params("insert into schema_version (number, name) values ($1, $2)",
                                 migration.number, std::string{migration.name});
            }
            fill(work, teams, matches);
        }));
    }

    TestDatabase database;
    TournamentId tournament{new_uuid()};

  private:
    void fill(pqxx::work& work, int teams, int matches) {
        const std::string id = to_text(tournament);
        work.exec_params(
            "insert into tournament (tournament_id, name, generation) "
            "values ($1, 'Harbour Cup', gen_random_uuid())",
            id);
        work.exec_params(
            "insert into team (tournament_id, team_id, name, club, colour) "
            "select $1, gen_random_uuid(), 'Team ' || lpad(t::text, 3, '0'), "
            "case when t % 5 = 0 then '' else 'Club ' || t % 40 end, "
            "case when t % 3 = 0 then '' else lpad(to_hex(t * 331), 6, '0') end "
            "from generate_series(1, $2) t",
            id, teams - 1);
        // The second of the name stands after the first by its club.
        work.exec_params(
            "insert into team (tournament_id, team_id, name, club) "
            "values ($1, gen_random_uuid(), 'Team 001', 'Zenith \"Ä\"')",
            id);
        work.exec_params(
            "insert into roster (tournament_id, team_id, jersey, line, name, captain, libero) "
            "select $1, team_id, (p * 7) % 100, p, case when p % 4 = 0 then null "
            "else 'Player ' || p || ' of ' || name end, p = 2, p > 11 "
            "from team, generate_series(0, 13) p where tournament_id = $1",
            id);
        work.exec_params(
            "insert into court (tournament_id, court, name) "
            "select $1, c, case when c % 2 = 0 then 'Hall ' || c else '' end "
            "from generate_series(1, 12) c",
            id);
        fill_matches(work, id, matches);
    }

    static void fill_matches(pqxx::work& work, const std::string& id, int matches) {
        const Profile& profile = *find_profile("international-2025");
        MatchFormat three_sets = profile.rules.format;
        three_sets.sets = 3;
        work.exec_params(
            "with numbered as (select *, row_number() over (order by name, club) - 1 as n, "
            "count(*) over () as all_of from team where tournament_id = $1) "
            "insert into match (tournament_id, match_id, number, court, first_team, first_name, "
            "first_club, first_colour, second_team, second_name, second_club, second_colour, "
            "format, profile, profile_hash, status, scheduled_at, opened_at_table, head_hash, "
            "moved_in) select $1, id, m, m % 13, a.team_id, a.name, a.club, "
            "a.colour, b.team_id, b.name, b.club, b.colour, "
            "(case when m % 4 = 0 then $3 else $4 end)::smallint[], $5, $6::bytea, "
            "case when m % 50 = 49 then 3 when m % 50 = 48 then 2 else 1 end, "
            "case when m % 3 = 0 then null else timestamptz '2026-11-28 09:00:17+00' + "
            "m * interval '1 minute' end, false, sha256(uuid_send(id)), generation "
            "from tournament, (select m, gen_random_uuid() as id from generate_series(1, $2) m) "
            "planned "
            "join numbered a on a.n = m % a.all_of "
            "join numbered b on b.n = (m + 1 + m / b.all_of) % b.all_of",
            id, matches, postgres::format_text(three_sets),
            postgres::format_text(profile.rules.format), std::string{profile.id},
            postgres::profile_hash_text(profile.hash));
        // What a table opened by itself, with teams that the desk does not know.
        work.exec_params(
            "insert into match (tournament_id, match_id, number, court, first_name, second_name, "
            "format, profile, profile_hash, status, opened_at_table, head_hash, moved_in) "
            "select $1, id, 0, 5, 'Visitors', 'Strangers', $2::smallint[], $3, "
            "$4::bytea, 1, true, sha256(uuid_send(id)), generation "
            "from tournament, gen_random_uuid() id",
            id, postgres::format_text(profile.rules.format), std::string{profile.id},
            postgres::profile_hash_text(profile.hash));
    }
};

/// A match of three sets that team A wins, or its first set.
std::string script(int sets) {
    std::string text =
        "# common practice, no source: sets that go to team A\n"
        "profile international-2025\n"
        "team A \"Harbour Lights\" players 1-6 11-14 21 22 captain 3\n"
        "team B \"Mill Lane\" players 31-38 41 captain 33\n"
        "toss serve A left A\n";
    for (int set = 1; set <= sets; ++set)
        text += fmt::format(
            "set {}\nlineup A 1 2 3 4 5 6 liberos 21 22\n"
            "lineup B 31 32 33 34 35 36 liberos 41 none\nchecked A\nchecked B\nplay A25\n",
            set);
    return text;
}

class DeskMoved : public ::testing::Test {
  protected:
    /// A table writes the match of this number on the database of before.
    static void write(const OldDatabase& old, int number, int sets) {
        postgres::Database pool{old.database.dsn()};
        postgres::PgMatchStore store{pool};
        for (const StoredMatch& match : value_or_throw(store.matches(old.tournament))) {
            if (match.plan.number != static_cast<std::uint32_t>(number)) continue;
            const DeviceId device{new_uuid()};
            const MatchHead head = value_or_throw(store.grant_writer(
                {match.plan.key, device, GrantWish::How::granted, "on the day before"}));
            const wire::Uuid id{match.plan.key.match.value.bytes};
            std::vector<AppendItem> items;
            const TestRecord record = record_of(script(sets), id, device);
            for (const std::string& bytes : record.bytes())
                items.push_back(
                    value_or_throw(service::append_item(bytes, match.plan.key.match, head.grant)));
            for (const AppendResult& one : value_or_throw(store.append(old.tournament, items)))
                ASSERT_EQ(one.fate, Fate::appended) << one.message;
        }
    }

    /// What the calls list, without the time of the answer and the names of matches.
    struct Listed {
        std::vector<v1::Team> teams;
        std::vector<v1::Court> courts;
        std::vector<v1::Match> matches;
        std::vector<v1::MatchResult> results;

        /// The first message that is another one, in words; empty when all are the same.
        static std::string difference(const auto& one, const auto& other) {
            if (one.size() != other.size())
                return fmt::format("{} messages and {}", one.size(), other.size());
            for (std::size_t i = 0; i < one.size(); ++i)
                if (one[i].SerializeAsString() != other[i].SerializeAsString())
                    return one[i].ShortDebugString() + "\nand " + other[i].ShortDebugString();
            return {};
        }
        std::string difference(const Listed& other) const {
            for (const std::string& found :
                 {difference(teams, other.teams), difference(courts, other.courts),
                  difference(matches, other.matches), difference(results, other.results)})
                if (!found.empty()) return found;
            return {};
        }
    };
    static Listed listed(const ServerProcess& server) {
        Device desk = Device::at(server, auth::Seat::desk);
        Listed listed;
        v1::ListTeamsResponse teams;
        EXPECT_TRUE(call(*desk.desk, &v1::Desk::Stub::ListTeams, {}, teams).ok());
        listed.teams.assign(teams.teams().begin(), teams.teams().end());
        v1::ListCourtsResponse courts;
        EXPECT_TRUE(call(*desk.desk, &v1::Desk::Stub::ListCourts, {}, courts).ok());
        listed.courts.assign(courts.courts().begin(), courts.courts().end());
        v1::ListMatchesResponse matches;
        EXPECT_TRUE(call(*desk.desk, &v1::Desk::Stub::ListMatches, {}, matches).ok());
        listed.matches.assign(matches.matches().begin(), matches.matches().end());
        v1::ListResultsResponse results;
        EXPECT_TRUE(call(*desk.desk, &v1::Desk::Stub::ListResults, {}, results).ok());
        listed.results.assign(results.results().begin(), results.results().end());
        // What the tournament calls a match is written a moment after the first start.
        for (v1::Match& match : listed.matches) match.clear_name();
        for (v1::Court& court : listed.courts)
            if (court.has_current()) court.mutable_current()->clear_name();
        for (v1::MatchResult& result : listed.results) result.mutable_match()->clear_name();
        return listed;
    }

    static std::string count(const OldDatabase& old, const std::string& of) {
        return old.database.run("select count(*) from " + of);
    }
    static int facts_kept(const OldDatabase& old) {
        return std::stoi(count(old, "tournament_fact"));
    }
    /// One division; teams of fourteen with their lists; twelve courts; matches with their records,
    /// and their courts when they have one; a note on the team that is called otherwise.
    static std::string facts_of(int teams, int matches) {
        int facts = 1 + teams * 16 + 12 + 1;
        for (int m = 1; m <= matches; ++m)
            if (m % 50 != 49) facts += m % 13 == 0 ? 2 : 3;
        return std::to_string(facts);
    }
    static void expect_moved(const OldDatabase& old, int teams, int matches) {
        EXPECT_EQ(count(old, "tournament_fact"), facts_of(teams, matches));
        EXPECT_EQ(count(old, "team"), "0");
        EXPECT_EQ(count(old, "roster"), "0");
        EXPECT_EQ(count(old, "court"), "0");
        EXPECT_EQ(count(old, "tournament where desk_moved_at is not null"), "1");
        EXPECT_EQ(count(old, "match"), std::to_string(matches + 1));
    }
};

constexpr const char* renamed_club = "Zenith \"Ä\"";
constexpr const char* new_name = "Team 001 (Zenith \"Ä\")";

/// The team whose name was given twice, by its new one: that reaches a plan that nobody has begun a
/// moment after the start.
v1::Match with_new_name(v1::Match match) {
    for (v1::MatchTeam* const team : {match.mutable_first(), match.mutable_second()})
        if (team->club() == renamed_club) team->set_name(new_name);
    return match;
}

TEST_F(DeskMoved, WhatWasListedBeforeIsListedAfter) {
    constexpr int teams = 500;
    constexpr int matches = 1999;  // and one of a table: as many as are listed
    OldDatabase old{teams, matches};
    postgres::Database pool{old.database.dsn()};
    ASSERT_GE(value_or_throw(postgres::migrate(pool)).applied, 1U);
    // By the store of today, which writes into the columns of today.
    write(old, 1, 3);
    write(old, 2, 1);
    postgres::PgMatchStore store{pool};
    const auto tables = *value_or_throw(desk::make_pg_former_tables(pool, old.tournament)->read());
    ASSERT_EQ(tables.teams.size(), static_cast<std::size_t>(teams));
    const auto stored = value_or_throw(store.matches(old.tournament));

    ServerProcess server{{old.database.dsn(), {}, 0, {}}};
    Listed after = listed(server);
    ASSERT_EQ(after.teams.size(), tables.teams.size());
    for (std::size_t t = 0; t < tables.teams.size(); ++t) {
        v1::Team before = service::to_message(tables.teams[t], old.tournament);
        // The one message that differs: names are given once.
        if (before.club() == renamed_club) before.set_name(new_name);
        EXPECT_EQ(after.teams[t].SerializeAsString(), before.SerializeAsString())
            << before.ShortDebugString();
    }
    ASSERT_EQ(after.courts.size(), tables.courts.size());
    for (std::size_t c = 0; c < tables.courts.size(); ++c) {
        EXPECT_EQ(after.courts[c].number(), tables.courts[c].number);
        EXPECT_EQ(after.courts[c].name(), tables.courts[c].name);
    }
    std::map<std::string, std::string> plans;
    for (const StoredMatch& match : stored) {
        LiveMatch live;
        live.key = match.plan.key;
        live.plan = match.plan;
        v1::Match message;
        service::to_message(live, message);
        plans[message.match_id()] = with_new_name(message).SerializeAsString();
    }
    ASSERT_EQ(after.matches.size(), plans.size());
    for (v1::Match match : after.matches) {
        if (match.number() == 1 || match.number() == 2) {
            EXPECT_EQ(match.status(),
                      match.number() == 1 ? v1::MATCH_STATUS_FINISHED : v1::MATCH_STATUS_IN_PLAY);
            match.set_status(v1::MATCH_STATUS_SCHEDULED);
        }
        EXPECT_EQ(with_new_name(match).SerializeAsString(), plans[match.match_id()])
            << match.number();
    }
    ASSERT_EQ(after.results.size(), 2U);
    EXPECT_EQ(after.results[0].set_scores_size(), 3);
    EXPECT_EQ(after.results[0].winner(), v1::TEAM_LETTER_A);
    std::map<std::string, std::string> heads;
    for (const StoredMatch& match : stored)
        heads[to_bytes(match.plan.key.match.value)] = service::to_field(match.head.hash);
    for (const v1::MatchResult& result : after.results)
        EXPECT_EQ(result.head_hash(), heads[result.match().match_id()]);
    expect_moved(old, teams, matches);
    server.wait_for_log("desk-moved");

    server.kill9();
    server.start_again();
    Listed again = listed(server);
    for (Listed* const one : {&again, &after})
        for (v1::Match& match : one->matches) match = with_new_name(match);
    EXPECT_EQ(again.difference(after), "") << "the next start finds nothing to move";
    expect_moved(old, teams, matches);
}

TEST_F(DeskMoved, KilledInTheMiddleAndStartedAgainItEndsTheSame) {
    constexpr int teams = 300;
    constexpr int matches = 600;
    OldDatabase old{teams, matches};
    int kept = 0;
    int kills = 0;
    // Each time once some more of it is kept.
    while (kept < 3'000) {
        ServerProcess server{{old.database.dsn(), {}, 0, {}}, ServerProcess::DoNotWait{}};
        for (int now = kept; now == kept;) now = facts_kept(old);
        server.kill9();
        kept = facts_kept(old);
        ++kills;
    }
    EXPECT_LT(kept, std::stoi(facts_of(teams, matches))) << "it was not cut off";
    EXPECT_GE(kills, 2);
    ServerProcess server{{old.database.dsn(), {}, 0, {}}};
    const Listed after = listed(server);
    EXPECT_EQ(after.teams.size(), static_cast<std::size_t>(teams));
    for (const v1::Team& team : after.teams) EXPECT_EQ(team.players_size(), 14) << team.name();
    EXPECT_EQ(after.matches.size(), static_cast<std::size_t>(matches + 1));
    expect_moved(old, teams, matches);
}

TEST_F(DeskMoved, TwoServersThatStartAtOnceMoveItOnce) {
    constexpr int teams = 200;
    constexpr int matches = 400;
    OldDatabase old{teams, matches};
    ServerProcess one{{old.database.dsn(), {}, 0, {}}, ServerProcess::DoNotWait{}};
    ServerProcess other{{old.database.dsn(), {}, 0, {}}, ServerProcess::DoNotWait{}};
    one.wait_until_ready();
    other.wait_until_ready();
    // Each follows the matches by itself: what one of them opens the other has a moment later.
    Listed by_one;
    std::string difference;
    EXPECT_TRUE(testkit::eventually([&] {
        by_one = listed(one);
        difference = by_one.difference(listed(other));
        return difference.empty();
    })) << difference;
    EXPECT_EQ(by_one.teams.size(), static_cast<std::size_t>(teams));
    expect_moved(old, teams, matches);
}

}  // namespace
}  // namespace courthand::server::testing
