#include "courthand/event_plan/event_plan.h"

namespace courthand::event_plan {

std::vector<event::Fact> facts_of(const event::TournamentState& state, const EventTask& task,
                                  const plan::Plan& plan) {
    std::vector<event::Fact> facts;
    for (std::size_t m = 0; m < task.matches.size(); ++m) {
        const plan::TaskMatch& match = task.task.matches[m];
        const auto& now = state.match(task.matches[m]).placement;
        if (match.begun) continue;
        if (!plan.places[m]) {
            if (now) facts.emplace_back(event::MatchUnplaced{match.name});
            continue;
        }
        const std::uint16_t court = task.courts[plan.places[m]->court];
        const event::LocalTime at = time_of(task, plan.places[m]->start);
        if (!now)
            facts.emplace_back(event::MatchPlaced{match.name, court, at});
        else if (now->court != court || now->at != at)
            facts.emplace_back(event::MatchMoved{match.name, court, at});
    }
    return facts;
}

}  // namespace courthand::event_plan
