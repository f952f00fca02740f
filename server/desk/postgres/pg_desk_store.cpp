#include "server/desk/postgres/pg_desk_store.h"

#include <algorithm>

#include "server/store/postgres/text_form.h"
#include "server/store/postgres/trace.h"

namespace courthand::server::desk {

namespace {

using postgres::Database;
using postgres::id_of;

Database::Statements statements() {
    return {
        {"desk_teams",
         "select team_id, name, club, colour from team where tournament_id = $1 "
         "order by name, club"},
        {"desk_team",
         "select team_id, name, club, colour from team "
         "where tournament_id = $1 and team_id = $2"},
        {"desk_rosters",
         "select team_id, jersey, name, captain, libero from roster where tournament_id = $1 "
         "order by team_id, line, jersey"},
        {"desk_roster",
         "select team_id, jersey, name, captain, libero from roster "
         "where tournament_id = $1 and team_id = $2 order by line, jersey"},
        {"desk_team_keep",
         "insert into team (tournament_id, team_id, name, club, colour) "
         "values ($1, $2, $3, $4, $5) on conflict (tournament_id, name, club) "
         "do update set colour = excluded.colour returning team_id"},
        {"desk_roster_clear", "delete from roster where tournament_id = $1 and team_id = $2"},
        {"desk_player_add",
         "insert into roster (tournament_id, team_id, jersey, line, name, captain, libero) "
         "values ($1, $2, $3, $4, $5, $6, $7)"},
        {"desk_courts", "select court, name from court where tournament_id = $1 order by court"},
        {"desk_court_keep",
         "insert into court (tournament_id, court, name) values ($1, $2, $3) "
         "on conflict (tournament_id, court) do update set name = "
         "case when excluded.name = '' then court.name else excluded.name end"},
    };
}

Team team_of(const pqxx::row& row) {
    return {id_of<TeamId>(row[0]), row[1].c_str(), row[2].c_str(), row[3].c_str(), {}};
}

ListedPlayer player_of(const pqxx::row& row) {
    ListedPlayer player;
    player.number = Jersey{static_cast<std::uint8_t>(row[1].as<int>())};
    if (!row[2].is_null()) player.name = row[2].c_str();
    player.captain = row[3].as<bool>();
    player.libero = row[4].as<bool>();
    return player;
}

void add_players(std::vector<Team>& teams, const pqxx::result& rows) {
    for (const pqxx::row& row : rows) {
        const auto id = id_of<TeamId>(row[0]);
        const auto team = std::find_if(teams.begin(), teams.end(),
                                       [&](const Team& known) { return known.id == id; });
        if (team != teams.end()) team->players.push_back(player_of(row));
    }
}

class PgDeskStore final : public DeskStore {
  public:
    PgDeskStore(Database& database, TournamentId tournament)
        : database_{database}, tournament_{to_text(tournament)} {
        database_.add_statements(statements());
    }

    Result<std::vector<Team>> teams() override {
        return database_.perform("read the teams", [&](pqxx::work& work) {
            return read(work.exec_prepared("desk_teams", tournament_),
                        work.exec_prepared("desk_rosters", tournament_));
        });
    }

    Result<Team> team(TeamId id) override {
        Result<std::vector<Team>> found = database_.perform("read a team", [&](pqxx::work& work) {
            return read(work.exec_prepared("desk_team", tournament_, to_text(id)),
                        work.exec_prepared("desk_roster", tournament_, to_text(id)));
        });
        if (!found.ok()) return found.status();
        if (found->empty()) return Status::failed(StatusCode::not_found, "there is no such team");
        return std::move(found->front());
    }

    Result<std::vector<Team>> keep_teams(std::span<const Team> teams) override {
        return database_.perform("keep team lists", [&](pqxx::work& work) {
            std::vector<Team> kept;
            for (const Team& team : teams) kept.push_back(keep(work, team));
            postgres::leave_trace(work);
            return kept;
        });
    }

    Result<std::vector<Court>> courts() override {
        return database_.perform("read the courts", [&](pqxx::work& work) {
            std::vector<Court> courts;
            for (const pqxx::row& row : work.exec_prepared("desk_courts", tournament_))
                courts.push_back({row[0].as<std::uint32_t>(), row[1].c_str()});
            return courts;
        });
    }

    Status keep_court(const Court& court) override {
        return database_.run("keep a court", [&](pqxx::work& work) {
            work.exec_prepared("desk_court_keep", tournament_, court.number, court.name);
        });
    }

  private:
    static std::vector<Team> read(const pqxx::result& teams, const pqxx::result& players) {
        std::vector<Team> out;
        for (const pqxx::row& row : teams) out.push_back(team_of(row));
        add_players(out, players);
        return out;
    }

    Team keep(pqxx::work& work, Team team) {
        const auto row = work.exec_prepared1("desk_team_keep", tournament_, to_text(new_uuid()),
                                             team.name, team.club, team.colour);
        team.id = id_of<TeamId>(row[0]);
        work.exec_prepared("desk_roster_clear", tournament_, to_text(team.id));
        int line = 0;
        for (const ListedPlayer& player : team.players)
            work.exec_prepared("desk_player_add", tournament_, to_text(team.id),
                               static_cast<int>(player.number.number()), line++, player.name,
                               player.captain, player.libero);
        return team;
    }

    Database& database_;
    std::string tournament_;
};

}  // namespace

std::unique_ptr<DeskStore> make_pg_desk_store(postgres::Database& database,
                                              TournamentId tournament) {
    return std::make_unique<PgDeskStore>(database, tournament);
}

}  // namespace courthand::server::desk
