#include <iostream>

#include "courthand/draw/pools.h"
#include "courthand/draw/round_robin.h"
#include "json.h"
#include "probe.h"

namespace courthand::event_probe {

using namespace courthand::draw;

namespace {

/// How many different seeds of the generator are tried.
constexpr std::uint64_t seeds = 3;

void print(Pairing pair) {
    std::cout << '[' << pair.first << ',' << pair.second << ']';
}

void print_fixtures(const OrderOfPlay& order) {
    list(order.fixtures, [](const Fixture& f) {
        numbers(std::vector<unsigned>{f.slot, f.court, f.teams.first, f.teams.second,
                                      f.worker.value_or(0)});
    });
}

/// The order, and under "twice" that of a double round robin.
void print_order(std::uint16_t teams, std::uint16_t courts) {
    const auto order = std::get<OrderOfPlay>(order_of_play(teams, courts));
    const OrderOfPlay twice = with_second_leg(order);
    std::cout << "{\"teams\":" << teams << ",\"courts\":" << courts << ",\"slots\":" << order.slots
              << ",\"from_elsewhere\":" << order.from_elsewhere
              << ",\"noted\":" << (order.note.empty() ? "false" : "true") << ",\"fixtures\":";
    print_fixtures(order);
    std::cout << ",\"twice\":{\"slots\":" << twice.slots
              << ",\"from_elsewhere\":" << twice.from_elsewhere << ",\"fixtures\":";
    print_fixtures(twice);
    std::cout << "}}\n";
}

/// Clubs and pools of the last event by the number of the team; none for some.
std::vector<Entry> entries_of(std::size_t teams) {
    std::vector<Entry> entries(teams);
    for (std::size_t i = 0; i < teams; ++i) {
        entries[i].name = "T" + std::to_string(i + 1);
        if (i * 7 % 5 != 0) entries[i].club = std::to_string(i * 7 % 5);
        if (i * 5 % 7 > 1) entries[i].last_pool = std::to_string(i * 5 % 7);
    }
    return entries;
}

/// [kind, pool, [teams], distance]
void print_breaches(const std::vector<Breach>& breaches) {
    list(breaches, [](const Breach& b) {
        std::cout << '[' << static_cast<int>(b.kind) << ',' << b.pool << ',';
        numbers(b.teams);
        std::cout << ',' << b.distance << ']';
    });
}

void print_pools(const Pools& pools) {
    list(pools, [](const auto& pool) { numbers(pool); });
}

void print_change(const Pools& before, const std::vector<Entry>& entries, const Change& change) {
    std::cout << "{\"clubs\":";
    list(entries, [](const Entry& e) { std::cout << '"' << e.club << '"'; });
    std::cout << ",\"last_pools\":";
    list(entries, [](const Entry& e) { std::cout << '"' << e.last_pool << '"'; });
    std::cout << ",\"before\":";
    print_pools(before);
    std::cout << ",\"after\":";
    print_pools(change.pools);
    std::cout << ",\"broken\":";
    print_breaches(change.broken);
    std::cout << ",\"mended\":";
    print_breaches(change.mended);
    std::cout << "}\n";
}

}  // namespace

int moves() {
    for (std::size_t pools = 2; pools <= 5; ++pools)
        for (std::size_t teams = fewest_in_pool * pools; teams <= 5 * pools; ++teams) {
            const auto entries = entries_of(teams);
            const auto before = std::get<Pools>(drawn_in_rows(teams, pools, teams));
            for (Seed a = 1; a <= teams; ++a) {
                const auto moved = move_team(before, entries, {}, a, a % pools);
                if (const auto* change = std::get_if<Change>(&moved))
                    print_change(before, entries, *change);
                const auto b = static_cast<Seed>(1 + a * 5U % teams);
                const auto swapped = swap_teams(before, entries, {}, a, b);
                if (const auto* change = std::get_if<Change>(&swapped))
                    print_change(before, entries, *change);
            }
        }
    return 0;
}

int draws() {
    for (std::size_t pools = 1; pools <= most_pools; ++pools)
        for (std::size_t teams = fewest_in_pool * pools; teams <= most_in_pool * pools; ++teams)
            for (std::uint64_t seed = 0; seed < seeds; ++seed) {
                std::cout << "{\"teams\":" << teams << ",\"pools\":" << pools
                          << ",\"seed\":" << seed << ",\"snake\":";
                print_pools(std::get<Pools>(serpentine(teams, pools)));
                std::cout << ",\"drawn\":";
                print_pools(std::get<Pools>(drawn_in_rows(teams, pools, seed)));
                std::cout << "}\n";
            }
    return 0;
}

int lots() {
    constexpr std::size_t most = 64;
    for (std::size_t teams = 2; teams <= most; ++teams)
        for (std::size_t kept = 0; kept <= teams; kept += 1 + teams / 4)
            for (std::uint64_t seed = 0; seed < seeds; ++seed) {
                std::cout << "{\"teams\":" << teams << ",\"kept\":" << kept << ",\"seed\":" << seed
                          << ",\"drawn\":";
                numbers(drawn_by_lot(teams, kept, seed));
                std::cout << "}\n";
            }
    return 0;
}

int rounds() {
    for (std::uint16_t n = fewest_in_round_robin; n <= most_in_round_robin; ++n) {
        std::cout << "{\"teams\":" << n << ",\"rounds\":";
        list(std::get<std::vector<Round>>(circle(n)),
             [](const Round& round) { list(round.matches, &print); });
        std::cout << "}\n";
    }
    return 0;
}

int orders() {
    constexpr std::uint16_t most_courts = 9;
    for (std::uint16_t n = fewest_in_round_robin; n <= most_in_round_robin; ++n)
        for (std::uint16_t courts = 1; courts <= most_courts; ++courts) print_order(n, courts);
    return 0;
}

}  // namespace courthand::event_probe
