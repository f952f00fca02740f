// The number of legal sequences of moves from pinned positions, as counts.txt has it. What a move
// is stands at the head of that file; counts.py counts the same with the second model.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <variant>
#include <vector>

#include "courthand/replay/replay.h"
#include "courthand/rules/judge.h"
#include "courthand/script/script.h"

namespace courthand {
namespace {

constexpr std::size_t deepest = 3;
using Counts = std::array<std::uint64_t, deepest>;

struct Position {
    int number = 0;
    Team moves{};
    std::string script;
};

std::ifstream opened(const char* name) {
    std::ifstream file{std::string{COURTHAND_ORACLE} + "/" + name};
    if (!file) ADD_FAILURE() << "cannot read " << name;
    return file;
}

/// The sections of states.txt: `[number] moves TEAM`, and a script.
std::vector<Position> positions() {
    std::vector<Position> found;
    std::ifstream file = opened("states.txt");
    for (std::string line; std::getline(file, line);) {
        if (!line.empty() && line.front() == '[') {
            const bool a = line.back() == 'A';
            found.push_back({std::stoi(line.substr(1)), a ? Team::A : Team::B, {}});
        } else if (!found.empty()) {
            found.back().script += line + "\n";
        }
    }
    return found;
}

std::map<int, Counts> stored_counts() {
    std::map<int, Counts> rows;
    std::ifstream file = opened("counts.txt");
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        std::istringstream words{line};
        int number = 0;
        Counts counts{};
        words >> number >> counts[0] >> counts[1] >> counts[2];
        EXPECT_FALSE(words.fail()) << line;
        rows[number] = counts;
    }
    return rows;
}

bool running(const SetState& set) {
    return set.interrupted == 0 &&
           (set.stage == Stage::before_set || set.stage == Stage::dead_ball ||
            set.stage == Stage::whistled || set.stage == Stage::in_play);
}

bool on_floor(const TeamSet& side, Jersey player) {
    for (const Jersey one : on_court(side))
        if (player.worn() && one == player) return true;
    return false;
}

/// Who comes in and who goes out.
struct Pairing {
    Jersey in{};
    Jersey out{};
};

Pairing pairing_of(const Fact& fact) {
    if (const auto* one = std::get_if<LiberoReplacement>(&fact)) return {one->in, one->out};
    if (const auto* request = std::get_if<Substitution>(&fact))
        return {request->pairs[0].in, request->pairs[0].out};
    return {};
}

/// A libero has left this player's place empty to go and serve.
bool place_left_empty(const TeamSet& side, Jersey player) {
    for (const SlotRecord& slot : side.slots)
        if (!slot.on_court.worn() && slot.replaced == player) return true;
    return false;
}

/// A replacement or substitution of the kind that is counted: listed, off court for on court, but
/// for the libero who moves to position I to serve.
bool counted_pair(const MatchState& state, Team team, const Fact& fact) {
    const TeamSet& side = state.set.team[team];
    const Pairing pair = pairing_of(fact);
    if (find(state.team[team], pair.in) == nullptr || !on_floor(side, pair.out)) return false;
    const bool replacement = std::holds_alternative<LiberoReplacement>(fact);
    if (!on_floor(side, pair.in)) return !replacement || !place_left_empty(side, pair.in);
    return replacement && pair.in != pair.out && state.set.serving == team &&
           expected_server(side) == pair.out;
}

bool counted_captain(const MatchState& state, Team team, const Fact& fact) {
    return on_floor(state.set.team[team], std::get<GameCaptain>(fact).player);
}

bool counted_redesignation(const MatchState& state, Team team, const Fact& fact) {
    const auto& one = std::get<Redesignation>(fact);
    return find(state.team[team], one.in) != nullptr &&
           find(state.team[team], one.out) != nullptr &&
           acts_as_libero(state.set.team[team], one.out);
}

/// The legal moves of a position, the two rallies among them.
std::vector<Fact> moves(const Rules& rules, const MatchState& state, Team team) {
    std::vector<Fact> found;
    if (!running(state.set)) return found;
    const LegalActions actions = legal_actions(rules, state, team);
    const auto take = [&](const std::vector<Option>& options, auto counted) {
        for (const Option& option : options)
            if (option.legal && counted(state, team, option.fact) &&
                std::find(found.begin(), found.end(), option.fact) == found.end())
                found.push_back(option.fact);
    };
    take(actions.replacements, counted_pair);
    take(actions.substitutions, counted_pair);
    take(actions.captains, counted_captain);
    take(actions.redesignations, counted_redesignation);
    found.push_back(RallyWon{Team::A});
    found.push_back(RallyWon{Team::B});
    return found;
}

/// Adds the sequences of one, two … moves that begin here.
void count(const Rules& rules, const MatchState& state, Team team, EntryNumber entry,
           std::size_t depth, Counts& counts) {
    const std::vector<Fact> found = moves(rules, state, team);
    counts[depth] += found.size();
    if (depth + 1 == deepest) return;
    for (const Fact& fact : found)
        count(rules, judge(rules, state, {entry, fact}).state, team, entry + 1, depth + 1, counts);
}

Counts counted(const Position& position) {
    Counts counts{};
    const auto read = read_script(position.script);
    const auto* script = std::get_if<Script>(&read);
    if (script == nullptr) {
        const auto& error = std::get<ScriptError>(read);
        ADD_FAILURE() << "position " << position.number << ", line " << error.line << ": "
                      << error.message;
        return counts;
    }
    const Rules rules = find_profile(script->profile)->rules;
    ScriptReplay replay{rules, *script};
    while (replay.next()) {
    }
    count(rules, replay.state(), position.moves, replay.entry() + 1, 0, counts);
    return counts;
}

TEST(Counts, SequencesOfThreeMovesFromPinnedPositions) {
    const std::map<int, Counts> stored = stored_counts();
    const std::vector<Position> pinned = positions();
    ASSERT_GE(pinned.size(), 200U);
    ASSERT_EQ(pinned.size(), stored.size());
    for (const Position& position : pinned) {
        const auto row = stored.find(position.number);
        ASSERT_NE(row, stored.end()) << "position " << position.number;
        EXPECT_EQ(counted(position), row->second) << "position " << position.number;
    }
}

}  // namespace
}  // namespace courthand
