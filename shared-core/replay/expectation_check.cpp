#include <fmt/format.h>

#include <algorithm>

#include "courthand/replay/replay.h"
#include "replay/words.h"

namespace courthand {
namespace replay {
namespace {

using Kind = Expectation::Kind;

std::string remedy_words(const Remedy& remedy) {
    std::string out = fmt::format("remedy {}", word_of(script::action_words, remedy.action));
    const bool addressed =
        remedy.action == Action::point_and_service || remedy.action == Action::inform ||
        remedy.action == Action::delay_warning || remedy.action == Action::delay_penalty ||
        remedy.action == Action::incomplete;
    if (addressed) out += fmt::format(" {}", letter(remedy.team));
    if (remedy.restore) out += " undo";
    return out + fmt::format(" cancel {}", remedy.cancel);
}

bool standing_phase(const Verdict& v) noexcept {
    return v.phase == Phase::armed || v.phase == Phase::open;
}

/// The words of each, with semicolons between; empty for none.
template <class List, class Words>
std::string joined(const List& list, const Words& words_of) {
    std::string out;
    for (const auto& each : list) out += (out.empty() ? "" : "; ") + words_of(each);
    return out;
}

std::string list_words(const VerdictList& list) {
    return list.empty() ? "nothing" : joined(list, verdict_words);
}

bool same_remedy(const Expectation& e, const Remedy& remedy) noexcept {
    if (e.has_remedy && e.action != remedy.action) return false;
    if (e.remedy_has_team && e.remedy_team != remedy.team) return false;
    if (e.has_undo && !remedy.restore) return false;
    return !e.has_cancel || e.cancel == remedy.cancel;
}

Kind kind_of(VerdictChange::Kind change) noexcept {
    switch (change) {
        case VerdictChange::Kind::appeared:
            return Kind::appeared;
        case VerdictChange::Kind::vanished:
            return Kind::vanished;
        case VerdictChange::Kind::changed:
            return Kind::changed;
    }
    return Kind::changed;
}

/// A verdict that vanished is shown as it was, any other as it is.
const Verdict& shown(const VerdictChange& change) noexcept {
    return change.kind == VerdictChange::Kind::vanished ? change.before : change.after;
}

bool phase_matches(Kind kind, Phase phase) noexcept {
    if (kind == Kind::raised) return true;
    if (kind == Kind::cleared) return phase == Phase::cleared;
    return phase == (kind == Kind::armed ? Phase::armed : Phase::open);
}

bool matches(const Expectation& e, const Verdict& v) noexcept {
    return phase_matches(e.kind, v.phase) && v.reason == e.reason && v.team == e.team &&
           same_remedy(e, v.remedy);
}

bool any_matches(const Expectation& e, const VerdictList& list) noexcept {
    return std::any_of(list.begin(), list.end(), [&](const Verdict& v) { return matches(e, v); });
}

std::string verdict_mismatch(const Expectation& e, const VerdictList& standing,
                             const VerdictList& raised) {
    if (e.kind == Kind::raised || e.kind == Kind::cleared)
        return any_matches(e, raised) ? ""
                                      : fmt::format("the last entry raised {}", list_words(raised));
    if (any_matches(e, standing)) return {};
    return fmt::format("standing: {}; the last entry raised {}", list_words(standing),
                       list_words(raised));
}

std::string legal_mismatch(const VerdictList& raised) {
    VerdictList objections;
    for (const Verdict& v : raised)
        if (standing_phase(v)) objections.add(v);
    return objections.empty() ? ""
                              : fmt::format("the last entry raised {}", list_words(objections));
}

Score score_of_set(const MatchState& state, std::uint8_t set) noexcept {
    if (set == 0 || set == state.set.number) return state.set.score;
    return state.results[set - 1U].score;
}

std::string score_mismatch(const Expectation& e, const MatchState& state) {
    const Score score = score_of_set(state, e.set);
    return score == e.score ? "" : fmt::format("the score is {} {}", score.a, score.b);
}

std::string sets_mismatch(const Expectation& e, const MatchState& state) {
    const Score sets{state.team.a.sets_won, state.team.b.sets_won};
    return sets == e.score ? "" : fmt::format("the sets are A {} B {}", sets.a, sets.b);
}

std::string team_mismatch(Team expected, Team found) {
    return expected == found ? "" : fmt::format("it is {}", letter(found));
}

std::string winner_mismatch(const Expectation& e, const MatchState& state) {
    if (state.set.stage != Stage::match_over) return "the match is not over";
    return team_mismatch(e.team, state.winner);
}

std::string jersey_mismatch(Jersey expected, Jersey found) {
    return expected == found ? "" : fmt::format("it is {}", number(found));
}

std::string count_mismatch(const Expectation& e, unsigned found) {
    return e.count == found ? "" : fmt::format("there are {}", found);
}

std::string six_words(const Six& six) {
    std::string out;
    for (const Jersey jersey : six) out += ' ' + number(jersey);
    return out;
}

std::string court_mismatch(const Expectation& e, const TeamSet& side) {
    const Six six = on_court(side);
    return six == e.numbers ? "" : fmt::format("on court are{}", six_words(six));
}

std::string libero_mismatch(const Expectation& e, const TeamSet& side) {
    std::string on;
    for (const SlotRecord& slot : side.slots) {
        if (!slot.replaced.worn()) continue;
        if (e.kind == Kind::libero_on && slot.on_court == e.numbers[0] &&
            slot.replaced == e.numbers[1])
            return {};
        on += fmt::format(" {} for {}", number(slot.on_court), number(slot.replaced));
    }
    if (e.kind == Kind::libero_off) return on.empty() ? "" : "on court:" + on;
    return on.empty() ? "no libero is on court" : "on court:" + on;
}

std::string liberos_mismatch(const Expectation& e, const TeamSet& side) {
    std::array<Jersey, libero_boxes> found = side.liberos;
    std::array<Jersey, libero_boxes> expected{e.numbers[0], e.numbers[1]};
    std::sort(found.begin(), found.end());
    std::sort(expected.begin(), expected.end());
    if (found == expected) return {};
    std::string out = "the liberos are";
    for (const Jersey jersey : found)
        if (jersey.worn()) out += ' ' + number(jersey);
    return out;
}

std::string prompt_words(const Prompt& prompt) {
    std::string out =
        fmt::format("{} {}", word_of(script::prompt_words, prompt.kind), letter(prompt.team));
    for (const Jersey jersey : prompt.players)
        if (jersey.worn()) out += ' ' + number(jersey);
    return out;
}

bool matches(const Expectation& e, const Prompt& prompt) noexcept {
    return e.prompt == prompt.kind && (!e.prompt_has_team || e.team == prompt.team) &&
           std::equal(e.numbers.begin(), e.numbers.begin() + e.count, prompt.players.begin());
}

std::string prompt_mismatch(const Expectation& e, const PromptList& list) {
    const bool found =
        e.kind == Kind::next
            ? matches(e, list.front())
            : std::any_of(list.begin(), list.end(), [&](const Prompt& p) { return matches(e, p); });
    if (found) return {};
    return "what must happen is " +
           joined(list, [](const Prompt& prompt) { return prompt_words(prompt); });
}

std::string side_mismatch(const Expectation& e, const MatchState& state) {
    const TeamSet& side = state.set.team[e.team];
    const TeamRecord& record = state.team[e.team];
    switch (e.kind) {
        case Kind::serving:
            return team_mismatch(e.team, state.set.serving);
        case Kind::left:
            return team_mismatch(e.team, state.set.left);
        case Kind::server:
            return jersey_mismatch(e.numbers[0], expected_server(side));
        case Kind::captain:
            return jersey_mismatch(e.numbers[0], side.game_captain);
        case Kind::court:
            return court_mismatch(e, side);
        case Kind::libero_on:
        case Kind::libero_off:
            return libero_mismatch(e, side);
        case Kind::liberos:
            return liberos_mismatch(e, side);
        case Kind::subs:
            return count_mismatch(e, side.substitutions);
        case Kind::timeouts:
            return count_mismatch(e, side.time_outs);
        case Kind::improper:
            return count_mismatch(e, record.improper_requests);
        case Kind::delays:
            return count_mismatch(e, record.delays);
        case Kind::legal:
        case Kind::none:
        case Kind::armed:
        case Kind::open:
        case Kind::raised:
        case Kind::cleared:
        case Kind::appeared:
        case Kind::vanished:
        case Kind::changed:
        case Kind::score:
        case Kind::sets:
        case Kind::winner:
        case Kind::next:
        case Kind::waiting:
            break;
    }
    return {};
}

}  // namespace
}  // namespace replay

std::string verdict_words(const Verdict& verdict) {
    return fmt::format("{} {} {} {}", script::word_of(replay::phase_words, verdict.phase),
                       describe(verdict.reason).word, replay::letter(verdict.team),
                       replay::remedy_words(verdict.remedy));
}

std::string_view change_word(VerdictChange::Kind kind) {
    return script::word_of(script::expectation_words, replay::kind_of(kind));
}

std::string change_words(const VerdictChange& change) {
    const Verdict& shown = replay::shown(change);
    std::string out =
        fmt::format("{} {}, entry {}", change_word(change.kind), verdict_words(shown), shown.entry);
    if (change.kind == VerdictChange::Kind::changed)
        out += fmt::format("; was {}", verdict_words(change.before));
    return out;
}

std::string mismatch(const Expectation& expected, const std::vector<VerdictChange>& changes) {
    const auto met = [&](const VerdictChange& change) {
        const Verdict& v = replay::shown(change);
        return replay::kind_of(change.kind) == expected.kind && v.reason == expected.reason &&
               v.team == expected.team && replay::same_remedy(expected, v.remedy);
    };
    if (std::any_of(changes.begin(), changes.end(), met)) return {};
    return changes.empty() ? "the last entry changed no verdict"
                           : replay::joined(changes, change_words);
}

std::string mismatch(const Expectation& expected, const Rules& rules, const MatchState& state,
                     const VerdictList& raised) {
    using Kind = Expectation::Kind;
    switch (expected.kind) {
        case Kind::legal:
            return replay::legal_mismatch(raised);
        case Kind::none: {
            const VerdictList list = standing(rules, state);
            return list.empty() ? "" : "standing: " + replay::list_words(list);
        }
        case Kind::armed:
        case Kind::open:
        case Kind::raised:
        case Kind::cleared:
            return replay::verdict_mismatch(expected, standing(rules, state), raised);
        case Kind::score:
            return replay::score_mismatch(expected, state);
        case Kind::sets:
            return replay::sets_mismatch(expected, state);
        case Kind::winner:
            return replay::winner_mismatch(expected, state);
        case Kind::serving:
        case Kind::server:
        case Kind::court:
        case Kind::captain:
        case Kind::libero_on:
        case Kind::libero_off:
        case Kind::subs:
        case Kind::improper:
        case Kind::delays:
        case Kind::timeouts:
        case Kind::left:
        case Kind::liberos:
            return replay::side_mismatch(expected, state);
        case Kind::next:
        case Kind::waiting:
            return replay::prompt_mismatch(expected, next_steps(rules, state));
        case Kind::appeared:
        case Kind::vanished:
        case Kind::changed:
            return mismatch(expected, std::vector<VerdictChange>{});
    }
    return {};
}

}  // namespace courthand
