#include <algorithm>
#include <tuple>
#include <utility>

#include "tournament/bracket_builder.h"

namespace courthand::tournament {
namespace {

/// The losers who drop from the main bracket into that of the losers. Their order changes from
/// round to round so that teams that have met come to different parts of it.
[[nodiscard]] std::vector<Entrant> dropped(std::vector<Entrant> losers, std::size_t round) {
    if (round % 2 == 0)
        std::reverse(losers.begin(), losers.end());
    else
        std::rotate(losers.begin(), losers.begin() + static_cast<std::ptrdiff_t>(losers.size() / 2),
                    losers.end());
    return losers;
}

class DoubleElimination {
  public:
    DoubleElimination(BracketBuilder& builder, bool second_final)
        : builder_{builder}, second_final_{second_final} {}

    void build(const std::vector<Entrant>& slots) {
        Halves main = builder_.round(slots, Stage::main, 1);
        std::vector<Entrant> twice = main.losers;
        for (std::uint16_t r = 2; main.winners.size() > 1; ++r) {
            twice = among_losers(builder_.round(twice, Stage::losers, ++round_));
            main = builder_.round(main.winners, Stage::main, r);
            const std::vector<Entrant> fresh = dropped(main.losers, r);
            std::vector<Entrant> paired;
            for (std::size_t i = 0; i < twice.size(); ++i) {
                paired.push_back(twice[i]);
                paired.push_back(fresh[i]);
            }
            twice = among_losers(builder_.round(paired, Stage::losers, ++round_));
        }
        finals(main.winners[0], twice[0]);
    }

  private:
    std::vector<Entrant> among_losers(Halves halves) {
        out_.push_back(std::move(halves.losers));
        return std::move(halves.winners);
    }

    void finals(Entrant unbeaten, Entrant once_beaten) {
        auto [first, second] = builder_.meet(unbeaten, once_beaten, Stage::final, 1);
        if (second_final_) {
            const auto match = static_cast<MatchIndex>(builder_.graph().matches.size() - 1);
            std::tie(first, second) = builder_.meet(first, second, Stage::final, 2);
            builder_.graph().matches.back().only_if_second_won = match;
        }
        std::uint16_t next = 1;
        builder_.place(first, next);
        builder_.place(second, next);
        for (auto round = out_.rbegin(); round != out_.rend(); ++round)
            builder_.share_places(*round, next);
    }

    BracketBuilder& builder_;
    bool second_final_;
    std::uint16_t round_ = 0;
    std::vector<std::vector<Entrant>> out_;  ///< who is out, by round of the losers' bracket
};

}  // namespace

Faults add_double_elimination(Graph& graph, const std::vector<SourceIndex>& entrants,
                              const BracketOptions& options) {
    Faults faults = faults_of_entrants(graph, entrants, options.prefix);
    if (!faults.empty()) return faults;
    BracketBuilder builder{graph, options.prefix};
    DoubleElimination{builder, options.second_final}.build(slotted(entrants));
    return {};
}

}  // namespace courthand::tournament
