#include <cstdlib>
#include <iostream>
#include <map>
#include <sstream>
#include <string>

#include "courthand/standings/rank.h"
#include "probe.h"

namespace courthand::event_probe {
namespace {

using namespace courthand::standings;

[[noreturn]] void give_up(const std::string& why) {
    std::cerr << why << '\n';
    std::exit(2);
}

const Chain& chain_of(const std::string& id) {
    static std::map<std::string, Chain> read;
    auto found = read.find(id);
    if (found == read.end()) {
        auto answer = read_chain(chain_text(id));
        if (!std::holds_alternative<Chain>(answer)) give_up("no chain " + id);
        found = read.emplace(id, std::get<Chain>(answer)).first;
    }
    return found->second;
}

Result read_result(const std::string& line, std::uint32_t order) {
    std::istringstream in{line};
    TeamIndex first = 0;
    TeamIndex second = 0;
    in >> first >> second;
    std::vector<SetScore> scores;
    for (std::string score; in >> score;) {
        const std::size_t dash = score.find('-');
        scores.push_back({static_cast<std::uint16_t>(std::stoi(score)),
                          static_cast<std::uint16_t>(std::stoi(score.substr(dash + 1)))});
    }
    return result_in_points(first, second, scores, order);
}

void answer(const Chain& chain, const Pool& pool) {
    const auto ranked = rank(chain, pool);
    if (const auto* faults = std::get_if<Faults>(&ranked)) give_up(faults->front().message);
    std::string line;
    for (const Place& place : std::get<Table>(ranked).places) {
        if (!line.empty()) line += ' ';
        for (std::size_t i = 0; i < place.teams.size(); ++i)
            line += (i == 0 ? "" : "=") + std::to_string(place.teams[i]);
    }
    std::cout << line << '\n';
}

}  // namespace

int pools() {
    for (std::string line; std::getline(std::cin, line);) {
        std::istringstream head{line};
        std::string word;
        std::string id;
        std::size_t teams = 0;
        std::uint32_t matches = 0;
        head >> word >> id >> teams >> matches;
        if (word != "POOL") give_up("not a pool: " + line);
        Pool pool;
        pool.name = "A";
        for (std::uint16_t cut = 0; head >> cut;) pool.cuts.push_back(cut);
        for (std::size_t t = 0; t < teams; ++t) pool.teams.push_back("T" + std::to_string(t));
        for (std::uint32_t m = 0; m < matches && std::getline(std::cin, line); ++m)
            pool.results.push_back(read_result(line, m));
        answer(chain_of(id), pool);
    }
    return 0;
}

}  // namespace courthand::event_probe
