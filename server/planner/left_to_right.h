// Decides matches from left to right: each at the earliest time it can have, or not before that
// time has become later because others went first. Finds plans in which nothing could begin earlier
// by itself.
#pragma once

#include <gecode/int.hh>

#include <vector>

namespace courthand::server::planner {

/// `lag`: minutes by which each match is looked at later than it could begin, so that others go
/// first.
void decide_left_to_right(Gecode::Home home, const Gecode::IntVarArgs& starts,
                          const Gecode::IntVarArgs& courts, const std::vector<int>& lag);

}  // namespace courthand::server::planner
