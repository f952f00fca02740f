// Captains, sanctions, injuries and recovery.
#include "rules/context.h"

namespace courthand::rules {
namespace {

void say(Context& c, Reason reason, Team team, Jersey subject) noexcept {
    raise(c, {reason, team, {subject, Jersey::none()}});
}

/// The step of the misconduct scale a sanction stands for: 1 penalty, 2 expulsion, 3
/// disqualification.
[[nodiscard]] constexpr std::uint8_t step_of(Sanction sanction) noexcept {
    return static_cast<std::uint8_t>(sanction);
}
static_assert(step_of(Sanction::warning) == 0 && step_of(Sanction::disqualification) == 3,
              "sanctions are listed in the order of the scale");

/// The set for which a sanction given now counts: the next one between sets.
[[nodiscard]] std::uint8_t set_of_sanction(const SetState& set) noexcept {
    return set_running(set.stage) ? set.number : static_cast<std::uint8_t>(set.number + 1);
}

void bar_player(Context& c, Team team, PlayerRecord& player, Sanction sanction) noexcept {
    if (sanction == Sanction::disqualification) {
        player.bar = Bar::disqualified;
    } else if (player.bar != Bar::disqualified && player.bar != Bar::injured_out) {
        player.bar = Bar::expelled;
        player.barred_set = set_of_sanction(c.set());
    }
    TeamSet& side = c.side(team);
    const std::uint8_t slot = slot_of(side, player.jersey);
    if (slot != 0 && side.slots[slot - 1U].replaced.worn()) side.unable_exception = 1;
}

void judge_scale(Context& c, const Misconduct& fact) noexcept {
    const PlayerRecord* player = find(c.record(fact.team), fact.person);
    const std::uint8_t step = step_of(fact.sanction);
    const bool repeated_warning = step == 0 && c.record(fact.team).warned != 0;
    const bool too_mild = player != nullptr && player->misconduct > 0 && step <= player->misconduct;
    if (repeated_warning || too_mild) say(c, Reason::misconduct_scale, fact.team, fact.person);
}

}  // namespace

void judge_fact(Context& c, const GameCaptain& fact) noexcept {
    TeamSet& side = c.side(fact.team);
    if (!on_floor(side, fact.player)) {
        say(c, Reason::captain_not_on_court, fact.team, fact.player);
        return;
    }
    if (libero_barred_as_captain(c.rules, side, fact.player))
        say(c, Reason::captain_is_libero, fact.team, fact.player);
    side.game_captain = fact.player;
}

void judge_fact(Context& c, const Misconduct& fact) noexcept {
    judge_scale(c, fact);
    if (fact.sanction == Sanction::warning) {
        c.record(fact.team).warned = 1;
        return;
    }
    const bool penalty = fact.sanction == Sanction::penalty;
    if (PlayerRecord* player = find_player(c.record(fact.team), fact.person)) {
        if (!penalty) bar_player(c, fact.team, *player, fact.sanction);
        if (step_of(fact.sanction) > player->misconduct)
            player->misconduct = step_of(fact.sanction);
    }
    const bool point = penalty || c.rules.disqualification_brings_point != 0;
    if (point) give_penalty(c, fact.team);
}

void judge_fact(Context& c, const Delay& fact) noexcept {
    TeamRecord& record = c.record(fact.team);
    const bool penalty_due = record.delays + 1 >= c.rules.delay_brings_point_from;
    const bool penalty = fact.sanction != Sanction::warning;
    if (penalty != penalty_due) say(c, Reason::delay_scale, fact.team, Jersey::none());
    count_up(record.delays);
    if (penalty) give_penalty(c, fact.team);
}

void judge_fact(Context& c, const ImproperRequest& fact) noexcept {
    TeamRecord& record = c.record(fact.team);
    if (record.improper_requests > 0 || c.rules.first_improper_is_free == 0)
        raise(c, {.reason = Reason::improper_request, .team = fact.team, .repeat = 1});
    else
        record.improper_requests = 1;
}

void judge_fact(Context& c, const Injury& fact) noexcept {
    TeamSet& side = c.side(fact.team);
    const std::uint8_t slot = slot_of(side, fact.player);
    if (slot != 0) side.injured = fact.player;
    if (slot != 0 && side.slots[slot - 1U].replaced.worn()) side.unable_exception = 1;
}

void judge_fact(Context& c, const Recovery& fact) noexcept {
    PlayerRecord* player = find_player(c.record(fact.team), fact.player);
    const bool used = player != nullptr && player->recovery_used != 0;
    const bool other_way = regular_substitute_exists(c.rules, c.state, fact.team, fact.player) ||
                           exceptional_substitute_exists(c.rules, c.state, fact.team, fact.player);
    // Where no recovery time is given at all there is none to ask for.
    if (used || other_way || c.rules.recovery_seconds == 0 ||
        !on_floor(c.side(fact.team), fact.player))
        say(c, Reason::recovery_not_open, fact.team, fact.player);
    if (player != nullptr) player->recovery_used = 1;
}

}  // namespace courthand::rules
