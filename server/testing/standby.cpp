#include "server/testing/standby.h"

#include <cstdio>
#include <cstdlib>
#include <stdexcept>

#include "server/testing/server_process.h"

namespace courthand::server::testing {
namespace {

/// By the account that runs PostgreSQL: `$as` before a program, `$owner` for a folder.
void command(const std::string& line) {
    const std::string shell =
        "bin=$(ls -d /usr/lib/postgresql/*/bin | sort -V | tail -n 1)\n"
        "as= owner=\n"
        "if [ \"$(id -u)\" = 0 ]; then as='runuser -u postgres --' owner='-o postgres'; fi\n"
        "cd / && " +
        line + " >/dev/null 2>&1 </dev/null";
    if (std::system(shell.c_str()) != 0) throw std::runtime_error{line + " failed"};
}

}  // namespace

Standby::Standby(const PrivateCluster& primary, Follows follows)
    : primary_{primary}, folder_{primary.folder() / "standby"}, port_{free_port()} {
    const std::string secret = (primary.folder() / "data/postgres/admin.secret").string();
    command("install -d -m 700 $owner " + folder_.string());
    command("PGPASSWORD=$(cat " + secret + ") $as \"$bin/pg_basebackup\" -D " + folder_.string() +
            " -h 127.0.0.1 -p " + std::to_string(primary.port()) +
            " -U venue_admin -X stream -c fast" + (follows == Follows::primary ? " -R" : ""));
    command("$as touch " + (folder_ / "standby.signal").string());
    control("start");
}

Standby::~Standby() {
    try {
        control("-m immediate stop");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
    }
}

bool Standby::has_all() const {
    const std::string written = primary_.administer("select pg_current_wal_flush_lsn()");
    return primary_.administer_at(
               port_, "select pg_last_wal_replay_lsn() >= '" + written + "'::pg_lsn") == "t";
}

void Standby::stop_following() const {
    (void)primary_.administer_at(port_, "alter system set primary_conninfo = ''");
    (void)primary_.administer_at(port_, "select pg_reload_conf()");
}

bool Standby::follows() const {
    return primary_.administer(
               "select exists (select from pg_stat_replication where state = 'streaming')") == "t";
}

void Standby::promote() const {
    control("promote");
}

std::string Standby::beside(const std::string& dsn) const {
    const std::string here = "127.0.0.1:" + std::to_string(primary_.port());
    std::string both = dsn;
    return both.replace(both.find(here), here.size(), here + ",127.0.0.1:" + std::to_string(port_));
}

void Standby::control(const std::string& words) const {
    command("$as \"$bin/pg_ctl\" -w -D " + folder_.string() + " -l " + (folder_ / "log").string() +
            " -o \"-c listen_addresses=127.0.0.1 -c unix_socket_directories='' -p " +
            std::to_string(port_) + "\" " + words);
}

}  // namespace courthand::server::testing
