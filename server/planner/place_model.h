// The matches that are free, as variables of a constraint solver, beside those that stand.
#pragma once

#include <gecode/int.hh>
#include <gecode/search.hh>

#include <functional>
#include <vector>

#include "courthand/plan/board.h"

namespace courthand::server::planner {

/// How values are tried: the order of courts, and of matches.
struct Trying {
    std::vector<plan::CourtIndex> courts;  ///< every court once, those to be tried first in front
    enum class Way : std::uint8_t {
        all,           ///< every time of every match, those that can begin first in front
        to_beginning,  ///< plans in which nothing could begin earlier by itself
        to_end,        ///< plans in which nothing could begin later by itself
    };
    Way way = Way::all;
    std::uint64_t seed = 1;
};

struct ModelChoice {
    std::vector<plan::MatchIndex> free;
    /// Costs are not looked at: any plan will do.
    bool costs = true;
    /// By day: no free match ends later; empty: no limit.
    std::vector<plan::Minute> until{};
};

/// A space of the solver. Minimises the weighted cost of all that the free matches touch; what they
/// do not touch costs the same whatever it does.
class PlaceModel : public Gecode::Space {
  public:
    /// The board holds the places of all matches that stand; free ones have none there.
    PlaceModel(const plan::Relations& relations, const plan::Board& board,
               const ModelChoice& choice, const Trying& trying);
    PlaceModel(PlaceModel& other);
    Gecode::Space* copy() override;

    /// For branch and bound: the next must cost less.
    void constrain(const Gecode::Space& best) override;
    void cost_below(int limit);
    void fix(std::size_t free, plan::Place place);

    [[nodiscard]] bool has_time(std::size_t free) const;
    [[nodiscard]] plan::Place place(std::size_t free) const;
    [[nodiscard]] int least_cost() const { return cost_.min(); }
    /// False: a cost that hangs on the day of a match was left out, so that the best by this model
    /// need not be the best.
    [[nodiscard]] bool knows_all_costs() const noexcept { return knows_all_costs_; }

  private:
    friend class ModelBuilder;
    Gecode::IntVarArray start_;  ///< by free match, in minutes
    Gecode::IntVarArray court_;  ///< by free match, as place in `Trying::courts`
    Gecode::IntVar cost_;
    std::vector<plan::CourtIndex> courts_;
    bool knows_all_costs_ = true;
};

/// Ends a search after so many nodes, or when it is asked to.
class StepLimit : public Gecode::Search::Stop {
  public:
    template <class Asked>
    StepLimit(std::uint64_t nodes, Asked asked) : nodes_{nodes}, asked_{std::move(asked)} {}
    bool stop(const Gecode::Search::Statistics& done, const Gecode::Search::Options&) override {
        return done.node >= nodes_ || asked_();
    }

  private:
    std::uint64_t nodes_;
    std::function<bool()> asked_;
};

}  // namespace courthand::server::planner
