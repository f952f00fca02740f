#include "server/testing/test_database.h"

#include <signal.h>
#include <stdlib.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <pqxx/pqxx>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "server/testing/server_process.h"

namespace courthand::server::testing {
namespace {

std::string admin_dsn() {
    const char* dsn = std::getenv("COURTHAND_TEST_DSN");
    if (dsn == nullptr || *dsn == '\0')
        throw std::runtime_error{
            "COURTHAND_TEST_DSN is not set: run deploy/test, or name a PostgreSQL whose role may "
            "create databases"};
    return dsn;
}

std::string new_name() {
    static std::atomic<int> count{0};
    return "courthand_test_" + std::to_string(getpid()) + "_" + std::to_string(++count);
}

}  // namespace

std::string run_on(const std::string& dsn, const std::string& sql) {
    pqxx::connection connection{dsn};
    pqxx::nontransaction session{connection};
    const pqxx::result rows = session.exec(sql);
    return rows.empty() || rows[0].empty() ? std::string{} : std::string{rows[0][0].c_str()};
}

std::string with_database(const std::string& dsn, const std::string& name) {
    const auto scheme = dsn.find("://");
    if (scheme == std::string::npos) return dsn + " dbname=" + name;
    const auto query = dsn.find('?');
    const std::string settings = query == std::string::npos ? "" : dsn.substr(query);
    const std::string base = dsn.substr(0, query);
    return base.substr(0, base.find('/', scheme + 3)) + "/" + name + settings;
}

TestDatabase::TestDatabase()
    : admin_dsn_{admin_dsn()}, name_{new_name()}, dsn_{with_database(admin_dsn_, name_)} {
    run_on(admin_dsn_, "create database " + name_);
}

TestDatabase::~TestDatabase() {
    try {
        run_on(admin_dsn_, "drop database if exists " + name_ + " with (force)");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s was not dropped: %s\n", name_.c_str(), error.what());
    }
}

std::string TestDatabase::run(const std::string& sql) const {
    return run_on(dsn_, sql);
}

PrivateCluster::PrivateCluster() : port_{free_port()} {
    std::string pattern =
        (std::filesystem::temp_directory_path() / "courthand-cluster.XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error{"cannot make a test folder"};
    folder_ = pattern;
    // The account that runs PostgreSQL must pass.
    std::filesystem::permissions(folder_, std::filesystem::perms{0755});
}

PrivateCluster::~PrivateCluster() {
    try {
        (void)command("stop");
    } catch (const std::exception&) {
        // Never started, or killed: nothing to stop.
    }
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
}

void PrivateCluster::start() {
    (void)command("start");
}

std::string PrivateCluster::administer(const std::string& sql) const {
    return administer_at(port_, sql);
}

std::string PrivateCluster::administer_at(int port, const std::string& sql) const {
    std::string secret;
    std::ifstream{folder_ / "data/postgres/admin.secret"} >> secret;
    return run_on("host=127.0.0.1 user=venue_admin dbname=postgres port=" + std::to_string(port) +
                      " password=" + secret,
                  sql);
}

std::string PrivateCluster::dsn() const {
    std::string text = command("dsn");
    while (!text.empty() && text.back() == '\n') text.pop_back();
    return text;
}

namespace {

/// Processes whose parent this is now.
std::vector<pid_t> children_of(pid_t parent) {
    std::vector<pid_t> children;
    for (const auto& entry : std::filesystem::directory_iterator{"/proc"}) {
        const std::string name = entry.path().filename().string();
        if (name.find_first_not_of("0123456789") != std::string::npos) continue;
        std::string line;
        std::getline(std::ifstream{entry.path() / "stat"}, line);
        // "pid (program) state parent ...": the program's name may hold anything.
        std::istringstream rest{line.substr(std::min(line.size(), line.rfind(')') + 1))};
        char state = 0;
        pid_t its_parent = 0;
        if (rest >> state >> its_parent && its_parent == parent)
            children.push_back(static_cast<pid_t>(std::stol(name)));
    }
    return children;
}

}  // namespace

// Its children live on for a moment, and one of them may still commit: they go with it, as they
// would if the power went.
void PrivateCluster::kill9() {
    pid_t pid = 0;
    std::ifstream{folder_ / "data/postgres/cluster/postmaster.pid"} >> pid;
    const std::vector<pid_t> children = children_of(pid);
    if (pid <= 0 || ::kill(pid, SIGKILL) != 0)
        throw std::runtime_error{"the private cluster does not run"};
    for (const pid_t child : children) (void)::kill(child, SIGKILL);
}

std::string PrivateCluster::command(const std::string& word) const {
    const std::string line = std::string{COURTHAND_DATABASE_COMMAND} + " " + word + " --data " +
                             (folder_ / "data").string() + " --db-port " + std::to_string(port_) +
                             " 2>&1 </dev/null";
    FILE* const out = popen(line.c_str(), "r");
    if (out == nullptr) throw std::runtime_error{"cannot run " + line};
    std::string said;
    std::array<char, 512> buffer;
    while (std::fgets(buffer.data(), buffer.size(), out) != nullptr) said += buffer.data();
    if (pclose(out) != 0) throw std::runtime_error{line + " failed:\n" + said};
    return said;
}

}  // namespace courthand::server::testing
