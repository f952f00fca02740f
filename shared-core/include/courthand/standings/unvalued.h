// Results that a chain cannot value: a pool with such a result cannot be put in order.
#pragma once

#include <string>
#include <vector>

#include "courthand/standings/chain.h"
#include "courthand/standings/needs.h"

namespace courthand::standings {

/// The scores, "1-0" or "1-1", with which a match of this length may end and for which the chain
/// has no match points; none for a chain that counts no match points. The length is one that can be
/// played.
[[nodiscard]] std::vector<std::string> unvalued(const Chain& chain, MatchLength length);

}  // namespace courthand::standings
