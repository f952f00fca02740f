// Tables of international events as they were published, recomputed from their results. The source
// of each stands beside it.
#include <algorithm>
#include <ostream>

#include "pools.h"

namespace courthand::standings {
namespace {

struct Row {
    const char* team;
    int won;
    int match_points;
    int sets_won;
    int sets_lost;
    int points_won = -1;  ///< -1: not published
    int points_lost = -1;
    const char* set_quotient = "";
    const char* point_quotient = "";
};

struct Published {
    const char* name;
    std::vector<std::string> matches;
    bool sets_only;
    std::vector<Row> rows;  ///< best first
};

void PrintTo(const Published& p, std::ostream* out) {
    *out << p.name;
}

Pool pool_with(const Published& p) {
    // In the order of the alphabet, so that the order of the rows cannot help.
    std::vector<std::string> teams;
    for (const Row& row : p.rows) teams.emplace_back(row.team);
    std::sort(teams.begin(), teams.end());
    return pool_of(teams, p.matches, p.sets_only);
}

class PublishedTable : public testing::TestWithParam<Published> {};

TEST_P(PublishedTable, ComesOutAsPrinted) {
    const Published& p = GetParam();
    const Pool pool = pool_with(p);
    const Chain c = chain("international-2017");
    const Table table = ranked(c, pool);
    ASSERT_EQ(table.places.size(), p.rows.size()) << order_of(pool, table);
    for (std::size_t i = 0; i < p.rows.size(); ++i) {
        const Row& row = p.rows[i];
        const TeamIndex team = table.places[i].teams.front();
        EXPECT_EQ(pool.teams[team], row.team);
        const Record& r = table.records[team];
        EXPECT_EQ(r.won, row.won) << row.team;
        EXPECT_EQ(r.match_points, row.match_points) << row.team;
        EXPECT_EQ(r.sets_won, row.sets_won) << row.team;
        EXPECT_EQ(r.sets_lost, row.sets_lost) << row.team;
        if (row.set_quotient[0] != 0) {
            EXPECT_EQ(decimal({r.sets_won, r.sets_lost}), row.set_quotient) << row.team;
        }
        if (row.points_won < 0) continue;
        EXPECT_EQ(r.points_won, row.points_won) << row.team;
        EXPECT_EQ(r.points_lost, row.points_lost) << row.team;
        if (row.point_quotient[0] != 0) {
            EXPECT_EQ(decimal({r.points_won, r.points_lost}), row.point_quotient) << row.team;
        }
    }
}

const Published tables[] = {
    // EuroVolley Women 2017, pool B, Tbilisi, 22-24 September 2017: match reports and table. Italy
    // has more points and wins than Croatia at equal points of the next two: wins decide.
    {"EuroVolleyWomen2017PoolB",
     {"ITA-GEO 25-14 25-12 25-12", "BLR-CRO 10-25 15-25 25-21 25-20 15-9",
      "GEO-CRO 12-25 13-25 25-23 23-25", "ITA-BLR 27-25 25-18 18-25 25-21",
      "GEO-BLR 8-25 11-25 12-25", "CRO-ITA 23-25 21-25 25-19 25-10 11-15"},
     false,
     {{"ITA", 3, 8, 9, 3, 264, 232, "3.0000", "1.1379"},
      {"BLR", 2, 5, 7, 5, 254, 226, "1.4000", "1.1239"},
      {"CRO", 1, 5, 7, 7, 303, 257, "1.0000", "1.1790"},
      {"GEO", 0, 0, 1, 9, 142, 248, "0.1111", "0.5726"}}},
    // EuroVolley Women 2017, pool A, table before the last match.
    {"EuroVolleyWomen2017PoolABeforeTheLastMatch",
     {"AZE-HUN 25-23 25-14 25-16", "POL-GER 23-25 25-15 18-25 25-23 15-5",
      "POL-HUN 25-22 19-25 25-17 25-18", "AZE-POL 25-14 25-21 25-23",
      "GER-HUN 25-21 19-25 25-21 25-18"},
     false,
     {{"AZE", 2, 6, 6, 0, 150, 111, "-"},
      {"POL", 2, 5, 6, 6, 258, 250},
      {"GER", 1, 4, 5, 4, 187, 191},
      {"HUN", 0, 0, 2, 9, 220, 263}}},
    // The same pool after Germany - Azerbaijan 1-3, of which only the sets were found.
    {"EuroVolleyWomen2017PoolA",
     {"AZE-HUN 3-0", "POL-GER 3-2", "POL-HUN 3-1", "AZE-POL 3-0", "GER-HUN 3-1", "GER-AZE 1-3"},
     true,
     {{"AZE", 3, 9, 9, 1}, {"POL", 2, 5, 6, 6}, {"GER", 1, 4, 6, 7}, {"HUN", 0, 0, 2, 9}}},
    // World Championship 2018, men, first round, pool A: results and table.
    {"WorldChampionship2018PoolA",
     {"ITA-JPN 3-0", "DOM-SLO 1-3", "BEL-ARG 3-1", "DOM-JPN 0-3", "ITA-BEL 3-0", "ARG-DOM 3-0",
      "JPN-SLO 1-3", "BEL-SLO 2-3", "ITA-ARG 3-1", "JPN-BEL 1-3", "DOM-ITA 0-3", "BEL-DOM 3-0",
      "ARG-SLO 3-2", "JPN-ARG 3-2", "ITA-SLO 3-1"},
     true,
     {{"ITA", 5, 15, 15, 2},
      {"BEL", 3, 10, 11, 8},
      {"SLO", 3, 9, 12, 10},
      {"ARG", 2, 6, 10, 11},
      {"JPN", 2, 5, 8, 11},
      {"DOM", 0, 0, 1, 15}}},
    // World Championship 2018, men, first round, pool C: results and table.
    {"WorldChampionship2018PoolC",
     {"CMR-TUN 3-0", "AUS-RUS 0-3", "USA-SRB 3-2", "AUS-USA 2-3", "CMR-SRB 0-3", "AUS-CMR 3-1",
      "RUS-TUN 3-0", "SRB-TUN 3-1", "USA-RUS 3-1", "CMR-USA 0-3", "SRB-AUS 3-1", "RUS-CMR 3-0",
      "AUS-TUN 3-1", "USA-TUN 3-0", "SRB-RUS 3-2"},
     true,
     {{"USA", 5, 13, 15, 5},
      {"SRB", 4, 12, 14, 7},
      {"RUS", 3, 10, 12, 6},
      {"AUS", 2, 7, 9, 11},
      {"CMR", 1, 3, 4, 12},
      {"TUN", 0, 0, 2, 15}}},
};

INSTANTIATE_TEST_SUITE_P(Events, PublishedTable, testing::ValuesIn(tables),
                         [](const auto& tested) { return tested.param.name; });

// Tables of European confederation events with the quotients as printed; the matches behind them
// were not found, so division and rounding are checked and the order of the quotients.
struct Printed {
    int sets_won;
    int sets_lost;
    const char* set_quotient;
    int points_won;
    int points_lost;
    const char* point_quotient;
};

class PrintedQuotient : public testing::TestWithParam<Printed> {};

TEST_P(PrintedQuotient, IsRoundedAsPrinted) {
    const Printed& p = GetParam();
    if (p.set_quotient[0] != 0) {
        EXPECT_EQ(decimal({p.sets_won, p.sets_lost}), p.set_quotient);
    }
    if (p.point_quotient[0] != 0) {
        EXPECT_EQ(decimal({p.points_won, p.points_lost}), p.point_quotient);
    }
}

// Tables of pools of confederation events: SRB TUR FRA CZE; RUS ITA SLO POL; FIN BLR ALB AUT; SWE
// KOS GEO ISL.
INSTANTIATE_TEST_SUITE_P(
    Confederation, PrintedQuotient,
    testing::Values(
        Printed{8, 3, "2.6667", 244, 219, "1.1142"}, Printed{6, 4, "1.5000", 226, 206, "1.0971"},
        Printed{6, 5, "1.2000", 241, 214, "1.1262"}, Printed{1, 9, "0.1111", 176, 248, "0.7097"},
        Printed{9, 3, "3.0000", 280, 225, "1.2444"}, Printed{8, 5, "1.6000", 292, 285, "1.0246"},
        Printed{4, 8, "0.5000", 241, 275, "0.8764"}, Printed{4, 9, "0.4444", 277, 305, "0.9082"},
        Printed{18, 0, "-", 452, 358, "1.2626"}, Printed{10, 9, "1.1111", 438, 389, "1.1260"},
        Printed{7, 14, "0.5000", 449, 496, "0.9052"}, Printed{4, 16, "0.2500", 379, 475, "0.7979"},
        Printed{9, 0, "-", 225, 128, ""}, Printed{6, 5, "", 208, 238, "0.8739"},
        Printed{5, 6, "", 234, 225, "1.0400"}));

}  // namespace
}  // namespace courthand::standings
