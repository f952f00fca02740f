// The one map from exceptions of libpqxx to a Status.
#include <string_view>
#include <system_error>

#include <fmt/format.h>

#include "server/store/postgres/database.h"
#include "server/store/postgres/store_failure.h"

namespace courthand::server::postgres {
namespace {

constexpr std::string_view lost_race = "another transaction was faster";
constexpr std::string_view not_confirmed = "the database does not confirm what it keeps";

std::string first_line(const char* text) {
    const std::string_view whole{text};
    return std::string{whole.substr(0, whole.find('\n'))};
}

/// What libpq and PostgreSQL say, in words that name neither host, address nor user.
struct Reason {
    std::string_view said;
    std::string_view words;
};
constexpr Reason reasons[] = {
    {"Connection refused", "nobody answers at its address"},
    {"could not translate host name", "its host name is not known"},
    {"timeout expired", "it did not answer in time"},
    {"timed out", "it did not answer in time"},
    {"No such file or directory", "it does not run on this computer"},
    {"password authentication failed", "it does not take the password"},
    {"no password supplied", "it wants a password and none was given"},
    {"no pg_hba.conf entry", "it does not let this computer in"},
    {"role \"", "it does not know the account"},
    {"database \"", "it has no database of that name"},
    {"starting up", "it is starting"},
    {"shutting down", "it is stopping"},
    {"in recovery mode", "it is recovering"},
    {"too many clients", "it has too many connections already"},
    {"remaining connection slots", "it has too many connections already"},
    {"lock timeout", "something else holds a lock for too long"},
    {"statement timeout", "it took too long"},
    {"read-only", "it takes no changes: a standby, or out of order"},
};

std::string_view reason_of(const char* text) {
    const std::string_view said{text};
    for (const Reason& reason : reasons)
        if (said.find(reason.said) != std::string_view::npos) return reason.words;
    return "the connection broke";
}

Status unavailable(const char* what, const char* text) {
    return Status::failed(
        StatusCode::unavailable,
        fmt::format("the database cannot be reached ({}: {})", what, reason_of(text)),
        "what was sent is not lost; it is tried again by itself");
}

/// SQLSTATE classes that say "not now" rather than "not so".
bool passing_state(std::string_view state) {
    return state.starts_with("08") || state.starts_with("57P") || state.starts_with("53") ||
           state == "57014" || state == "55P03" || state == "25006";
}

/// Raised by append_guard_missed() of the schema.
constexpr std::string_view guard_missed_state = "CH001";

bool lost_race_state(std::string_view state) {
    return state == "40001" || state == "40P01";
}

Status of_sql_error(const char* what, const pqxx::sql_error& error) {
    const std::string state = error.sqlstate();
    if (lost_race_state(state))
        return Status::failed(StatusCode::conflict, std::string{lost_race}, "try again");
    if (state == guard_missed_state)
        return Status::failed(StatusCode::conflict, "another append was faster", "try again");
    if (state == "53100")
        return Status::failed(StatusCode::unavailable, "the disk of the database is full",
                              "make room; it goes on by itself");
    if (passing_state(state)) return unavailable(what, error.what());
    return Status::failed(StatusCode::internal,
                          fmt::format("{}: {} [{}]", what, first_line(error.what()), state));
}

}  // namespace

Status status_of_current_exception(const char* what) {
    try {
        throw;
    } catch (const StoreFailure& failure) {
        return failure.status();
    } catch (const pqxx::in_doubt_error&) {
        return doubtful(what);
    } catch (const pqxx::broken_connection& error) {
        return unavailable(what, error.what());
    } catch (const pqxx::unique_violation& error) {
        return Status::failed(StatusCode::already_exists,
                              fmt::format("{}: {}", what, first_line(error.what())));
    } catch (const pqxx::foreign_key_violation& error) {
        return Status::failed(StatusCode::not_found,
                              fmt::format("{}: {}", what, first_line(error.what())));
    } catch (const pqxx::sql_error& error) {
        return of_sql_error(what, error);
    } catch (const std::system_error& error) {
        // No thread is to be had for the limit of the wait: nothing has been asked to be kept.
        if (error.code() == std::errc::resource_unavailable_try_again)
            return Status::failed(StatusCode::exhausted, fmt::format("{}: {}", what, error.what()),
                                  "it is tried again by itself; when it stays so, give the server "
                                  "more threads");
        return Status::failed(StatusCode::internal, fmt::format("{}: {}", what, error.what()));
    } catch (const std::exception& error) {
        return Status::failed(StatusCode::internal, fmt::format("{}: {}", what, error.what()));
    }
}

Status doubtful(const char* what) {
    return Status::failed(
        StatusCode::in_doubt,
        fmt::format("the connection to the database broke while it was being kept ({})", what),
        "ask again: what is kept already is recognised");
}

Status unconfirmed(const char* what) {
    return Status::failed(
        StatusCode::in_doubt,
        fmt::format("{} ({}): it waits for its standby, it seems", not_confirmed, what),
        "bring the standby back, or take it out of synchronous_standby_names and reload; what a "
        "table records is sent again by itself, and whoever did anything else looks whether it is "
        "done before doing it again: this database alone has kept it, most likely");
}

bool is_unconfirmed(const Status& status) noexcept {
    return status.code == StatusCode::in_doubt && status.message.starts_with(not_confirmed);
}

bool worth_another_try(const Status& status) noexcept {
    return status.code == StatusCode::conflict && status.message == lost_race;
}

}  // namespace courthand::server::postgres
