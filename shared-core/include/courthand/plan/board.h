// A plan while it is made: where a match fits beside those that are placed. What it allows, the
// checker passes; it answers fast, match by match, and names nothing.
#pragma once

#include <vector>

#include "courthand/plan/plan.h"

namespace courthand::plan {

/// How a party has to do with a match.
enum class Part : std::uint8_t { plays, works, is_there };

struct Attendance {
    MatchIndex match = 0;
    Part part = Part::plays;
};

/// What all matches together say of each party, each court and each match. The task must outlive
/// it.
class Relations {
  public:
    explicit Relations(const PlanTask& task);

    struct Attending {
        PartyIndex party = 0;
        Part part = Part::plays;
    };
    struct Wait {
        MatchIndex match = 0;
        Minute gap = 0;  ///< from the end of the earlier to the start of the later
    };

    const PlanTask& task;
    std::vector<Window> days;
    std::vector<std::vector<Attendance>> of_party;  ///< in the order of the list
    std::vector<std::vector<Attending>> of_match;   ///< each party once
    std::vector<std::vector<Wait>> before;          ///< what each match waits for
    std::vector<std::vector<Wait>> after;           ///< what waits for it
    std::vector<std::vector<CourtIndex>> courts;    ///< that have what the match needs

    /// The day in which a match that begins then is played; the day count when there is none.
    [[nodiscard]] DayIndex day_of(Minute start) const;
    /// It is a team, known or expected.
    [[nodiscard]] bool is_team(PartyIndex party) const;
    [[nodiscard]] Minute rest_of(MatchIndex match) const {
        return task.groups[task.matches[match].group].rest;
    }
};

class Board {
  public:
    explicit Board(const Relations& relations);

    [[nodiscard]] const Plan& plan() const noexcept { return plan_; }
    void place(MatchIndex match, Place place);
    void remove(MatchIndex match);

    /// Nothing but courts speaks against this beginning: parties, rest, load, order, limits of
    /// time.
    [[nodiscard]] bool time_fits(MatchIndex match, Minute start) const;
    /// The court may have the match, is open and free.
    [[nodiscard]] bool court_fits(MatchIndex match, Place place) const;
    [[nodiscard]] bool fits(MatchIndex match, Place place) const {
        return time_fits(match, place.start) && court_fits(match, place);
    }

  private:
    [[nodiscard]] bool within_limits(MatchIndex match, Minute start) const;
    [[nodiscard]] bool in_graph_order(MatchIndex match, Minute start) const;
    [[nodiscard]] bool party_free(MatchIndex match, Relations::Attending who, Minute start) const;
    [[nodiscard]] bool load_fits(MatchIndex match, PartyIndex team, Minute start) const;

    const Relations& relations_;
    Plan plan_;
    std::vector<std::vector<MatchIndex>> on_court_;
};

/// All beginnings that a plan of this task may have, in the order of time.
[[nodiscard]] std::vector<Minute> starts_of(const PlanTask& task);

/// How many matches of a team are in the row with `own`, one of them: breaks below `row_break` join
/// them. Sorted by time.
[[nodiscard]] int row_of(const std::vector<Window>& matches, Window own, Minute row_break);

}  // namespace courthand::plan
