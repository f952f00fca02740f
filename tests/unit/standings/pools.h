// Pools for the tests, written down as a results sheet is.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "courthand/standings/rank.h"

namespace courthand::standings {

/// A built-in chain; the test fails when it cannot be read.
inline Chain chain(std::string_view id) {
    auto read = read_chain(chain_text(id));
    if (auto* found = std::get_if<Chain>(&read)) return *found;
    ADD_FAILURE() << id << ": " << std::get<Faults>(read).front().message;
    return {};
}

/// A pool whose matches are written "ITA-GEO 25-14 25-12" or "ITA-GEO 3-0" (`sets_only`).
inline Pool pool_of(const std::vector<std::string>& teams, const std::vector<std::string>& matches,
                    bool sets_only = false) {
    Pool pool;
    pool.name = "A";
    pool.teams = teams;
    const auto index = [&](const std::string& name) {
        for (TeamIndex t = 0; t < teams.size(); ++t)
            if (teams[t] == name) return t;
        ADD_FAILURE() << name;
        return TeamIndex{0};
    };
    std::uint32_t order = 0;
    for (const std::string& line : matches) {
        const std::size_t dash = line.find('-');
        const std::size_t space = line.find(' ');
        const TeamIndex first = index(line.substr(0, dash));
        const TeamIndex second = index(line.substr(dash + 1, space - dash - 1));
        std::vector<SetScore> scores;
        for (std::size_t at = space; at != std::string::npos; at = line.find(' ', at + 1)) {
            const std::size_t middle = line.find('-', at);
            scores.push_back({static_cast<std::uint16_t>(std::stoi(line.substr(at + 1))),
                              static_cast<std::uint16_t>(std::stoi(line.substr(middle + 1)))});
        }
        ++order;
        if (sets_only)
            pool.results.push_back(
                result_in_sets(first, second, static_cast<std::uint8_t>(scores[0].first),
                               static_cast<std::uint8_t>(scores[0].second), order));
        else
            pool.results.push_back(result_in_points(first, second, scores, order));
    }
    return pool;
}

inline Table ranked(const Chain& chain, const Pool& pool) {
    auto answer = rank(chain, pool);
    if (auto* table = std::get_if<Table>(&answer)) return *table;
    ADD_FAILURE() << std::get<Faults>(answer).front().place << ": "
                  << std::get<Faults>(answer).front().message;
    return {};
}

/// "ITA BEL (CRO GEO)": teams that need a decision stand in brackets.
inline std::string order_of(const Pool& pool, const Table& table) {
    std::string all;
    for (const Place& place : table.places) {
        std::string names;
        for (const TeamIndex team : place.teams)
            names += (names.empty() ? "" : " ") + pool.teams[team];
        if (place.needs_decision()) names = "(" + names + ")";
        all += (all.empty() ? "" : " ") + names;
    }
    return all;
}

inline std::string order_under(std::string_view id, const Pool& pool) {
    return order_of(pool, ranked(chain(id), pool));
}

/// The reasons of one place, one a line.
inline std::string reasons_of(const Chain& c, const Pool& pool, std::size_t place) {
    std::string all;
    for (const std::string& line : reasons(c, pool, ranked(c, pool), place)) all += line + "\n";
    return all;
}

}  // namespace courthand::standings
