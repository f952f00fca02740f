#include "courthand/plan/replan.h"

#include <algorithm>

namespace courthand::plan {

PlanTask from_now(const PlanTask& task, Minute now, Keep keep) {
    PlanTask later = task;
    later.now = std::max(task.now, now);
    if (keep == Keep::none) later.weights.of[static_cast<std::size_t>(Wish::told)] = 0;
    for (TaskMatch& match : later.matches) {
        if (match.begun) continue;
        match.pinned.reset();
        const bool ahead = match.published && match.published->start >= later.now;
        if (keep == Keep::all && ahead) match.pinned = match.published;
    }
    return later;
}

}  // namespace courthand::plan
