// Posts what binds the free matches of a model, and what they cost.
#pragma once

#include <map>
#include <optional>
#include <vector>

#include "server/planner/place_model.h"

namespace courthand::server::planner {

class ModelBuilder {
  public:
    ModelBuilder(PlaceModel& model, const plan::Relations& relations, const plan::Board& board,
                 const ModelChoice& choice, const Trying& trying);
    void run();

  private:
    /// A match at its place or a free one: what is said of the time it takes.
    struct Span {
        Gecode::IntVar start;
        plan::Minute duration = 0;
        std::optional<std::size_t> free;  ///< none: it stands
    };
    /// Of one team on one day.
    struct Attended {
        std::vector<Gecode::IntVar> starts;
        std::vector<Gecode::IntVar> ends;
        std::vector<Gecode::BoolVar> there;  ///< of free ones whose day is open
        std::vector<int> lengths;            ///< of those
        int busy = 0;                        ///< of the others
    };

    void make_variables();
    [[nodiscard]] std::vector<int> starts_for(plan::MatchIndex match) const;
    [[nodiscard]] bool in_time(plan::MatchIndex match, plan::Minute start) const;
    void limit_to_hours(std::size_t free, const std::vector<int>& starts);
    void keep_courts_apart();
    void keep_order();
    void keep_parties_apart();
    void keep_party_apart(const std::vector<std::size_t>& plays,
                          const std::vector<std::size_t>& all);
    void limit_rows(plan::PartyIndex team);
    void limit_days(plan::PartyIndex team);

    void add_costs();
    void add_team(plan::PartyIndex team);
    void add_day_of_team(Attended& day);
    void attend(std::map<plan::DayIndex, Attended>& days, const Span& span);
    void come_from(plan::PartyIndex team, std::map<plan::DayIndex, Attended>& days);
    void add_ends();
    void add_pools();
    void add_told();
    void weigh(plan::Wish wish, Gecode::IntVar amount);

    [[nodiscard]] std::optional<Span> span_of(plan::MatchIndex match) const;
    [[nodiscard]] Gecode::IntVar constant(int value) const;
    [[nodiscard]] Gecode::IntVar end_of(const Span& span) const;
    [[nodiscard]] Gecode::BoolVar is_on(std::size_t free, plan::DayIndex day);
    /// The one day on which the free match can be, or nothing.
    [[nodiscard]] std::optional<plan::DayIndex> day_of(const Span& span) const;

    PlaceModel& model_;
    const plan::Relations& relations_;
    const plan::PlanTask& task_;
    const plan::Board& board_;
    const ModelChoice& choice_;
    const Trying& trying_;
    std::vector<plan::Minute> grid_;
    std::vector<int> free_of_;  ///< by match: its place among the free, or -1
    std::map<std::pair<std::size_t, plan::DayIndex>, Gecode::BoolVar> on_day_;
    Gecode::IntVarArgs weighed_;
    Gecode::IntArgs weights_;
};

}  // namespace courthand::server::planner
