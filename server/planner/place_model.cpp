#include "server/planner/place_model.h"

#include "courthand/draw/random.h"
#include "server/planner/in_time.h"
#include "server/planner/model_builder.h"

namespace courthand::server::planner {

namespace {

using Gecode::IntVar;
using Gecode::IntVarArgs;

/// What is decided next: the court of a match that has a time, otherwise the match that may begin
/// first.
void decide_all(PlaceModel& model, const IntVarArgs& starts, const IntVarArgs& courts) {
    IntVarArgs turn;
    for (int i = 0; i < starts.size(); ++i) turn << starts[i] << courts[i];
    const auto merit = [](const Gecode::Space& space, IntVar x, int i) {
        constexpr double at_once = 1e9;
        if (i % 2 == 0) return -static_cast<double>(x.min());
        const auto& of = static_cast<const PlaceModel&>(space);
        return of.has_time(static_cast<std::size_t>(i / 2)) ? at_once : -at_once;
    };
    Gecode::branch(model, turn, Gecode::INT_VAR_MERIT_MAX(merit), Gecode::INT_VAL_MIN());
}

/// Most matches in the order in which they can begin, some a little later.
[[nodiscard]] std::vector<int> some_lag(int count, std::uint64_t seed) {
    constexpr std::uint64_t longest = 90;
    draw::Random random{seed};
    std::vector<int> lag;
    for (int i = 0; i < count; ++i)
        lag.push_back(random.below(2) == 0 ? static_cast<int>(random.below(5))
                                           : static_cast<int>(random.below(longest)));
    return lag;
}

}  // namespace

PlaceModel::PlaceModel(const plan::Relations& relations, const plan::Board& board,
                       const ModelChoice& choice, const Trying& trying)
    : courts_{trying.courts} {
    ModelBuilder{*this, relations, board, choice, trying}.run();
    if (trying.way == Trying::Way::all)
        decide_all(*this, start_, court_);
    else
        decide_in_time(*this, start_, court_, some_lag(start_.size(), trying.seed),
                       trying.way == Trying::Way::to_end ? Towards::end : Towards::beginning);
    Gecode::branch(*this, cost_, Gecode::INT_VAL_MIN());
}

PlaceModel::PlaceModel(PlaceModel& other)
    : Gecode::Space{other}, courts_{other.courts_}, knows_all_costs_{other.knows_all_costs_} {
    start_.update(*this, other.start_);
    court_.update(*this, other.court_);
    cost_.update(*this, other.cost_);
}

Gecode::Space* PlaceModel::copy() {
    return new PlaceModel{*this};
}

void PlaceModel::constrain(const Gecode::Space& best) {
    cost_below(static_cast<const PlaceModel&>(best).least_cost());
}

void PlaceModel::cost_below(int limit) {
    Gecode::rel(*this, cost_, Gecode::IRT_LE, limit);
}

void PlaceModel::fix(std::size_t free, plan::Place place) {
    const auto i = static_cast<int>(free);
    Gecode::rel(*this, start_[i], Gecode::IRT_EQ, place.start);
    for (std::size_t c = 0; c < courts_.size(); ++c)
        if (courts_[c] == place.court)
            Gecode::rel(*this, court_[i], Gecode::IRT_EQ, static_cast<int>(c));
}

bool PlaceModel::has_time(std::size_t free) const {
    return start_[static_cast<int>(free)].assigned();
}

plan::Place PlaceModel::place(std::size_t free) const {
    const auto i = static_cast<int>(free);
    const auto court = static_cast<std::size_t>(court_[i].val());
    return {court < courts_.size() ? courts_[court] : plan::CourtIndex{0}, start_[i].val()};
}

}  // namespace courthand::server::planner
