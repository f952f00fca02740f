#include "server/main/database_words.h"

#include <map>
#include <memory>

#include <fmt/format.h>
#include <libpq-fe.h>

namespace courthand::server {
namespace {

using Words = std::map<std::string, std::string>;

/// Nothing when libpq cannot read it. What libpq says about it may repeat a password.
std::optional<Words> words_in(const std::string& dsn) {
    const std::unique_ptr<PQconninfoOption, decltype(&PQconninfoFree)> options{
        PQconninfoParse(dsn.c_str(), nullptr), &PQconninfoFree};
    if (!options) return std::nullopt;
    Words words;
    for (const PQconninfoOption* o = options.get(); o->keyword != nullptr; ++o)
        if (o->val != nullptr) words[o->keyword] = o->val;
    return words;
}

std::string value_or(const Words& words, const char* key, const std::string& otherwise) {
    const auto found = words.find(key);
    return found == words.end() || found->second.empty() ? otherwise : found->second;
}

}  // namespace

std::optional<std::string> unreadable_database(const std::string& dsn, const std::string& option) {
    if (words_in(dsn)) return std::nullopt;
    return fmt::format(
        "{} names no database; write it as postgresql://USER@HOST:PORT/NAME, for example "
        "postgresql://courthand@127.0.0.1:5432/courthand",
        option);
}

std::string place_of_database(const std::string& dsn) {
    const Words words = words_in(dsn).value_or(Words{});
    const std::string host = value_or(words, "host", value_or(words, "hostaddr", "this computer"));
    return fmt::format("{}:{}/{}", host, value_or(words, "port", "5432"),
                       value_or(words, "dbname", "the account's own database"));
}

std::string words_of_failure(const Status& status, const std::string& dsn) {
    if (status.code != StatusCode::unavailable) return status.text();
    return fmt::format(
        "{}; it was looked for at {}. Start it there, or name another with --database, and run "
        "this again",
        status.message, place_of_database(dsn));
}

}  // namespace courthand::server
