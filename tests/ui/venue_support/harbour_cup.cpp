#include "harbour_cup.h"

#include <initializer_list>

namespace courthand::tests {

namespace {

using namespace std::chrono_literals;
using venue::Designation;

Jersey j(int number) {
    return Jersey{static_cast<std::uint8_t>(number)};
}

Score score(int a, int b) {
    return {static_cast<std::uint8_t>(a), static_cast<std::uint8_t>(b)};
}

Six six(std::initializer_list<int> numbers) {
    Six result;
    std::size_t i = 0;
    for (const int number : numbers) result[i++] = j(number);
    return result;
}

struct Club {
    const char* name;
    std::uint32_t colour;
};
constexpr Club harbour_lights{"Harbour Lights", 0x1F3A5F};
constexpr Club mill_lane{"Mill Lane", 0xB3261E};
constexpr Club quayside{"Quayside", 0x0F766E};
constexpr Club saltmarsh{"Saltmarsh", 0x8A9A5B};
constexpr Club north_pier{"North Pier", 0x6B21A8};
constexpr Club lantern_hill{"Lantern Hill", 0xF2B705};
constexpr Club tidewater{"Tidewater", 0x38BDF8};
constexpr Club ropewalk{"Ropewalk", 0x7C4A21};
constexpr Club gull_rock{"Gull Rock", 0xF97316};
constexpr Club sandbar{"Sandbar", 0xE7D8B1};

venue::TeamOnBoard team(const Club& club, int sets, std::initializer_list<int> liberos, Six order) {
    venue::TeamOnBoard team;
    team.name = club.name;
    team.colour = {club.colour};
    team.sets = sets;
    team.line_up_in = true;
    team.line_up_checked = true;
    team.six = order;
    for (const int libero : liberos) {
        team.designations.push_back({j(libero), Designation::State::active, false, {}});
    }
    return team;
}

venue::CourtOnBoard court(venue::CourtNumber number, int match, venue::CourtStage stage, int set,
                          Score points) {
    venue::CourtOnBoard court;
    court.court = number;
    court.match_id = "m" + std::to_string(match);
    court.match_number = match;
    court.stage = stage;
    court.set = set;
    court.score = points;
    court.left = Team::A;
    court.staffed = true;
    court.last_seen = harbour_cup_time();
    return court;
}

venue::CourtOnBoard first_court() {
    auto it = court(1, 12, venue::CourtStage::in_play, 2, score(18, 16));
    it.teams = {team(harbour_lights, 1, {21, 22}, six({1, 2, 3, 4, 21, 6})),
                team(mill_lane, 0, {41}, six({31, 32, 33, 34, 41, 36}))};
    it.teams.a.liberos_on = {{j(21), j(5)}};
    it.teams.b.liberos_on = {{j(41), j(35)}};
    it.serving = Team::A;
    return it;
}

venue::CourtOnBoard second_court() {
    auto it = court(2, 13, venue::CourtStage::in_play, 1, score(7, 11));
    it.teams = {team(quayside, 0, {8, 9}, six({10, 12, 8, 15, 16, 17})),
                team(saltmarsh, 0, {50}, six({51, 52, 53, 54, 55, 56}))};
    it.teams.a.liberos_on = {{j(8), j(14)}};
    it.serving = Team::B;
    return it;
}

venue::CourtOnBoard third_court() {
    auto it = court(3, 14, venue::CourtStage::line_ups, 3, score(0, 0));
    it.teams = {team(north_pier, 1, {61, 62}, six({})), team(lantern_hill, 1, {77}, six({}))};
    it.teams.a.line_up_checked = false;
    it.teams.b.line_up_in = false;
    it.teams.b.line_up_checked = false;
    it.teams.b.boxes_open = 1;
    it.teams.a.designations = {{j(61), Designation::State::replaced, false, {}},
                               {j(62), Designation::State::active, false, {}},
                               {j(66), Designation::State::redesignated, false, {}}};
    return it;
}

venue::CourtOnBoard fourth_court() {
    auto it = court(4, 15, venue::CourtStage::in_play, 1, score(22, 24));
    it.teams = {team(tidewater, 0, {88}, six({80, 81, 82, 83, 84, 85})),
                team(ropewalk, 0, {91, 92}, six({93, 94, 95, 96, 97, 98}))};
    it.teams.b.barred = {j(99)};
    it.serving = Team::B;
    it.staffed = false;
    it.last_seen = harbour_cup_time() - 130s;
    return it;
}

venue::Alert alert(const char* id, const char* code, Severity severity,
                   const venue::CourtOnBoard& on, std::optional<Team> team_at_fault,
                   std::chrono::seconds age) {
    venue::Alert alert;
    alert.id = id;
    alert.code = code;
    alert.severity = severity;
    alert.court = on.court;
    alert.match_id = on.match_id;
    alert.match_number = on.match_number;
    alert.set = on.set;
    alert.score = on.score;
    alert.team = team_at_fault;
    if (team_at_fault) alert.team_name = on.teams[*team_at_fault].name;
    alert.since = harbour_cup_time() - age;
    return alert;
}

venue::Alert libero_alert(const venue::CourtOnBoard& on) {
    auto it = alert("a1", "libero-no-completed-rally", Severity::critical, on, Team::A, 42s);
    it.sentence = "22 came in for 6 in the same dead ball in which 5 had returned for 21.";
    it.rule = "FIVB Official Volleyball Rules 2025-2028, rule 19.3.2.1";
    it.evidence.before = six({1, 2, 3, 4, 5, 6});
    it.evidence.after = six({1, 2, 3, 4, 5, 22});
    it.evidence.entries = {{211, Record{Fact{LiberoReplacement{Team::A, j(5), j(21)}}}},
                           {212, Record{Fact{LiberoReplacement{Team::A, j(22), j(6)}}}},
                           {213, Record{Fact{Serve{}}}}};
    it.evidence.replacements = {{171, j(21), j(5), score(11, 9), 21},
                                {188, j(5), j(21), score(14, 12), 27},
                                {196, j(21), j(5), score(15, 14), 30},
                                {211, j(5), j(21), score(18, 16), 35},
                                {212, j(22), j(6), score(18, 16), 35}};
    it.evidence.remedy = "Point and service to Mill Lane; 6 returns for 22.";
    it.evidence.score_if_ruled = score(18, 17);
    it.evidence.serves_if_ruled = Team::B;
    it.evidence.since_rally = 35;
    return it;
}

std::vector<venue::Alert> alerts(const std::vector<venue::CourtOnBoard>& courts) {
    auto box = alert("a2", "libero-box-unconfirmed", Severity::high, courts[2], Team::B, 95s);
    box.sentence = "The second libero box is blank and nobody has confirmed that it means none.";
    box.rule = "Common practice, no source";
    auto made = alert("a3", "redesignation-made", Severity::medium, courts[2], Team::A, 410s);
    made.sentence = "66 is libero in the place of 61, who may not return as libero.";
    made.rule = "FIVB Official Volleyball Rules 2025-2028, rule 19.4.2";
    made.evidence.entries = {{143, Record{Fact{LiberoUnable{Team::A, j(61), Cause::injury}}}},
                             {144, Record{Fact{Redesignation{Team::A, j(61), j(66)}}}}};
    made.claimed_by = "Deputy";
    made.life = venue::AlertLife::claimed;
    auto unseen = alert("a4", "court-not-seen", Severity::medium, courts[3], std::nullopt, 70s);
    unseen.sentence =
        "The table of court 4 has not been seen for two minutes. It may be playing on.";
    return {libero_alert(courts[0]), box, made, unseen};
}

venue::TeamListed listed(const char* id, const Club& club, int first_number, int players) {
    venue::TeamListed team;
    team.id = id;
    team.name = club.name;
    team.club = club.name;
    team.colour = {club.colour};
    for (int i = 0; i < players; ++i) {
        team.players.push_back({first_number + i, {}, i == 2, i + 2 >= players});
    }
    return team;
}

venue::MatchPlanned planned(const char* id, int number, venue::CourtNumber on, const Club& first,
                            const Club& second, venue::MatchStatus status,
                            std::chrono::minutes from_now) {
    venue::MatchPlanned match;
    match.id = id;
    match.number = number;
    match.court = on;
    match.first = first.name;
    match.second = second.name;
    match.first_colour = {first.colour};
    match.second_colour = {second.colour};
    match.profile = "international-2025";
    match.status = status;
    match.planned = harbour_cup_time() + from_now;
    return match;
}

}  // namespace

venue::Moment harbour_cup_time() {
    return venue::Moment{1'778'940'300'000};
}

venue::Board harbour_cup_board() {
    venue::Board board;
    board.courts = {first_court(), second_court(), third_court(), fourth_court()};
    board.alerts = alerts(board.courts);
    board.as_of = harbour_cup_time();
    return board;
}

venue::Board harbour_cup_hall() {
    venue::Board board = harbour_cup_board();
    for (venue::CourtNumber number = 5; number <= 12; ++number) {
        auto court = board.courts[(number - 1) % 3];
        court.court = number;
        court.match_id = "m" + std::to_string(11 + number);
        court.match_number = 11 + static_cast<int>(number);
        court.score = score(static_cast<int>(number), 20 - static_cast<int>(number));
        if (number == 8) court.stage = venue::CourtStage::match_over;
        if (number == 11) court = {};
        court.court = number;
        board.courts.push_back(court);
    }
    return board;
}

venue::Board harbour_cup_crowd(int courts) {
    const char* const names[] = {
        "Harbour Lights Volleyball Club", "Mill Lane Ladies Volley Amateur",
        "Quayside Volleyball Federation", "Saltmarsh-Lantern Hill Athletic"};
    venue::Board board = harbour_cup_board();
    const auto four = board.courts;
    board.courts.clear();
    for (int i = 0; i < courts; ++i) {
        auto court = four[static_cast<std::size_t>(i) % four.size()];
        court.court = static_cast<venue::CourtNumber>(i + 1);
        if (i >= static_cast<int>(four.size())) court.match_id = "m" + std::to_string(100 + i);
        court.match_number = 12 + i;
        court.teams.a.name = names[i % 4];
        court.teams.b.name = names[(i + 1) % 4];
        board.courts.push_back(court);
    }
    for (auto& alert : board.alerts)
        if (alert.team) alert.team_name = board.courts[alert.court - 1].teams[*alert.team].name;
    return board;
}

venue::DeskBook harbour_cup_book() {
    using venue::MatchStatus;
    venue::DeskBook book;
    book.as_of = harbour_cup_time();
    book.matches = {
        planned("m11", 11, 1, quayside, lantern_hill, MatchStatus::finished, -95min),
        planned("m12", 12, 1, harbour_lights, mill_lane, MatchStatus::in_play, -35min),
        planned("m13", 13, 2, quayside, saltmarsh, MatchStatus::in_play, -20min),
        planned("m14", 14, 3, north_pier, lantern_hill, MatchStatus::in_play, -50min),
        planned("m15", 15, 4, tidewater, ropewalk, MatchStatus::in_play, -20min),
        planned("m16", 16, 5, gull_rock, sandbar, MatchStatus::called, 5min),
        planned("m17", 17, 0, harbour_lights, quayside, MatchStatus::scheduled, 35min),
        planned("m18", 18, 0, mill_lane, saltmarsh, MatchStatus::scheduled, 50min),
    };
    book.courts = {{1, "", "m12", 0, "d1"},
                   {2, "", "m13", 0, "d2"},
                   {3, "", "m14", 0, "d3"},
                   {4, "", "m15", 0, "d4"},
                   {5, "", "m16", 0, ""}};
    book.teams = {listed("t1", harbour_lights, 1, 12), listed("t2", mill_lane, 31, 11),
                  listed("t3", quayside, 8, 12),       listed("t4", saltmarsh, 50, 10),
                  listed("t5", north_pier, 60, 12),    listed("t6", lantern_hill, 70, 9),
                  listed("t7", tidewater, 80, 10),     listed("t8", ropewalk, 90, 10),
                  listed("t9", gull_rock, 20, 11),     listed("t10", sandbar, 40, 0)};
    book.results = {
        {"m11", score(2, 0), {score(25, 21), score(25, 19)}, true, true, false, 0, "", {}},
        {"m12", score(1, 0), {score(25, 22), score(18, 16)}, false, false, false, 1, "", {}},
        {"m13", score(0, 0), {score(7, 11)}, false, false, false, 0, "", {}},
        {"m14", score(1, 1), {score(25, 18), score(23, 25)}, false, false, false, 2, "", {}},
        {"m15", score(0, 0), {score(22, 24)}, false, false, false, 1, "", {}}};
    const auto now = harbour_cup_time();
    book.devices = {{"d1", "Tablet 1", venue::Seat::table, 1, now - 2s, false},
                    {"d2", "Tablet 2", venue::Seat::table, 2, now - 4s, false},
                    {"d3", "Tablet 3", venue::Seat::table, 3, now - 200s, false},
                    {"d4", "Tablet 4", venue::Seat::table, 4, now - 130s, false},
                    {"d5", "Hall panel", venue::Seat::head, 0, now - 1s, false},
                    {"d0", "Tablet 6, cracked", venue::Seat::table, 4, now - 5400s, true}};
    return book;
}

venue::Board harbour_cup_forked() {
    venue::Board board = harbour_cup_board();
    auto forked =
        alert("a7", "record-forked", Severity::critical, board.courts[0], std::nullopt, 75s);
    forked.sentence = "Two devices have written this match; a person must choose";
    forked.rule = "common practice, no source";
    board.alerts.push_back(forked);
    return board;
}

venue::Fork harbour_cup_fork() {
    const auto entry = [](EntryNumber number, std::uint32_t epoch, const char* device,
                          std::chrono::seconds ago, const Fact& fact) {
        const venue::Moment made = harbour_cup_time() - ago;
        return venue::ForkEntry{number, epoch, device, made, made + 1s, Record{fact}};
    };
    venue::Fork fork;
    fork.record = {entry(214, 2, "Tablet 1, spare", 60s, Fact{Serve{}}),
                   entry(215, 2, "Tablet 1, spare", 52s, Fact{RallyWon{Team::A}}),
                   entry(216, 2, "Tablet 1, spare", 40s, Fact{TimeOut{Team::B}})};
    fork.branch = {entry(214, 1, "Tablet 1", 90s, Fact{Serve{}}),
                   entry(215, 1, "Tablet 1", 81s, Fact{RallyWon{Team::B}})};
    fork.record_more = 4;
    return fork;
}

}  // namespace courthand::tests
