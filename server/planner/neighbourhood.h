// Which matches are freed together.
#pragma once

#include <vector>

#include "courthand/draw/random.h"
#include "courthand/plan/board.h"

namespace courthand::server::planner {

class Neighbourhood {
  public:
    explicit Neighbourhood(const plan::Relations& relations);

    /// About so many matches that have to do with each other in this plan, in the order of the
    /// list; none that is pinned. `must`, if given, is among them.
    [[nodiscard]] std::vector<plan::MatchIndex> choose(const plan::Plan& plan, std::size_t size,
                                                       draw::Random& random,
                                                       const plan::MatchIndex* must = nullptr);

  private:
    using Matches = std::vector<plan::MatchIndex>;
    void add(plan::MatchIndex match);
    void add_pools(draw::Random& random, std::size_t size);
    void add_time(const plan::Plan& plan, draw::Random& random, std::size_t size);
    void add_courts(const plan::Plan& plan, draw::Random& random, std::size_t size);
    void add_last(const plan::Plan& plan, draw::Random& random, std::size_t size);
    void add_related(draw::Random& random, std::size_t size);
    [[nodiscard]] plan::MatchIndex any(draw::Random& random) const;

    const plan::Relations& relations_;
    Matches movable_;
    std::vector<Matches> pools_;
    Matches chosen_;
    std::vector<bool> is_chosen_;
};

}  // namespace courthand::server::planner
