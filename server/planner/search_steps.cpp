#include "server/planner/search_steps.h"

#include <algorithm>
#include <memory>

namespace courthand::server::planner {

Found search(PlaceModel& model, const ModelChoice& choice, Steps& steps, std::uint64_t nodes,
             bool any) {
    Found found;
    StepLimit limit{std::min(nodes, steps.left()),
                    [&steps] { return steps.stop().stop_requested(); }};
    Gecode::Search::Options options;
    options.stop = &limit;
    options.threads = 1;
    Gecode::BAB<PlaceModel> engine{&model, options};
    while (const std::unique_ptr<PlaceModel> better{engine.next()}) {
        found.places.clear();
        for (std::size_t i = 0; i < choice.free.size(); ++i)
            found.places.push_back(better->place(i));
        found.cost = better->least_cost();
        if (any) break;
    }
    found.complete = !any && !engine.stopped();
    if (any && found.places.empty()) found.complete = !engine.stopped();
    steps.take(std::max<std::uint64_t>(1, engine.statistics().node));
    return found;
}

}  // namespace courthand::server::planner
