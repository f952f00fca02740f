#include "server/desk/postgres/pg_former_tables.h"

#include <map>
#include <string>

#include "server/store/postgres/text_form.h"

namespace courthand::server::desk {

namespace {

using postgres::ArrayText;
using postgres::Database;
using postgres::id_of;

Database::Statements statements() {
    return {
        {"former_left", "select desk_moved_at is null from tournament where tournament_id = $1"},
        {"former_teams",
         "select team_id, name, club, colour from team where tournament_id = $1 "
         "order by name, club, team_id"},
        {"former_players",
         "select team_id, jersey, name, captain, libero from roster where tournament_id = $1 "
         "order by team_id, line, jersey"},
        {"former_courts", "select court, name from court where tournament_id = $1 order by court"},
        {"former_players_moved",
         "delete from roster where tournament_id = $1 and team_id <> all($2::uuid[])"},
        {"former_teams_moved",
         "delete from team where tournament_id = $1 and team_id <> all($2::uuid[])"},
        {"former_courts_moved", "delete from court where tournament_id = $1"},
        {"former_moved",
         "update tournament set desk_moved_at = now() where tournament_id = $1 "
         "and desk_moved_at is null"},
    };
}

ListedPlayer player_of(const pqxx::row& row) {
    ListedPlayer player;
    player.number = Jersey{static_cast<std::uint8_t>(row[1].as<int>())};
    if (!row[2].is_null()) player.name = row[2].c_str();
    player.captain = row[3].as<bool>();
    player.libero = row[4].as<bool>();
    return player;
}

class PgFormerTables final : public FormerTableStore {
  public:
    PgFormerTables(Database& database, TournamentId tournament)
        : database_{database}, tournament_{to_text(tournament)} {
        database_.add_statements(statements());
    }

    Result<std::optional<FormerTables>> read() override {
        return database_.perform(
            "read the tables of before", [&](pqxx::work& work) -> std::optional<FormerTables> {
                // Another server may be emptying them.
                work.exec("set transaction isolation level repeatable read");
                const pqxx::result left = work.exec_prepared("former_left", tournament_);
                if (left.empty() || !left[0][0].as<bool>()) return std::nullopt;
                FormerTables tables;
                for (const pqxx::row& row : work.exec_prepared("former_teams", tournament_))
                    tables.teams.push_back({id_of<TeamId>(row[0]),
                                            row[1].c_str(),
                                            row[2].c_str(),
                                            row[3].c_str(),
                                            {},
                                            {}});
                add_players(work.exec_prepared("former_players", tournament_), tables.teams);
                for (const pqxx::row& row : work.exec_prepared("former_courts", tournament_))
                    tables.courts.push_back({row[0].as<std::uint32_t>(), row[1].c_str()});
                return tables;
            });
    }

    Status moved(std::span<const TeamId> kept_back) override {
        return database_.run("empty the tables of before", [&](pqxx::work& work) {
            ArrayText kept;
            for (const TeamId team : kept_back) kept.add(to_text(team));
            work.exec_prepared("former_players_moved", tournament_, kept.text());
            work.exec_prepared("former_teams_moved", tournament_, kept.text());
            work.exec_prepared("former_courts_moved", tournament_);
            work.exec_prepared("former_moved", tournament_);
        });
    }

  private:
    static void add_players(const pqxx::result& rows, std::vector<Team>& teams) {
        std::map<TeamId, Team*> by_id;
        for (Team& team : teams) by_id[team.id] = &team;
        for (const pqxx::row& row : rows)
            if (const auto team = by_id.find(id_of<TeamId>(row[0])); team != by_id.end())
                team->second->players.push_back(player_of(row));
    }

    Database& database_;
    std::string tournament_;
};

}  // namespace

std::unique_ptr<FormerTableStore> make_pg_former_tables(Database& database,
                                                        TournamentId tournament) {
    return std::make_unique<PgFormerTables>(database, tournament);
}

}  // namespace courthand::server::desk
