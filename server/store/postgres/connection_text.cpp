#include "server/store/postgres/connection_text.h"

#include <cstdlib>
#include <map>
#include <memory>

#include <libpq-fe.h>

namespace courthand::server::postgres {
namespace {

/// Seconds and milliseconds after which a silent database counts as gone. A table waits for its
/// answer meanwhile, and goes on recording.
constexpr const char* connect_seconds = "3";
constexpr const char* tcp_user_ms = "5000";
/// Plans are made once and kept until the database notices that a table has grown; whatever is
/// asked for by a key is to be found by its index from the first day. A plan for each call would
/// cost more than most statements.
constexpr const char* session_settings =
    "-c statement_timeout=15000 -c lock_timeout=8000 "
    "-c idle_in_transaction_session_timeout=20000 -c synchronous_commit=on -c TimeZone=UTC "
    "-c client_min_messages=warning -c plan_cache_mode=force_generic_plan -c enable_seqscan=off "
    "-c enable_hashjoin=off -c enable_mergejoin=off -c enable_sort=off -c jit=off";

std::string quoted(const std::string& value) {
    std::string text = "'";
    for (const char c : value) {
        if (c == '\'' || c == '\\') text.push_back('\\');
        text.push_back(c);
    }
    return text + "'";
}

std::map<std::string, std::string> words_of(const std::string& dsn, bool& readable) {
    std::map<std::string, std::string> words;
    const std::unique_ptr<PQconninfoOption, decltype(&PQconninfoFree)> options{
        PQconninfoParse(dsn.c_str(), nullptr), &PQconninfoFree};
    readable = options != nullptr;
    if (!readable) return words;
    for (const PQconninfoOption* o = options.get(); o->keyword != nullptr; ++o)
        if (o->val != nullptr) words[o->keyword] = o->val;
    return words;
}

/// Options that the person gave come last: PostgreSQL takes the last of two.
std::string with_options(const std::map<std::string, std::string>& words) {
    std::string options = session_settings;
    if (const auto given = words.find("options"); given != words.end())
        options += ' ' + given->second;
    else if (const char* surrounding = std::getenv("PGOPTIONS"); surrounding != nullptr)
        options.append(" ").append(surrounding);
    return options;
}

}  // namespace

std::string with_session_settings(const std::string& dsn) {
    bool readable = false;
    auto words = words_of(dsn, readable);
    if (!readable) return dsn;
    words["options"] = with_options(words);
    words.try_emplace("connect_timeout", connect_seconds);
    words.try_emplace("tcp_user_timeout", tcp_user_ms);
    words.try_emplace("application_name", "courthand-server");
    std::string text;
    for (const auto& [key, value] : words) {
        if (!text.empty()) text += ' ';
        text += key + '=' + quoted(value);
    }
    return text;
}

}  // namespace courthand::server::postgres
