// `courthand-server serve`: brings everything up in order, serves, and goes down in order.
#include <cstdio>
#include <fstream>
#include <stdexcept>

#include <fmt/format.h>

#include "courthand/event_script/event_script.h"
#include "server/desk/event_opening.h"
#include "server/domain/fault_log.h"
#include "server/main/composition.h"
#include "server/main/database_words.h"
#include "server/main/health.h"
#include "server/main/log.h"
#include "server/main/name_keeper.h"
#include "server/main/network.h"
#include "server/main/open_database.h"
#include "server/main/pg_stores.h"
#include "server/main/settings.h"
#include "server/main/stop_signal.h"
#include "server/main/version.h"
#include "server/publish/publisher.h"

namespace courthand::server {
namespace {

template <class T>
T or_stop(Result<T> result) {
    if (!result.ok()) throw std::runtime_error{result.status().text()};
    return *std::move(result);
}

auth::Authority open_authority(const Settings& settings) {
    std::error_code error;
    std::filesystem::create_directories(settings.data, error);
    if (error)
        throw std::runtime_error{"cannot make the data folder " + settings.data.string() + ": " +
                                 error.message() + "; choose another with --data"};
    return or_stop(
        auth::Authority::open(authority_folder(settings), std::chrono::system_clock::now()));
}

auth::ServerIdentity server_identity(const Settings& settings, const auth::Authority& authority) {
    const std::string host = settings.listen.substr(0, settings.listen.rfind(':'));
    const std::vector<std::string> names = host.empty() || host == "0.0.0.0" || host == "[::]"
                                               ? std::vector<std::string>{}
                                               : std::vector<std::string>{host};
    return or_stop(authority.server_identity(names, std::chrono::system_clock::now()));
}

void check_listen(const std::string& listen) {
    const auto colon = listen.rfind(':');
    if (colon == std::string::npos || colon + 1 == listen.size())
        throw std::runtime_error{"--listen " + listen + " has no port; write HOST:PORT"};
}

/// With what an empty tournament begins.
struct Beginning {
    desk::EventScriptRead event;  ///< no facts: nothing

    [[nodiscard]] std::string tournament_name() const {
        return event.opened ? event.opened->name : "Tournament";
    }
};

Beginning beginning_of(const Settings& settings) {
    Beginning beginning;
    if (settings.event.empty()) return beginning;
    std::ifstream in{settings.event, std::ios::binary};
    std::string text(event::largest_event_script + 1, '\0');
    in.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (in.bad())
        throw std::runtime_error{"cannot read " + settings.event.string() +
                                 "; name another file with --event"};
    text.resize(static_cast<std::size_t>(in.gcount()));
    beginning.event = or_stop(desk::read_event_script(text, settings.event.string()));
    return beginning;
}

Status begin(Composition& parts, const Beginning& beginning) {
    if (beginning.event.facts.empty()) return Status::fine();
    return parts.open_event(beginning.event);
}

/// Starts the parts, again and again while the database is away. False: asked to stop meanwhile.
bool start_parts(Composition& parts, const Beginning& beginning, StopSignal& stop) {
    Backoff backoff;
    while (true) {
        Status status = begin(parts, beginning);
        if (status.ok()) status = parts.start();
        if (status.ok()) return true;
        if (!status.passing()) throw std::runtime_error{status.text()};
        log(LogLevel::warn, "waiting-for-database", "why", status.message);
        if (stop.within(backoff.next())) return false;
    }
}

/// Pages for everyone, where the command line asks for them. A door that cannot be opened stops the
/// start: who asked for pages would look in vain.
std::unique_ptr<publish::Publisher> publisher_of(const Settings& settings, Composition& parts) {
    publish::Publisher::Ways ways;
    if (!settings.publish.empty()) ways.door = or_stop(publish::WebDoor::open(settings.publish));
    if (!settings.publish_folder.empty()) ways.folder.emplace(settings.publish_folder);
    if (!ways.door && !ways.folder) return nullptr;
    auto publisher = std::make_unique<publish::Publisher>(
        publish::Publisher::Sources{parts.basis.tournament.id, parts.record,
                                    parts.venue.keeper().board()},
        std::move(ways), [](const Status& status) {
            if (status.ok())
                log(LogLevel::info, "pages-written-again");
            else
                log(LogLevel::warn, "pages-not-written", "why", status.text());
        });
    if (const publish::WebDoor* door = publisher->door())
        log(LogLevel::info, "pages-ready", "port", door->port());
    return publisher;
}

void serve_until_stopped(const Settings& settings, const auth::ServerIdentity& identity,
                         Composition& parts, Health& health, NameKeeper& names, StopSignal& stop) {
    auto publisher = publisher_of(settings, parts);
    Network network{settings, identity, parts};
    health.show_at([&network](bool serving) { network.set_serving(serving); });
    log(LogLevel::info, "ready", "listen", network.address(), "version", version);
    if (publisher && publisher->door() != nullptr)
        fmt::print("pages at http://{}:{}/\n",
                   settings.publish.substr(0, settings.publish.rfind(':')),
                   publisher->door()->port());
    fmt::print("ready on {}\n", network.address());
    std::fflush(stdout);
    names.look(std::chrono::system_clock::now());
    while (!stop.within(Health::looks_every)) {
        health.note_append(parts.ingest.keeps_nothing_for());
        names.look(std::chrono::system_clock::now());
    }
    log(LogLevel::info, "stopping");
    health.show_at({});
    network.stop();
    publisher.reset();
    parts.stop();
}

}  // namespace

int serve(const Settings& settings) {
    StopSignal stop;
    check_listen(settings.listen);
    const Beginning beginning = beginning_of(settings);
    if (const auto wrong = unreadable_database(settings.database, "--database or DATABASE_URL"))
        throw std::runtime_error{*wrong};
    start_log(settings.log);
    set_fault_log([](std::string_view where, std::string_view what) {
        log(LogLevel::error, "fault", "where", where, "what", what);
    });
    const auth::Authority authority = open_authority(settings);
    const auth::ServerIdentity identity = server_identity(settings, authority);
    const ServerName name = count_start(settings.data);
    log(LogLevel::info, "starting", "version", version, "server", name.id, "start", name.starts);

    Foundation foundation{settings.database};
    const auto tournament = wait_for_tournament(foundation.database, foundation.matches,
                                                beginning.tournament_name(), stop);
    if (!tournament.ok()) {
        if (tournament.status().passing()) return 0;
        log(LogLevel::error, "cannot-start", "why", tournament.status().text());
        fmt::print(stderr, "courthand-server: {}\n", tournament.status().text());
        return tournament.status().code == StatusCode::schema_newer ? exit_schema_newer
                                                                    : exit_failed;
    }
    Health health;
    PgStores stores{foundation, tournament->id};
    Composition parts{{stores.stores(), *tournament, name, authority, alerts::system_now,
                       std::chrono::seconds{settings.signed_after}},
                      [&health](const Status& status) { health.note_database(status); }};
    NameKeeper names{
        {parts.basis.stores.facts, parts.basis.stores.audit}, tournament->id, settings.name_days};
    if (start_parts(parts, beginning, stop))
        serve_until_stopped(settings, identity, parts, health, names, stop);
    log(LogLevel::info, "stopped");
    stop_log();
    return 0;
}

}  // namespace courthand::server
