#include "random_play.h"

#include "courthand/rules/judge.h"
#include "tests/testkit/jersey.h"

namespace courthand::testing {
namespace {

Roster roster(Team team, std::initializer_list<unsigned> numbers, unsigned captain) {
    Roster r{team, 0, {}, no(captain)};
    for (const unsigned n : numbers) r.players[r.count++] = no(n);
    return r;
}

LineUp line_up(Team team, unsigned first, std::array<LiberoBox, 2> boxes, unsigned captain) {
    LineUp sheet{team, {}, boxes, no(captain)};
    for (unsigned s = 0; s < 6; ++s) sheet.order[s] = no(first + s);
    return sheet;
}

LiberoBox number_box(unsigned n) {
    return {LiberoBox::Mark::number, no(n)};
}
constexpr LiberoBox none_box{LiberoBox::Mark::none, {}};

LineUp sheet_of(Team team) {
    return team == Team::A ? line_up(Team::A, 1, {number_box(21), number_box(22)}, 3)
                           : line_up(Team::B, 31, {number_box(41), none_box}, 33);
}

}  // namespace

std::vector<Entry> opening() {
    const std::vector<Fact> facts{
        roster(Team::A, {1, 2, 3, 4, 5, 6, 11, 12, 13, 14, 21, 22}, 3),
        roster(Team::B, {31, 32, 33, 34, 35, 36, 41, 42, 43, 44, 45}, 33),
        Toss{Team::A, Team::A},
        SetStarted{1},
        sheet_of(Team::A),
        sheet_of(Team::B),
        LineUpChecked{Team::A},
        LineUpChecked{Team::B},
    };
    std::vector<Entry> entries;
    for (const Fact& fact : facts)
        entries.push_back({static_cast<EntryNumber>(entries.size() + 1), fact});
    return entries;
}

RandomPlay::RandomPlay(const Rules& rules, std::uint64_t seed)
    : rules_{rules}, random_{seed}, entries_{opening()} {
    state_ = fold(rules_, entries_);
}

const Entry& RandomPlay::next() {
    const Entry entry{static_cast<EntryNumber>(entries_.size() + 1), draw()};
    VerdictList raised;
    apply(rules_, state_, entry, raised);
    return entries_.emplace_back(entry);
}

Jersey RandomPlay::someone(Team team) {
    const TeamRecord& record = state_.team[team];
    if (chance(3) || record.count == 0) return no(below(100));
    return record.players[below(record.count)].jersey;
}

Jersey RandomPlay::on_floor(Team team) {
    return state_.set.team[team].slots[below(6)].on_court;
}

Fact RandomPlay::course() {
    if (state_.set.interrupted != 0 && chance(60))
        return Resumed{static_cast<Resumed::How>(chance(90) ? 0 : below(3))};
    const Team team = chance(50) ? Team::A : Team::B;
    const auto next_set = static_cast<std::uint8_t>(state_.set.number + 1);
    if (state_.set.stage == Stage::set_over) {
        if (chance(20)) return Toss{team, team};
        return SetStarted{next_set};
    }
    const std::array<std::uint8_t, 2> in{state_.set.team.a.lineup_in, state_.set.team.b.lineup_in};
    if (in[0] == 0 && chance(80)) return sheet_of(Team::A);
    if (in[1] == 0 && chance(80)) return sheet_of(Team::B);
    if (state_.set.team[team].checked == 0 && chance(60)) return LineUpChecked{team};
    if (chance(20)) return Whistle{};
    if (chance(20)) return Serve{};
    if (chance(2)) return Serve{team, someone(team)};
    if (chance(3)) return Replay{};
    if (chance(10) && rules_.format.deciding(state_.set.number)) return CourtSwitch{};
    return RallyWon{team};
}

Fact RandomPlay::act(Team team) {
    const TeamSet& side = state_.set.team[team];
    if (chance(60)) {
        const LegalActions legal = legal_actions(rules_, state_, team);
        const auto& options = chance(75) ? legal.replacements : legal.substitutions;
        std::vector<Fact> good;
        for (const Option& o : options)
            if (o.legal) good.push_back(o.fact);
        if (!good.empty()) return good[below(static_cast<std::uint32_t>(good.size()))];
    }
    if (chance(50)) return LiberoReplacement{team, someone(team), on_floor(team)};
    if (chance(20)) return LiberoReplacement{team, side.liberos[0], on_floor(team)};
    if (chance(20)) return GameCaptain{team, on_floor(team)};
    if (chance(30))
        return ExceptionalSubstitution{team, someone(team), on_floor(team), Cause::injury};
    Substitution request{team, static_cast<std::uint8_t>(1 + below(2)), {}};
    for (std::size_t i = 0; i < request.count; ++i)
        request.pairs[i] = {someone(team), on_floor(team)};
    return request;
}

Fact RandomPlay::paper(Team team) {
    switch (below(13)) {
        case 0:
            return TimeOut{team};
        case 1:
            return Misconduct{team, someone(team), static_cast<Sanction>(below(4))};
        case 2:
            return Delay{team, static_cast<Sanction>(below(2))};
        case 3:
            return ImproperRequest{team};
        case 4:
            return LiberoUnable{team, state_.set.team[team].liberos[0], Cause::injury};
        case 5:
            return Redesignation{team, state_.set.team[team].liberos[0], someone(team)};
        case 6:
            return Injury{team, on_floor(team)};
        case 7:
            return Recovery{team, on_floor(team)};
        case 8:
            return sheet_of(team);
        case 9:
            return LiberoBoxSettled{team,
                                    static_cast<std::uint8_t>(below(2)),
                                    {LiberoBox::Mark::number, someone(team)}};
        case 10:
            return chance(50) ? Fact{CourtSwitch{}}
                              : Fact{PositionalFault{team, on_floor(team), on_floor(team)}};
        case 11:
            return chance(50) ? Fact{Note{}} : Fact{Interrupted{}};
        default:
            break;
    }
    if (state_.standing_count == 0) return Interval{};
    const Standing& fault = state_.standing[below(state_.standing_count)];
    return Ruling{chance(60) ? Ruling::Decision::accept : Ruling::Decision::overrule, fault.reason,
                  fault.team};
}

Fact RandomPlay::draw() {
    const Team team = chance(50) ? Team::A : Team::B;
    if (chance(70)) return course();
    if (chance(80)) return act(team);
    return paper(team);
}

}  // namespace courthand::testing
