#include <array>
#include <iostream>
#include <string>

#include "courthand/standings/rank.h"
#include "json.h"
#include "pool_reader.h"
#include "probe.h"

namespace courthand::event_probe {
namespace {

using namespace courthand::standings;

constexpr std::array open_words{"chain-ended", "scores-missing", "place-matters"};
constexpr std::array decider_words{"lot", "play-off", "director"};

void quoted(const char* word) {
    std::cout << '"' << word << '"';
}

/// [number, [teams], [comparisons], decision or null, why open or null, who decides]
void print(const Place& place) {
    std::cout << '[' << place.number << ',';
    numbers(place.teams);
    std::cout << ',';
    numbers(place.because);
    std::cout << ',' << (place.decision ? std::to_string(*place.decision) : "null") << ',';
    if (place.open)
        quoted(open_words.at(static_cast<std::size_t>(*place.open)));
    else
        std::cout << "null";
    std::cout << ',';
    quoted(decider_words.at(static_cast<std::size_t>(place.decider)));
    std::cout << ']';
}

/// [step, [among], [[numerator, denominator]], [counted], separated]
void print(const Comparison& comparison) {
    std::cout << '[' << comparison.step << ',';
    numbers(comparison.among);
    std::cout << ',';
    list(comparison.values,
         [](const Quotient& q) { std::cout << '[' << q.numerator << ',' << q.denominator << ']'; });
    std::cout << ',';
    numbers(comparison.counted);
    std::cout << ',' << (comparison.separated ? "true" : "false") << ']';
}

/// [played, won, lost, match points, sets won, sets lost, points won, points lost]
void print(const Record& r) {
    numbers(std::array<std::int64_t, 8>{r.played, r.won, r.lost, r.match_points, r.sets_won,
                                        r.sets_lost, r.points_won, r.points_lost});
}

void print(const Table& table, const Question& question) {
    const auto each = [](const auto& item) { print(item); };
    std::cout << "{\"places\":";
    list(table.places, each);
    std::cout << ",\"comparisons\":";
    list(table.comparisons, each);
    std::cout << ",\"records\":";
    list(table.records, each);
    std::cout << ",\"unused\":";
    numbers(table.unused_decisions);
    std::cout << ",\"words\":[";
    for (std::size_t p = 0; p < table.places.size(); ++p) {
        if (p > 0) std::cout << ',';
        list(reasons(*question.chain, question.pool, table, p),
             [](const std::string& line) { std::cout << '"' << line << '"'; });
    }
    std::cout << "]}\n";
}

/// [match, who wins: 1, 2 or 0 for nobody, sets of the loser or null]
void print(const Condition& condition) {
    list(condition, [](const Requirement& r) {
        std::cout << '[' << r.match << ',' << static_cast<int>(r.winner) << ','
                  << (r.loser_sets == Requirement::any_sets ? "null" : std::to_string(r.loser_sets))
                  << ']';
    });
}

void print(const Needs& needs, const Question&) {
    const auto conditions = [](const std::vector<Condition>& all) {
        list(all, [](const Condition& condition) { print(condition); });
    };
    std::cout << "{\"exact\":" << (needs.exact ? "true" : "false")
              << ",\"with_sets\":" << (needs.with_sets ? "true" : "false")
              << ",\"courses\":" << needs.courses << ",\"error\":" << needs.error << ",\"teams\":";
    list(needs.teams, [&](const TeamNeeds& t) {
        static constexpr std::array fates{"through", "out", "undecided"};
        std::cout << "{\"team\":" << t.team << ",\"fate\":";
        quoted(fates.at(static_cast<std::size_t>(t.fate)));
        std::cout << ",\"courses\":";
        numbers(std::array{t.through, t.out, t.hangs});
        std::cout << ",\"enough\":";
        conditions(t.enough);
        std::cout << ",\"too_bad\":";
        conditions(t.too_bad);
        std::cout << '}';
    });
    std::cout << "}\n";
}

void print(const Faults& faults, const Question&) {
    // The messages of pools hold names of teams in quotation marks at most.
    std::string message = faults.front().message;
    for (char& c : message)
        if (c == '"') c = '\'';
    std::cout << "{\"fault\":\"" << message << "\"}\n";
}

}  // namespace

int pools() {
    while (const auto question = next_question(std::cin))
        std::visit([&](const auto& answer) { print(answer, *question); },
                   rank(*question->chain, question->pool));
    return 0;
}

int needs() {
    while (const auto question = next_question(std::cin))
        std::visit([&](const auto& answer) { print(answer, *question); },
                   needs_of(*question->chain, question->pool, question->open, question->cut,
                            question->length, question->seed));
    return 0;
}

}  // namespace courthand::event_probe
