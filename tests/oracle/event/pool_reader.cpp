#include "pool_reader.h"

#include <cstdlib>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>

namespace courthand::event_probe {
namespace {

using namespace courthand::standings;

[[noreturn]] void give_up(const std::string& why) {
    std::cerr << why << '\n';
    std::exit(2);
}

const Chain& chain_of(const std::string& id) {
    static std::map<std::string, Chain> read;
    const auto found = read.find(id);
    if (found != read.end()) return found->second;
    std::string text{chain_text(id)};
    if (id.starts_with('/')) {
        std::ostringstream whole;
        whole << std::ifstream{id}.rdbuf();
        text = whole.str();
    }
    auto answer = read_chain(text);
    if (const auto* faults = std::get_if<Faults>(&answer))
        give_up(id + ": " + faults->front().place + ": " + faults->front().message);
    return read.emplace(id, std::get<Chain>(std::move(answer))).first->second;
}

std::vector<SetScore> scores_in(std::istream& in) {
    std::vector<SetScore> scores;
    for (std::string score; in >> score;) {
        const std::size_t dash = score.find('-');
        if (dash == std::string::npos) give_up("no score: " + score);
        scores.push_back({static_cast<std::uint16_t>(std::stoi(score)),
                          static_cast<std::uint16_t>(std::stoi(score.substr(dash + 1)))});
    }
    return scores;
}

Result result_in(std::istream& in) {
    TeamIndex first = 0;
    TeamIndex second = 0;
    std::uint32_t order = 0;
    std::string kind;
    in >> first >> second >> order >> kind;
    unsigned a = 0;
    unsigned b = 0;
    if (kind == "sets" && in >> a >> b)
        return result_in_sets(first, second, static_cast<std::uint8_t>(a),
                              static_cast<std::uint8_t>(b), order);
    if (kind == "winner" && in >> a) return result_by_winner(first, second, a == 1, order);
    static const std::map<std::string, Ending> endings{{"points", Ending::played},
                                                       {"first", Ending::forfeit_by_first},
                                                       {"second", Ending::forfeit_by_second},
                                                       {"both", Ending::forfeit_by_both}};
    const auto ending = endings.find(kind);
    if (ending == endings.end()) give_up("no result: " + kind);
    Result result = result_in_points(first, second, scores_in(in), order);
    result.ending = ending->second;
    return result;
}

void read_line(const std::string& kind, std::istream& in, Question& question) {
    Pool& pool = question.pool;
    if (kind == "M") {
        pool.results.push_back(result_in(in));
    } else if (kind == "W") {
        TeamIndex team = 0;
        std::string results;
        in >> team >> results;
        pool.withdrawals.push_back(
            {team, results == "kept" ? Withdrawal::Results::kept : Withdrawal::Results::struck});
    } else if (kind == "D") {
        pool.decisions.emplace_back();
        for (TeamIndex team = 0; in >> team;) pool.decisions.back().order.push_back(team);
    } else if (kind == "O") {
        OpenMatch match;
        in >> match.first >> match.second >> match.order;
        question.open.push_back(match);
    } else if (kind == "N") {
        std::string word;
        unsigned sets = 0;
        in >> question.cut >> word >> sets >> question.seed;
        question.length = {static_cast<std::uint8_t>(sets), word == "all"};
    } else {
        give_up("no line of a pool: " + kind);
    }
}

}  // namespace

std::optional<Question> next_question(std::istream& in) {
    std::string line;
    if (!std::getline(in, line)) return std::nullopt;
    std::istringstream head{line};
    std::string word;
    std::string id;
    std::size_t teams = 0;
    head >> word >> id >> teams;
    if (word != "POOL") give_up("not a pool: " + line);
    Question question;
    question.chain = &chain_of(id);
    question.pool.name = "A";
    for (std::uint16_t cut = 0; head >> cut;) question.pool.cuts.push_back(cut);
    for (std::size_t t = 0; t < teams; ++t) question.pool.teams.push_back("T" + std::to_string(t));
    while (std::getline(in, line) && line != "END") {
        std::istringstream rest{line};
        rest >> word;
        read_line(word, rest, question);
    }
    return question;
}

}  // namespace courthand::event_probe
