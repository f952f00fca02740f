// One search of the solver, and how many steps it may take.
#pragma once

#include <cstdint>
#include <optional>
#include <stop_token>

#include "server/planner/place_model.h"

namespace courthand::server::planner {

/// What is left of a budget.
class Steps {
  public:
    Steps(std::uint64_t nodes, std::stop_token stop)
        : left_{nodes}, of_{nodes}, stop_{std::move(stop)} {}

    [[nodiscard]] bool over() const { return left_ == 0 || stop_.stop_requested(); }
    [[nodiscard]] std::uint64_t done() const { return of_ - left_; }
    [[nodiscard]] std::uint64_t of() const { return of_; }
    [[nodiscard]] std::uint64_t left() const { return left_; }
    [[nodiscard]] const std::stop_token& stop() const { return stop_; }
    void take(std::uint64_t nodes) { left_ -= std::min(left_, nodes); }

  private:
    std::uint64_t left_;
    std::uint64_t of_;
    std::stop_token stop_;
};

struct Found {
    std::vector<plan::Place> places;  ///< by free match; empty: none was found
    int cost = 0;
    bool complete = false;  ///< all was tried: there is none, or none that costs less
};

/// Searches a model for the places that cost least, or with `any` for the first, within so many
/// nodes.
[[nodiscard]] Found search(PlaceModel& model, const ModelChoice& choice, Steps& steps,
                           std::uint64_t nodes, bool any = false);

}  // namespace courthand::server::planner
