#include "fact_from_bytes.h"

namespace courthand::fuzz {
namespace {

Team team(Bytes& b) { return b.take() % 2 == 0 ? Team::A : Team::B; }

// Few numbers, so that they often name somebody.
Jersey jersey(Bytes& b) {
    const std::uint8_t n = b.below(26);
    return n == 25 ? Jersey::none() : Jersey{n};
}

LiberoBox box(Bytes& b) {
    const auto mark = static_cast<LiberoBox::Mark>(b.below(3));
    return {mark, mark == LiberoBox::Mark::number ? jersey(b) : Jersey::none()};
}

Roster roster(Bytes& b) {
    Roster r{team(b), static_cast<std::uint8_t>(6 + b.below(most_players - 5)), {}, {}};
    for (std::uint8_t i = 0; i < r.count; ++i) r.players[i] = Jersey{i};
    r.captain = jersey(b);
    return r;
}

LineUp line_up(Bytes& b) {
    LineUp sheet{team(b), {}, {}, {}};
    const std::uint8_t first = b.below(12);
    const bool odd = b.take() % 8 == 0;
    for (std::uint8_t s = 0; s < players_on_court; ++s)
        sheet.order[s] = odd ? jersey(b) : Jersey{static_cast<std::uint8_t>(first + s)};
    sheet.liberos = {box(b), box(b)};
    sheet.captain = jersey(b);
    return sheet;
}

Substitution substitution(Bytes& b) {
    Substitution s{team(b), static_cast<std::uint8_t>(b.below(most_pairs + 1)), {}};
    for (std::uint8_t i = 0; i < s.count; ++i) s.pairs[i] = {jersey(b), jersey(b)};
    return s;
}

MatchFormat format(Bytes& b) {
    MatchFormat f;
    f.sets = static_cast<std::uint8_t>(1 + b.below(MatchFormat::most_sets + 2));
    f.all_sets_played = b.below(2);
    f.points = static_cast<std::uint8_t>(1 + b.below(30));
    f.deciding_points = static_cast<std::uint8_t>(1 + b.below(25));
    f.lead = static_cast<std::uint8_t>(1 + b.below(3));
    f.cap = b.below(2) == 0 ? std::uint8_t{0} : static_cast<std::uint8_t>(f.points + b.below(4));
    f.switch_at = b.below(13);
    return f;
}

Sanction sanction(Bytes& b) { return static_cast<Sanction>(b.below(4)); }
Cause cause(Bytes& b) { return static_cast<Cause>(b.below(5)); }

Ruling ruling(Bytes& b) {
    return {static_cast<Ruling::Decision>(b.below(3)),
            static_cast<Reason>(b.below(static_cast<unsigned>(reason_count))), team(b)};
}

}  // namespace

Fact fact_from(Bytes& b) {
    switch (b.below(static_cast<unsigned>(std::variant_size_v<Fact>))) {
        case 0: return MatchOpened{format(b)};
        case 1: return roster(b);
        case 2: return Toss{team(b), team(b)};
        case 3: return SetStarted{b.below(7)};
        case 4: return line_up(b);
        case 5: return LiberoBoxSettled{team(b), b.below(3), box(b)};
        case 6: return LineUpChecked{team(b)};
        case 7: return Whistle{};
        case 8: return Serve{team(b), jersey(b)};
        case 9: return RallyWon{team(b)};
        case 10: return Replay{};
        case 11: return LiberoReplacement{team(b), jersey(b), jersey(b)};
        case 12: return substitution(b);
        case 13: return ExceptionalSubstitution{team(b), jersey(b), jersey(b), cause(b)};
        case 14: return TimeOut{team(b)};
        case 15: return GameCaptain{team(b), jersey(b)};
        case 16: return LiberoUnable{team(b), jersey(b), cause(b)};
        case 17: return Redesignation{team(b), jersey(b), jersey(b)};
        case 18: return Misconduct{team(b), jersey(b), sanction(b)};
        case 19: return Delay{team(b), sanction(b)};
        case 20: return ImproperRequest{team(b)};
        case 21: return Injury{team(b), jersey(b)};
        case 22: return Recovery{team(b), jersey(b)};
        case 23: return CourtSwitch{};
        case 24: return Interval{};
        case 25: return Interrupted{};
        case 26: return Resumed{static_cast<Resumed::How>(b.below(3))};
        case 27: return ruling(b);
        case 28: return Incomplete{team(b), static_cast<Incomplete::Scope>(b.below(2))};
        case 29: return Default{team(b)};
        case 30: return Protest{team(b)};
        case 31: return ScoreCorrection{{b.below(40), b.below(40)}};
        case 32: return PositionalFault{team(b), jersey(b), jersey(b)};
        default: return Note{};
    }
}

}  // namespace courthand::fuzz
