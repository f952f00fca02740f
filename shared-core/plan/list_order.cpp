#include <algorithm>
#include <cassert>

#include "courthand/plan/board.h"

namespace courthand::plan {

namespace {

[[nodiscard]] std::optional<Place> earliest(const Relations& relations, const Board& board,
                                            const std::vector<Minute>& starts, MatchIndex match) {
    for (const Minute start : starts) {
        if (!board.time_fits(match, start)) continue;
        for (const CourtIndex court : relations.courts[match])
            if (board.court_fits(match, {court, start})) return Place{court, start};
    }
    return std::nullopt;
}

[[nodiscard]] Plan fill(const PlanTask& task, const std::vector<MatchIndex>& order,
                        bool as_published) {
    assert(order.size() == task.matches.size());
    const Relations relations{task};
    const std::vector<Minute> starts = starts_of(task);
    Board board{relations};
    for (const MatchIndex match : order)
        if (const auto& pinned = task.matches[match].pinned) board.place(match, *pinned);
    for (const MatchIndex match : order)
        if (const auto& published = task.matches[match].published; as_published && published &&
                                                                   !board.plan().places[match] &&
                                                                   board.fits(match, *published))
            board.place(match, *published);
    for (const MatchIndex match : order)
        if (!board.plan().places[match])
            if (const auto place = earliest(relations, board, starts, match))
                board.place(match, *place);
    return board.plan();
}

}  // namespace

Plan in_this_order(const PlanTask& task, const std::vector<MatchIndex>& order) {
    return fill(task, order, false);
}

Plan in_list_order(const PlanTask& task) {
    return in_this_order(task, in_order(task));
}

Plan near_published(const PlanTask& task) {
    return fill(task, in_order(task), true);
}

std::vector<PartyIndex> people_to_tell(const PlanTask& task, const Plan& plan) {
    std::vector<PartyIndex> told;
    const Relations relations{task};
    for (std::size_t m = 0; m < task.matches.size(); ++m) {
        const auto& published = task.matches[m].published;
        if (!published || plan.places[m] == published) continue;
        for (const auto& who : relations.of_match[m]) told.push_back(who.party);
    }
    std::sort(told.begin(), told.end());
    told.erase(std::unique(told.begin(), told.end()), told.end());
    return told;
}

}  // namespace courthand::plan
