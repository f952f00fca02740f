#include "plan/waits_between.h"

#include <algorithm>
#include <map>

namespace courthand::plan {

namespace {

/// More waits than these are counted one by one: an assignment takes their number to the third
/// power.
constexpr std::size_t most_waits = 400;

constexpr std::int64_t no_way = -1'000'000'000;

/// One team that plays a match after all of `from`.
struct Wait {
    const std::vector<MatchIndex>* from = nullptr;
    MatchIndex match = 0;
};

/// The sum of the heaviest assignment of rows to columns of a square of weights: the Hungarian
/// method with potentials (Kuhn; in the form of Jonker and Volgenant), in the third power of its
/// size.
class Assignment {
  public:
    explicit Assignment(const std::vector<std::vector<std::int64_t>>& weights)
        : weights_{weights},
          size_{weights.size()},
          of_row_(size_ + 1, 0),
          of_column_(size_ + 1, 0),
          row_(size_ + 1, 0) {}

    [[nodiscard]] std::int64_t heaviest() {
        for (std::size_t row = 1; row <= size_; ++row) add(row);
        std::int64_t sum = 0;
        for (std::size_t column = 1; column <= size_; ++column)
            sum += weights_[row_[column] - 1][column - 1];
        return sum;
    }

  private:
    [[nodiscard]] std::int64_t cost(std::size_t row, std::size_t column) const {
        return -weights_[row - 1][column - 1] - of_row_[row] - of_column_[column];
    }

    /// Finds a column for the row; others may change theirs.
    void add(std::size_t row) {
        std::vector<std::int64_t> least(size_ + 1, -4 * no_way);
        std::vector<std::size_t> came_from(size_ + 1, 0);
        std::vector<bool> done(size_ + 1, false);
        std::size_t column = 0;
        row_[0] = row;
        do {
            done[column] = true;
            column = step(column, least, came_from, done);
        } while (row_[column] != 0);
        while (column != 0) {
            row_[column] = row_[came_from[column]];
            column = came_from[column];
        }
    }

    [[nodiscard]] std::size_t step(std::size_t from, std::vector<std::int64_t>& least,
                                   std::vector<std::size_t>& came_from,
                                   const std::vector<bool>& done) {
        std::size_t next = 0;
        std::int64_t delta = -5 * no_way;
        for (std::size_t column = 1; column <= size_; ++column) {
            if (done[column]) continue;
            if (const std::int64_t now = cost(row_[from], column); now < least[column]) {
                least[column] = now;
                came_from[column] = from;
            }
            if (least[column] < delta) {
                delta = least[column];
                next = column;
            }
        }
        for (std::size_t column = 0; column <= size_; ++column)
            if (done[column]) {
                of_row_[row_[column]] += delta;
                of_column_[column] -= delta;
            } else {
                least[column] -= delta;
            }
        return next;
    }

    const std::vector<std::vector<std::int64_t>>& weights_;
    std::size_t size_;
    std::vector<std::int64_t> of_row_;
    std::vector<std::int64_t> of_column_;
    std::vector<std::size_t> row_;  ///< by column: its row, 0: none
};

class Ways {
  public:
    Ways(const Relations& relations, const Heads& heads)
        : relations_{relations},
          task_{relations.task},
          heads_{heads},
          grid_{grid_of(task_)},
          order_{in_order(task_)} {
        find_waits();
    }

    [[nodiscard]] std::int64_t least() {
        if (waits_.empty()) return 0;
        std::vector<std::vector<std::int64_t>> weights;
        std::map<std::vector<MatchIndex>, std::vector<std::int64_t>> known;
        for (const Wait& wait : waits_) {
            auto row = known.find(*wait.from);
            if (row == known.end()) row = known.emplace(*wait.from, ways_from(*wait.from)).first;
            weights.push_back(row->second);
        }
        std::int64_t by_itself = 0;
        for (std::size_t i = 0; i < weights.size(); ++i) by_itself += weights[i][i];
        if (weights.size() > most_waits) return by_itself;
        return std::max(by_itself, Assignment{weights}.heaviest());
    }

  private:
    /// Of teams that play one match and do nothing else, on the one day of all they come from.
    void find_waits() {
        for (std::size_t p = 0; p < task_.parties.size(); ++p) {
            const Party& party = task_.parties[p];
            const auto& attends = relations_.of_party[p];
            if (party.from.empty() || attends.size() != 1 || attends[0].part != Part::plays)
                continue;
            const MatchIndex match = attends[0].match;
            const auto& day = heads_.day[match];
            const bool one_day =
                day && !task_.matches[match].pinned &&
                std::all_of(party.from.begin(), party.from.end(), [&](MatchIndex from) {
                    return heads_.day[from] == day && !task_.matches[from].pinned;
                });
            if (one_day) waits_.push_back({&party.from, match});
        }
    }

    /// Minutes from the end of the last of these to the beginning of the match of each wait, at
    /// least.
    [[nodiscard]] std::vector<std::int64_t> ways_from(const std::vector<MatchIndex>& from) const {
        std::vector<std::int64_t> to(task_.matches.size(), no_way);
        for (const MatchIndex match : order_) {
            for (const Relations::Attending& who : relations_.of_match[match])
                if (comes_after(who.party, from))
                    to[match] = std::max(to[match], first_gap(match, who, from));
            for (const Relations::Wait& wait : relations_.before[match])
                if (to[wait.match] >= 0)
                    to[match] = std::max(
                        to[match], to[wait.match] + stride(grid_, duration(wait.match), wait.gap));
        }
        std::vector<std::int64_t> row;
        for (const Wait& wait : waits_) row.push_back(to[wait.match]);
        return row;
    }

    /// Whether the party comes out of all of these, so that it waits for their last.
    [[nodiscard]] bool comes_after(PartyIndex party, const std::vector<MatchIndex>& from) const {
        const auto& its = task_.parties[party].from;
        return std::all_of(from.begin(), from.end(), [&](MatchIndex match) {
            return std::find(its.begin(), its.end(), match) != its.end();
        });
    }

    [[nodiscard]] std::int64_t first_gap(MatchIndex match, const Relations::Attending& who,
                                         const std::vector<MatchIndex>& from) const {
        const Minute gap = who.part == Part::plays ? relations_.rest_of(match) : 0;
        const Minute lasts = duration(from.front());
        const bool alike = std::all_of(from.begin(), from.end(),
                                       [&](MatchIndex each) { return duration(each) == lasts; });
        return alike ? stride(grid_, lasts, gap) - lasts : gap;
    }

    [[nodiscard]] Minute duration(MatchIndex match) const { return task_.matches[match].duration; }

    const Relations& relations_;
    const PlanTask& task_;
    const Heads& heads_;
    Minute grid_;
    std::vector<MatchIndex> order_;
    std::vector<Wait> waits_;
};

}  // namespace

std::int64_t least_waits_between(const Relations& relations, const Heads& heads) {
    return Ways{relations, heads}.least();
}

}  // namespace courthand::plan
