#include "tests/bench/bare_fold.h"

#include <algorithm>

namespace courthand::bench {
namespace {

struct BareFold {
    MatchState& state;

    TeamSet& side(Team team) noexcept { return state.set.team[team]; }

    void exchange(Team team, Jersey in, Jersey out, bool libero) noexcept {
        for (SlotRecord& slot : side(team).slots) {
            if (slot.on_court != out) continue;
            slot.on_court = in;
            if (libero)
                slot.replaced = slot.replaced.worn() ? Jersey{} : out;
            else
                slot.regular = in;
            return;
        }
    }

    void operator()(const MatchOpened& f) noexcept { state.format = f.format; }
    void operator()(const Roster& f) noexcept {
        TeamRecord& record = state.team[f.team];
        record.count = f.count;
        record.captain = f.captain;
        for (std::size_t i = 0; i < f.count; ++i) record.players[i].jersey = f.players[i];
    }
    void operator()(const Toss& f) noexcept {
        state.set.serving = f.serves;
        state.set.left = f.left;
    }
    void operator()(const SetStarted& f) noexcept {
        const SetState before = state.set;
        state.results[before.number % state.results.size()].score = before.score;
        state.set = SetState{};
        state.set.number = f.number;
        state.set.left = before.left;
    }
    void operator()(const LineUp& f) noexcept {
        TeamSet& team = side(f.team);
        for (std::size_t i = 0; i < players_on_court; ++i)
            team.slots[i] = {f.order[i], f.order[i], {}, f.order[i], {}};
        team.boxes = f.liberos;
        team.liberos = {f.liberos[0].number, f.liberos[1].number};
        team.lineup_in = 1;
    }
    void operator()(const LineUpChecked& f) noexcept { side(f.team).checked = 1; }
    void operator()(const Whistle&) noexcept { state.set.stage = Stage::whistled; }
    void operator()(const Serve&) noexcept { state.set.stage = Stage::in_play; }
    void operator()(const RallyWon& f) noexcept {
        SetState& set = state.set;
        ++(f.team == Team::A ? set.score.a : set.score.b);
        if (set.serving != f.team) side(f.team).rotation.forward();
        set.serving = f.team;
        set.stage = Stage::dead_ball;
        ++set.rallies;
        ++set.completed;
    }
    void operator()(const LiberoReplacement& f) noexcept {
        exchange(f.team, f.in, f.out, true);
        side(f.team).last_replacement = state.set.completed;
    }
    void operator()(const Substitution& f) noexcept {
        for (std::size_t i = 0; i < f.count; ++i)
            exchange(f.team, f.pairs[i].in, f.pairs[i].out, false);
        side(f.team).substitutions =
            static_cast<std::uint8_t>(side(f.team).substitutions + f.count);
    }
    void operator()(const TimeOut& f) noexcept { ++side(f.team).time_outs; }
    void operator()(const GameCaptain& f) noexcept { side(f.team).game_captain = f.player; }
    /// All the rest is rare.
    template <class F>
    void operator()(const F&) noexcept {}
};

}  // namespace

void bare_apply(MatchState& state, const Entry& entry) noexcept {
    std::visit(BareFold{state}, entry.fact);
}

}  // namespace courthand::bench
