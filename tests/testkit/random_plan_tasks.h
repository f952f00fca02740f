// Small halls by chance, with every kind of limit now and then, for laws and for brute force.
#pragma once

#include "courthand/draw/random.h"
#include "tests/testkit/plan_tasks.h"

namespace courthand::testkit {

[[nodiscard]] inline plan::PlanTask random_plan_task(draw::Random& random) {
    const auto chance = [&](std::uint64_t in) { return random.below(in) == 0; };
    Hall hall;
    hall.pools = 1 + static_cast<int>(random.below(2));
    hall.courts = 1 + static_cast<int>(random.below(3));
    hall.days = 1 + static_cast<int>(random.below(2));
    hall.duties = chance(2);
    hall.brackets = chance(3);
    hall.duration = 40 + 10 * static_cast<plan::Minute>(random.below(3));
    hall.rest = 10 * static_cast<plan::Minute>(random.below(4));
    plan::PlanTask task = plan_task(hall);
    task.step = chance(2) ? 20 : 15;
    plan::Group& group = task.groups[0];
    group.row_break = hall.duration;
    if (chance(2)) group.most_in_a_row = 2;
    if (chance(4)) group.most_a_day = 2;
    if (chance(3)) group.latest_finish = {1000};
    if (chance(3)) task.courts.back().features = {"stands"};
    if (chance(3)) task.courts.front().open.front().hours.until -= 300;
    for (plan::TaskMatch& match : task.matches) {
        if (chance(8)) match.needs = {"stands"};
        if (chance(8)) match.earliest = 600;
        if (chance(12)) match.latest_end = 900;
    }
    if (chance(3)) {
        task.parties.push_back({plan::Party::Kind::person, "coach 1"});
        const auto coach = static_cast<plan::PartyIndex>(task.parties.size() - 1);
        for (std::size_t m = 0; m < task.matches.size(); m += 1 + random.below(3))
            task.matches[m].present = {coach};
    }
    return task;
}

}  // namespace courthand::testkit
