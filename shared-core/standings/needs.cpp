#include "courthand/standings/needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "courthand/draw/random.h"
#include "courthand/standings/unvalued.h"
#include "standings/conditions.h"
#include "standings/counted.h"
#include "standings/separation.h"

namespace courthand::standings {
namespace {

constexpr double confidence = 0.95;

[[nodiscard]] Result result_of(const OpenMatch& m, const Outcome& o) {
    if (o.sets_known)
        return result_in_sets(m.first, m.second, o.first_sets, o.second_sets, m.order);
    return result_by_winner(m.first, m.second, o.winner == Result::Winner::first, m.order);
}

/// Plays courses of the open matches and notes what each means for each team.
class Courses {
  public:
    Courses(const Chain& chain, const Pool& pool, const std::vector<OpenMatch>& open,
            std::uint16_t cut, MatchLength length)
        : chain_{chain},
          pool_{pool},
          open_{open},
          cut_{cut},
          scores_{scores_of(length)},
          winners_{winners_of(length)},
          teams_{ranked_teams(pool)},
          results_{counted_results(pool)},
          known_{results_.size()} {}

    Needs exact() {
        Needs needs;
        needs.with_sets = courses(scores_) <= Needs::most_courses;
        const std::vector<Outcome>& outcomes = needs.with_sets ? scores_ : winners_;
        needs.courses = courses(outcomes);
        CourseTable table{open_.size(), outcomes, needs.courses};
        start(needs);
        std::vector<CourseSet> through(teams_.size(), table.none());
        std::vector<CourseSet> out = through;
        for (std::uint64_t c = 0; c < needs.courses; ++c) {
            std::uint64_t rest = c;
            for (std::size_t m = 0; m < open_.size(); ++m, rest /= outcomes.size())
                set(m, outcomes[static_cast<std::size_t>(rest % outcomes.size())]);
            play(needs);
            for (std::size_t t = 0; t < teams_.size(); ++t) {
                if (fates_[t] == Fate::through) through[t].add(c);
                if (fates_[t] == Fate::out) out[t].add(c);
            }
        }
        settle(needs);
        for (std::size_t t = 0; t < teams_.size(); ++t) {
            if (needs.teams[t].fate != Fate::undecided) continue;
            needs.teams[t].enough = table.shortest(through[t]);
            needs.teams[t].too_bad = table.shortest(out[t]);
        }
        return needs;
    }

    Needs sampled(std::uint64_t seed) {
        Needs needs;
        needs.exact = false;
        needs.courses = Needs::samples;
        needs.error = std::sqrt(std::log(2 / (1 - confidence)) / (2.0 * Needs::samples));
        draw::Random random{seed};
        start(needs);
        for (std::uint64_t c = 0; c < needs.courses; ++c) {
            for (std::size_t m = 0; m < open_.size(); ++m)
                set(m, scores_[static_cast<std::size_t>(random.below(scores_.size()))]);
            play(needs);
        }
        // Drawn courses settle nothing: what never came up may still happen.
        return needs;
    }

  private:
    [[nodiscard]] std::uint64_t courses(const std::vector<Outcome>& outcomes) const {
        std::uint64_t all = 1;
        for (std::size_t m = 0; m < open_.size(); ++m) all *= outcomes.size();
        return all;
    }

    void start(Needs& needs) {
        for (const TeamIndex team : teams_) {
            needs.teams.emplace_back();
            needs.teams.back().team = team;
        }
        fates_.resize(teams_.size());
        slot_.assign(pool_.teams.size(), 0);
        for (std::size_t t = 0; t < teams_.size(); ++t) slot_[teams_[t]] = t;
        results_.resize(known_ + open_.size());
    }

    void set(std::size_t match, const Outcome& outcome) {
        results_[known_ + match] = result_of(open_[match], outcome);
    }

    void play(Needs& needs) {
        Separation separation{chain_, pool_, results_, false};
        separation.run(teams_);
        for (const Place& place : separation.places) {
            const std::size_t last = place.number + place.teams.size() - 1;
            Fate fate = Fate::undecided;
            if (last <= cut_)
                fate = Fate::through;
            else if (place.number > cut_)
                fate = Fate::out;
            for (const TeamIndex team : place.teams) {
                TeamNeeds& n = needs.teams[slot_[team]];
                fates_[slot_[team]] = fate;
                if (fate == Fate::through)
                    ++n.through;
                else if (fate == Fate::out)
                    ++n.out;
                else
                    ++n.hangs;
            }
        }
    }

    static void settle(Needs& needs) {
        for (TeamNeeds& n : needs.teams) {
            if (n.through == needs.courses) n.fate = Fate::through;
            if (n.out == needs.courses) n.fate = Fate::out;
        }
    }

    const Chain& chain_;
    const Pool& pool_;
    const std::vector<OpenMatch>& open_;
    std::uint16_t cut_;
    std::vector<Outcome> scores_;   ///< of each open match
    std::vector<Outcome> winners_;  ///< the same, winners only
    std::vector<TeamIndex> teams_;
    std::vector<Result> results_;  ///< known ones, then those of the course
    std::size_t known_;
    std::vector<Fate> fates_;        ///< of the course, by position in `teams_`
    std::vector<std::size_t> slot_;  ///< position in `teams_` by team
};

[[nodiscard]] bool withdrawn(const Pool& pool, TeamIndex team) {
    return std::any_of(pool.withdrawals.begin(), pool.withdrawals.end(),
                       [&](const Withdrawal& w) { return w.team == team; });
}

[[nodiscard]] Faults faults_of_open(const Chain& chain, const Pool& pool,
                                    const std::vector<OpenMatch>& open, std::uint16_t cut,
                                    MatchLength length) {
    Faults faults;
    const std::string where = fmt::format("pool {}", pool.name);
    if (length.sets < 1 || length.sets > Result::most_sets)
        faults.push_back({where, fmt::format("a match of {} sets", length.sets),
                          fmt::format("give 1 to {} sets", Result::most_sets)});
    else if (!length.all_played && length.sets % 2 == 0)
        faults.push_back({where, fmt::format("best of {} can end in a draw", length.sets),
                          "give 1, 3 or 5 sets, or a fixed number that are all played"});
    if (cut == 0 || cut >= pool.teams.size())
        faults.push_back({where, fmt::format("place {} cannot be the last that goes on", cut),
                          fmt::format("give a place from 1 to {}", pool.teams.size() - 1)});
    if (open.size() > Needs::most_open)
        faults.push_back(
            {where,
             fmt::format("{} open matches; a pool has {} at most", open.size(), Needs::most_open),
             "give each match once"});
    if (!faults.empty()) return faults;
    const std::vector<Outcome> scores = scores_of(length);
    for (const std::string& score : unvalued(chain, length))
        faults.push_back({where, fmt::format("{} gives no match points for {}", chain.id, score),
                          "choose a chain for this format"});
    // The open matches are checked as if each had a result.
    Pool finished = pool;
    for (const OpenMatch& m : open) {
        finished.results.push_back(result_of(m, scores.front()));
        if (m.first >= pool.teams.size() || m.second >= pool.teams.size()) continue;
        if (withdrawn(pool, m.first) || withdrawn(pool, m.second))
            faults.push_back({where, "an open match of a team that has withdrawn", "strike it"});
    }
    const Faults more = faults_of(chain, finished);
    faults.insert(faults.end(), more.begin(), more.end());
    return faults;
}

}  // namespace

std::variant<Needs, Faults> needs_of(const Chain& chain, const Pool& pool,
                                     const std::vector<OpenMatch>& open, std::uint16_t cut,
                                     MatchLength length, std::uint64_t seed) {
    Faults faults = faults_of(chain, pool);
    if (faults.empty()) faults = faults_of_open(chain, pool, open, cut, length);
    if (!faults.empty()) return faults;
    Courses courses{chain, pool, open, cut, length};
    if (open.size() > Needs::most_open_exact) return courses.sampled(seed);
    return courses.exact();
}

std::string in_words(const Condition& condition, const Pool& pool,
                     const std::vector<OpenMatch>& open, MatchLength length) {
    std::string all;
    for (const Requirement& r : condition) {
        const OpenMatch& m = open[r.match];
        const bool turned = r.winner == Result::Winner::second;
        const std::string& one = pool.teams[turned ? m.second : m.first];
        const std::string& other = pool.teams[turned ? m.first : m.second];
        if (!all.empty()) all += " and ";
        if (r.winner == Result::Winner::none) {
            all +=
                fmt::format("{} draws with {} {}-{}", one, other, length.sets / 2, length.sets / 2);
            continue;
        }
        all += fmt::format("{} beats {}", one, other);
        if (r.loser_sets == Requirement::any_sets) continue;
        const int won = length.all_played ? length.sets - r.loser_sets : length.sets / 2 + 1;
        all += fmt::format(" {}-{}", won, r.loser_sets);
    }
    return all;
}

}  // namespace courthand::standings
