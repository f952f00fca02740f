#include <fmt/format.h>

#include <algorithm>

#include "courthand/plan/task.h"

namespace courthand::plan {

namespace {

/// Looks at a task part by part; indices first, so that the rest may follow them.
class Search {
  public:
    explicit Search(const PlanTask& task) : task_{task} {}

    [[nodiscard]] Faults run() {
        look_at_sizes();
        if (!faults_.empty()) return std::move(faults_);
        look_at_courts();
        for (const TaskMatch& match : task_.matches) look_at_indices(match);
        for (const Party& party : task_.parties)
            if (std::any_of(party.from.begin(), party.from.end(),
                            [&](MatchIndex m) { return m >= task_.matches.size(); }))
                add(party.name, "comes from a match that is not there", "name a match of the task");
        if (!faults_.empty()) return std::move(faults_);
        for (const TaskMatch& match : task_.matches) look_at_people(match);
        look_for_circles();
        return std::move(faults_);
    }

  private:
    void add(std::string place, std::string message, std::string cure) {
        faults_.push_back({std::move(place), std::move(message), std::move(cure)});
    }
    void at_most(std::size_t there, std::size_t most, const char* what) {
        if (there > most)
            add("plan", fmt::format("{} {}, at most {}", there, what, most), "divide the event");
    }

    void look_at_sizes() {
        at_most(task_.matches.size(), most_matches, "matches");
        at_most(task_.courts.size(), most_courts, "courts");
        at_most(task_.groups.size(), most_groups, "divisions");
        at_most(task_.parties.size(), most_parties, "teams and officials");
        if (task_.step < 1 || task_.step > longest_match)
            add("plan", fmt::format("times cannot be planned in steps of {} minutes", task_.step),
                "choose steps of 1 to 720 minutes");
        if (task_.courts.empty())
            add("plan", "there is no court", "open a court with its hours of each day");
        for (const std::int64_t weight : task_.weights.of)
            if (weight < 0 || weight > heaviest)
                add("plan", fmt::format("a wish cannot weigh {}", weight),
                    "choose a weight from 0 to 100");
        for (const Group& group : task_.groups)
            if (group.rest < 0 || group.rest > longest_match || group.row_break < 0)
                add("division " + group.name, fmt::format("a rest of {} minutes", group.rest),
                    "choose a rest from 0 to 720 minutes");
    }

    void look_at_courts() {
        bool open = false;
        for (const TaskCourt& court : task_.courts) {
            const std::string place = "court " + court.name;
            for (const Opening& opening : court.open) {
                open = true;
                const Window& hours = opening.hours;
                if (hours.from < 0 || hours.until > latest_minute || hours.until <= hours.from)
                    add(place, "it closes before it opens, or outside the month of the plan",
                        "correct its hours");
                if (opening.day >= most_days)
                    add(place,
                        fmt::format("day {} of play, at most {}", opening.day + 1, most_days),
                        "divide the event");
            }
        }
        if (!open) {
            add("plan", "no court has hours", "say when a court opens and closes");
            return;
        }
        if (!faults_.empty()) return;
        const auto days = days_of(task_);
        for (std::size_t d = 0; d < days.size(); ++d)
            if (days[d] == Window{})
                add("plan", fmt::format("day {} has no hours", d + 1), "number days without a gap");
            else if (d > 0 && days[d].from < days[d - 1].until)
                add("plan", fmt::format("day {} begins before day {} ends", d + 1, d),
                    "correct the hours of the courts");
    }

    [[nodiscard]] bool all_there(const std::vector<PartyIndex>& parties) const {
        return std::all_of(parties.begin(), parties.end(),
                           [&](PartyIndex party) { return party < task_.parties.size(); });
    }

    void look_at_indices(const TaskMatch& match) {
        if (match.duration < 1 || match.duration > longest_match)
            add(match.name, fmt::format("it is planned for {} minutes", match.duration),
                "say how long a match of its division holds its court, 1 to 720 minutes");
        if (match.group >= task_.groups.size() || (match.pool && *match.pool >= task_.pools.size()))
            add(match.name, "its division or pool is not there", "correct the task");
        if (!all_there({match.sides.begin(), match.sides.end()}) || !all_there(match.workers) ||
            !all_there(match.present) || !all_there(match.barred))
            add(match.name, "somebody of it is not there", "correct the task");
        for (const auto& place : {match.pinned, match.published})
            if (place && place->court >= task_.courts.size())
                add(match.name, "its court is not there", "open the court, or move the match");
        if (match.begun && !match.pinned)
            add(match.name, "it has begun and has no place", "say where it is played");
    }

    void look_at_people(const TaskMatch& match) {
        const auto& sides = match.sides;
        if (sides[0] == sides[1])
            add(match.name, task_.parties[sides[0]].name + " plays against itself",
                "give the match another side");
        for (const PartyIndex worker : match.workers) {
            const std::string& name = task_.parties[worker].name;
            if (match.begun) continue;
            if (std::find(sides.begin(), sides.end(), worker) != sides.end())
                add(match.name, name + " plays and works it", "give the duty to another team");
            if (std::find(match.barred.begin(), match.barred.end(), worker) != match.barred.end())
                add(match.name, name + " works it and has a conflict of interest",
                    "give the duty to somebody else");
        }
    }

    void look_for_circles() {
        const auto order = in_order(task_);
        if (order.size() == task_.matches.size()) return;
        for (std::size_t m = 0; m < task_.matches.size(); ++m)
            if (std::find(order.begin(), order.end(), m) == order.end())
                return add(task_.matches[m].name, "it waits for itself, through other matches",
                           "correct where its sides and workers come from");
    }

    const PlanTask& task_;
    Faults faults_;
};

}  // namespace

Faults faults_of(const PlanTask& task) {
    return Search{task}.run();
}

}  // namespace courthand::plan
