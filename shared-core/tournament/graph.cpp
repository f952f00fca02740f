#include "courthand/tournament/graph.h"

#include <fmt/format.h>

#include <algorithm>

namespace courthand::tournament {
namespace {

[[nodiscard]] std::string ordinal(std::uint32_t n) {
    const std::uint32_t ten = n % 100;
    if (ten >= 11 && ten <= 13) return fmt::format("{}th", n);
    switch (n % 10) {
        case 1:
            return fmt::format("{}st", n);
        case 2:
            return fmt::format("{}nd", n);
        case 3:
            return fmt::format("{}rd", n);
        default:
            break;
    }
    return fmt::format("{}th", n);
}

}  // namespace

SourceIndex Graph::add(const Source& source) {
    const auto found = std::find(sources.begin(), sources.end(), source);
    const auto index = static_cast<SourceIndex>(found - sources.begin());
    if (found == sources.end()) sources.push_back(source);
    return index;
}

std::string in_words(const Graph& graph, SourceIndex source) {
    const Source& s = graph.sources[source];
    switch (s.kind) {
        case Source::Kind::team:
            return fmt::format("team {}", s.of);
        case Source::Kind::place:
            return fmt::format("{} of pool {}", ordinal(s.second), graph.pools[s.of].name);
        case Source::Kind::winner:
            return fmt::format("winner of {}", graph.matches[s.of].name);
        case Source::Kind::loser:
            return fmt::format("loser of {}", graph.matches[s.of].name);
        case Source::Kind::better:
            return fmt::format("better of {} and {}", in_words(graph, s.of),
                               in_words(graph, s.second));
        case Source::Kind::worse:
            return fmt::format("worse of {} and {}", in_words(graph, s.of),
                               in_words(graph, s.second));
        case Source::Kind::bye:
            break;
    }
    return "bye";
}

}  // namespace courthand::tournament
