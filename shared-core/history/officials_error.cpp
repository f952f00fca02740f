#include "courthand/history/officials_error.h"

#include "courthand/rules/judge.h"

namespace courthand {
namespace {

/// What is played anew when the record goes back; everything else has happened and stays.
[[nodiscard]] bool is_play(const Fact& fact) {
    return std::holds_alternative<Whistle>(fact) || std::holds_alternative<Serve>(fact) ||
           std::holds_alternative<RallyWon>(fact) || std::holds_alternative<Replay>(fact) ||
           std::holds_alternative<LiberoReplacement>(fact) ||
           std::holds_alternative<Substitution>(fact) || std::holds_alternative<CourtSwitch>(fact);
}

/// Who hits the service with this entry; a rally without a service is served by whoever must.
struct Service {
    bool any = false;
    Team team{};
};

[[nodiscard]] Service service_of(const MatchState& state, const Fact& fact) {
    const SetState& set = state.set;
    if (const auto* serve = std::get_if<Serve>(&fact))
        return {true, serve->server.worn() ? serve->team : set.serving};
    const bool silent = std::holds_alternative<RallyWon>(fact) && set.stage != Stage::in_play;
    return {silent, set.serving};
}

}  // namespace

std::variant<std::vector<Strike>, TooLate> back_to_wrong_word(const Rules& rules,
                                                              std::span<const Record> records,
                                                              EntryNumber since, Team wronged) {
    std::vector<Strike> strikes;
    MatchState state{};
    VerdictList raised;
    bool wronged_has_served = false;
    bool after = since == 0;
    for (const Entry& entry : effective(records).entries) {
        const Service service = after ? service_of(state, entry.fact) : Service{};
        apply(rules, state, entry, raised);
        if (after && is_play(entry.fact)) strikes.push_back({entry.number});
        if (service.any && service.team == wronged) wronged_has_served = true;
        const bool too_late = service.any && service.team != wronged && wronged_has_served &&
                              rules.officials_error_until_opponent_serves != 0;
        if (too_late) return TooLate{entry.number};
        after = after || entry.number == since;
    }
    return strikes;
}

}  // namespace courthand
