#include <fmt/format.h>

#include "courthand/rules/parameter.h"
#include "replay/report.h"
#include "replay/words.h"

namespace courthand::replay {
namespace {

std::string players_words(const Verdict& v) {
    if (!v.players[0].worn()) return {};
    if (!v.players[1].worn()) return fmt::format(" ({})", number(v.players[0]));
    return fmt::format(" ({} for {})", number(v.players[0]), number(v.players[1]));
}

std::string verdict_text(const Verdict& v, const Profile& profile) {
    const ReasonRow& row = describe(v.reason);
    std::string out =
        fmt::format("          {}{}\n            {}", verdict_words(v), players_words(v), row.text);
    const std::string_view rule = row.reference[static_cast<std::size_t>(profile.rules.family)];
    if (!rule.empty()) out += fmt::format(" [{}]", rule);
    const std::string unproven = unproven_words(profile, v.reason, v.remedy.action);
    if (!unproven.empty()) out += fmt::format("\n            {}", unproven);
    const Remedy& r = v.remedy;
    out +=
        fmt::format("\n            since entry {}, rally {}; if applied now: {} : {}, {} serves\n",
                    v.entry, v.rally, r.score.a, r.score.b, letter(r.serves));
    return out;
}

std::string side_text(const MatchState& state, Team team) {
    const TeamSet& side = state.set.team[team];
    std::string out = fmt::format("          {}", letter(team));
    for (const Jersey jersey : on_court(side)) out += fmt::format("{:>5}", number(jersey));
    for (const SlotRecord& slot : side.slots)
        if (slot.replaced.worn())
            out += fmt::format("   {} for {}", number(slot.on_court), number(slot.replaced));
    if (side.game_captain.worn()) out += fmt::format("   captain {}", number(side.game_captain));
    return out + fmt::format("   subs {}  time-outs {}\n", side.substitutions, side.time_outs);
}

std::string state_text(const MatchState& state) {
    if (state.set.number == 0) return {};
    return fmt::format("          set {} {}   {} : {}   sets {} : {}   {} serves\n",
                       state.set.number, word_of(stage_words, state.set.stage), state.set.score.a,
                       state.set.score.b, state.team.a.sets_won, state.team.b.sets_won,
                       letter(state.set.serving)) +
           side_text(state, Team::A) + side_text(state, Team::B);
}

std::string expectation_text(const ScriptReplay& replay) {
    const ScriptLine& line = replay.line();
    const std::string words = script_line(std::get<Expectation>(line.content));
    if (replay.found().empty()) return fmt::format("{:>4}       {}: holds\n", line.line, words);
    return fmt::format("{:>4}       {}: FAILED, {}\n", line.line, words, replay.found());
}

}  // namespace

std::string text_report(const ScriptReplay& replay, const Script& script, const Profile& profile) {
    if (replay.at_expectation()) return expectation_text(replay);
    const ScriptLine& line = replay.line();
    const auto& record = std::get<Record>(line.content);
    std::string out =
        fmt::format("{:>4}  @{:<4}{}", line.line, replay.entry(), script_line(record));
    if (const auto* const fact = std::get_if<Fact>(&record))
        if (const auto* const roster = std::get_if<Roster>(fact))
            out += fmt::format("  # {}", script.names[roster->team]);
    if (!line.text.empty()) out += fmt::format("  # {}", line.text);
    out += replay.without_effect() ? "  (changes nothing)\n" : "\n";
    for (const Verdict& v : replay.raised()) out += verdict_text(v, profile);
    for (const VerdictChange& change : replay.changes())
        out += fmt::format("          {}\n", change_words(change));
    return out + state_text(replay.state());
}

std::string text_summary(const MatchState& state, std::size_t failed) {
    std::string out = fmt::format("sets A {} B {}", state.team.a.sets_won, state.team.b.sets_won);
    if (state.set.stage == Stage::match_over)
        out += fmt::format(", {} has won", letter(state.winner));
    if (failed != 0) out += fmt::format("; {} expectations FAILED", failed);
    return out + fmt::format("\nstate hash {:016x}\n", state_hash(state));
}

}  // namespace courthand::replay
