#include "courthand/rules/remedy_words.h"

#include <fmt/format.h>

namespace courthand {
namespace {

std::string action_words(const Remedy& remedy, const PerTeam<std::string>& names) {
    const std::string& team = names[remedy.team];
    switch (remedy.action) {
        case Action::none:
            return "no consequence";
        case Action::point_and_service:
            return fmt::format("point and service to {}", team);
        case Action::undo:
            return "the act is taken back, no sanction";
        case Action::refuse:
            return "the request is not granted";
        case Action::correct:
            return "put right at once, no consequence";
        case Action::inform:
            return fmt::format("tell the captain of {}", team);
        case Action::delay_warning:
            return fmt::format("delay warning for {}", team);
        case Action::delay_penalty:
            return fmt::format("delay penalty for {}: point and service to {}", team,
                               names[opponent(remedy.team)]);
        case Action::record_only:
            return "written on the sheet, nothing else";
        case Action::incomplete:
            return fmt::format("{} cannot go on", team);
        case Action::ask:
            return "ask the referee";
    }
    return {};
}

}  // namespace

std::string remedy_words(const Remedy& remedy, Team at_fault, const PerTeam<std::string>& names) {
    std::string words = action_words(remedy, names);
    if (remedy.cancel > 0)
        words += fmt::format("; {} {} of {} cancelled", remedy.cancel,
                             remedy.cancel == 1 ? "point" : "points", names[at_fault]);
    if (remedy.restore) words += "; the places before the fault are restored";
    return words;
}

}  // namespace courthand
