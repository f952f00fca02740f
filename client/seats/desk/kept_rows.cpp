#include "kept_rows.h"

#include <utility>

namespace courthand::seats {

std::vector<QVariantMap> KeptRows::of(const State& state,
                                      const std::vector<event::MatchRef>& matches,
                                      const venue::TableResults& tables, const Make& make) {
    if (state != std::exchange(state_, state)) made_.clear();
    made_.resize(matches.size());
    std::vector<QVariantMap> rows;
    rows.reserve(matches.size());
    for (std::size_t i = 0; i < matches.size(); ++i) {
        Made& made = made_[i];
        auto recorded = tables.of(*state, matches[i]);
        if (made.row.isEmpty() || made.match != matches[i] || made.recorded != recorded)
            made = {matches[i], std::move(recorded), make(i)};
        rows.push_back(made.row);
    }
    return rows;
}

}  // namespace courthand::seats
