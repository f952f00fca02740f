#include "courthand/event/pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "courthand/event/advance.h"
#include "courthand/event/duty.h"
#include "courthand/event/effects.h"

namespace courthand::event {
namespace {

[[nodiscard]] const Court* court_of(const TournamentState& state, std::uint16_t number) {
    const auto found = state.courts.find(number);
    return found == state.courts.end() ? nullptr : &found->second;
}

class Pages {
  public:
    Pages(const TournamentState& before, const TournamentState& after)
        : before_{before}, after_{after} {}

    [[nodiscard]] std::vector<std::string> run() {
        for (const std::string& name : difference(before_, after_).matches) {
            look_at(before_, name);
            look_at(after_, name);
        }
        for (DivisionIndex d = 0; d < before_.division_count(); ++d) look_at_places(d);
        return listed();
    }

  private:
    void look_at(const TournamentState& state, const std::string& name) {
        const auto ref = state.find_match(name);
        if (!ref) return;
        (state.node(*ref).pool ? pools_ : brackets_) = true;
        if (const auto& place = state.match(*ref).placement) courts_.insert(place->court);
        for (const std::size_t which : {std::size_t{0}, std::size_t{1}})
            add(state, state.side(*ref, which));
        if (const auto workers = workers_of(state, *ref))
            add(state, state.divisions[ref->division].settled[*workers]);
    }

    void add(const TournamentState& state, Side side) {
        if (side.is_team()) teams_.insert(state.teams[side.team].name);
    }

    void look_at_places(DivisionIndex d) {
        const Division& was = before_.divisions[d];
        const auto found = after_.find_division(was.rules.division);
        if (!found) {
            pools_ = brackets_ = true;
            return;
        }
        if (final_places(before_, d) != final_places(after_, *found)) brackets_ = true;
        const auto same_order = [](const PoolState& a, const PoolState& b) {
            return a.order == b.order;
        };
        const auto& is = after_.divisions[*found].pools;
        if (!std::equal(was.pools.begin(), was.pools.end(), is.begin(), is.end(), same_order))
            pools_ = true;
    }

    /// A court or team that is no more has lost its page, which is told with the others.
    [[nodiscard]] std::vector<std::string> listed() const {
        std::vector<std::string> titles;
        if (pools_) titles.emplace_back(pools_title);
        if (brackets_) titles.emplace_back(brackets_title);
        for (const std::uint16_t number : courts_) {
            const Court* court = court_of(before_, number);
            if (court == nullptr) court = court_of(after_, number);
            if (court != nullptr) titles.push_back(court_title(number, *court));
        }
        for (const Team& team : before_.teams)
            if (teams_.contains(team.name)) titles.push_back(team.name);
        return titles;
    }

    const TournamentState& before_;
    const TournamentState& after_;
    bool pools_ = false;
    bool brackets_ = false;
    std::set<std::uint16_t> courts_;
    std::set<std::string> teams_;
};

}  // namespace

std::string court_title(std::uint16_t number, const Court& court) {
    return court.name.empty() ? fmt::format("Court {}", number)
                              : fmt::format("Court {}, {}", number, court.name);
}

std::vector<std::string> pages_that_change(const TournamentState& before,
                                           const TournamentState& after) {
    return Pages{before, after}.run();
}

}  // namespace courthand::event
