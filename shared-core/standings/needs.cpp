#include "courthand/standings/needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "courthand/draw/random.h"
#include "standings/conditions.h"
#include "standings/counted.h"
#include "standings/separation.h"

namespace courthand::standings {
namespace {

constexpr double confidence = 0.95;

/// An outcome of one open match by number: winners only 0, 1; with sets the loser's sets for a win
/// of the first, then for a win of the second.
[[nodiscard]] Requirement outcome(std::size_t match, std::size_t number, std::uint8_t sets_to_win,
                                  bool with_sets) {
    if (!with_sets) return {match, number == 0};
    return {match, number < sets_to_win, static_cast<std::uint8_t>(number % sets_to_win)};
}

[[nodiscard]] Result result_of(const OpenMatch& m, const Requirement& r, std::uint8_t sets_to_win) {
    if (r.loser_sets == Requirement::any_sets)
        return result_by_winner(m.first, m.second, r.first_wins, m.order);
    if (r.first_wins) return result_in_sets(m.first, m.second, sets_to_win, r.loser_sets, m.order);
    return result_in_sets(m.first, m.second, r.loser_sets, sets_to_win, m.order);
}

/// Plays courses of the open matches and notes what each means for each team.
class Courses {
  public:
    Courses(const Chain& chain, const Pool& pool, const std::vector<OpenMatch>& open,
            std::uint16_t cut, std::uint8_t sets_to_win)
        : chain_{chain},
          pool_{pool},
          open_{open},
          cut_{cut},
          sets_to_win_{sets_to_win},
          teams_{ranked_teams(pool)},
          results_{counted_results(pool)},
          known_{results_.size()} {}

    Needs exact() {
        Needs needs;
        const std::uint64_t with_sets = courses(std::size_t{2} * sets_to_win_);
        needs.with_sets = with_sets <= Needs::most_courses;
        const std::size_t outcomes = needs.with_sets ? std::size_t{2} * sets_to_win_ : 2U;
        needs.courses = courses(outcomes);
        CourseTable table{open_.size(), outcomes, sets_to_win_, needs.courses};
        start(needs);
        std::vector<CourseSet> through(teams_.size(), table.none());
        std::vector<CourseSet> out = through;
        for (std::uint64_t c = 0; c < needs.courses; ++c) {
            std::uint64_t rest = c;
            for (std::size_t m = 0; m < open_.size(); ++m, rest /= outcomes)
                set(m, rest % outcomes, needs.with_sets);
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
                set(m, random.below(std::uint64_t{2} * sets_to_win_), true);
            play(needs);
        }
        // Drawn courses settle nothing: what never came up may still happen.
        return needs;
    }

  private:
    /// Courses there are; anything above the limit is as good as the limit and one.
    [[nodiscard]] std::uint64_t courses(std::size_t outcomes) const {
        std::uint64_t all = 1;
        for (std::size_t m = 0; m < open_.size() && all <= Needs::most_courses; ++m)
            all *= outcomes;
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

    void set(std::size_t match, std::uint64_t number, bool with_sets) {
        results_[known_ + match] = result_of(
            open_[match], outcome(match, static_cast<std::size_t>(number), sets_to_win_, with_sets),
            sets_to_win_);
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
    std::uint8_t sets_to_win_;
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
                                    std::uint8_t sets_to_win) {
    Faults faults;
    const std::string where = fmt::format("pool {}", pool.name);
    if (sets_to_win < 1 || sets_to_win > 3)
        faults.push_back({where, "a match is won with one, two or three sets",
                          "give the format of the matches"});
    if (cut == 0 || cut >= pool.teams.size())
        faults.push_back({where, fmt::format("place {} cannot be the last that goes on", cut),
                          fmt::format("give a place from 1 to {}", pool.teams.size() - 1)});
    if (open.size() > Needs::most_open)
        faults.push_back(
            {where,
             fmt::format("{} open matches; a pool has {} at most", open.size(), Needs::most_open),
             "give each match once"});
    if (!faults.empty()) return faults;
    for (std::uint8_t lost = 0; lost < sets_to_win; ++lost) {
        const Result result = result_in_sets(0, 1, sets_to_win, lost);
        if (chain.worth.empty() ||
            (match_points(chain, result, true) && match_points(chain, result, false)))
            continue;
        faults.push_back(
            {where, fmt::format("{} gives no match points for {}-{}", chain.id, sets_to_win, lost),
             "choose a chain for this format"});
    }
    // The open matches are checked as if each had a result.
    Pool finished = pool;
    for (const OpenMatch& m : open) {
        finished.results.push_back(result_in_sets(m.first, m.second, sets_to_win, 0, m.order));
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
                                     std::uint8_t sets_to_win, std::uint64_t seed) {
    Faults faults = faults_of(chain, pool);
    if (faults.empty()) faults = faults_of_open(chain, pool, open, cut, sets_to_win);
    if (!faults.empty()) return faults;
    Courses courses{chain, pool, open, cut, sets_to_win};
    if (open.size() > Needs::most_open_exact) return courses.sampled(seed);
    return courses.exact();
}

std::string in_words(const Condition& condition, const Pool& pool,
                     const std::vector<OpenMatch>& open, std::uint8_t sets_to_win) {
    std::string all;
    for (const Requirement& r : condition) {
        const OpenMatch& m = open[r.match];
        const std::string& winner = pool.teams[r.first_wins ? m.first : m.second];
        const std::string& loser = pool.teams[r.first_wins ? m.second : m.first];
        if (!all.empty()) all += " and ";
        all += fmt::format("{} beats {}", winner, loser);
        if (r.loser_sets != Requirement::any_sets)
            all += fmt::format(" {}-{}", sets_to_win, r.loser_sets);
    }
    return all;
}

}  // namespace courthand::standings
