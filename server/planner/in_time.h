// Decides matches in the order of time: each at the earliest time it can have, or not before that
// time has become later because others went first. Finds plans in which nothing could begin earlier
// by itself. The same from the end of the day on, where nothing could begin later.
#pragma once

#include <gecode/int.hh>

#include <cstdint>
#include <vector>

namespace courthand::server::planner {

enum class Towards : std::uint8_t { beginning, end };

/// `lag`: minutes by which each match is looked at later than its time is, so that others go first.
void decide_in_time(Gecode::Home home, const Gecode::IntVarArgs& starts,
                    const Gecode::IntVarArgs& courts, const std::vector<int>& lag, Towards towards);

}  // namespace courthand::server::planner
