#include "server/desk/table_move.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "courthand/event/fact_fields.h"
#include "courthand/rules/profile.h"
#include "server/desk/court_facts.h"
#include "server/desk/desk_store.h"
#include "server/desk/fitted_teams.h"
#include "server/desk/match_facts.h"
#include "server/desk/team_lists.h"
#include "server/tournament/derived_id.h"
#include "server/tournament/opening.h"

namespace courthand::server::desk {

using tournament::Act;
using tournament::KnownRecord;
using tournament::this_server;

namespace {

using Missing = Result<std::vector<Act::Said>>;

Status say_courts(tournament::RecordKeeper& record, const std::vector<Court>& courts) {
    return tournament::say(record, this_server(),
                           [&](const KnownRecord& known) -> Missing {
                               std::vector<event::Said> said;
                               for (Court court : courts) {
                                   court.name = fitted_name(std::move(court.name));
                                   for (event::Said& one : court_facts(*known.state, court))
                                       if (said.size() < tournament::most_facts_per_append)
                                           said.push_back(std::move(one));
                               }
                               return tournament::newly_said(std::move(said));
                           })
        .status();
}

/// A note beside each team that is called otherwise from now on, once.
Status say_renamed(tournament::RecordKeeper& record, const FittedTeams& teams) {
    return tournament::say(record, this_server(),
                           [&](const KnownRecord& known) -> Missing {
                               std::vector<Act::Said> said;
                               for (const FittedTeams::Renamed& renamed : teams.renamed) {
                                   const tournament::FactId id{
                                       tournament::derived_id(renamed.team.value, "renamed")};
                                   const auto& ids = *known.ids;
                                   const auto team = find_team(known, renamed.team);
                                   if (!team || std::find(ids.begin(), ids.end(), id) != ids.end())
                                       continue;
                                   event::NoteWritten note;
                                   note.team = known.state->teams[*team].name;
                                   said.push_back({id, {std::move(note), renamed.words}});
                                   if (said.size() == tournament::most_facts_per_append) break;
                               }
                               return said;
                           })
        .status();
}

/// The planned matches as facts, each only once the record has its teams.
class MatchMove {
  public:
    explicit MatchMove(std::vector<StoredMatch> matches) : matches_{std::move(matches)} {
        // Those that a table opened have no number, and come last.
        const auto order = [](const MatchPlan& plan) {
            return std::tuple(plan.number == 0, plan.number, plan.key);
        };
        std::sort(matches_.begin(), matches_.end(), [&](const auto& one, const auto& other) {
            return order(one.plan) < order(other.plan);
        });
    }

    /// As many as go into one act.
    Missing missing(const KnownRecord& known) {
        left_out_.clear();
        moved_ = 0;
        const event::TournamentState& state = *known.state;
        std::set<MatchId> there;
        for (const event::Division& division : state.divisions)
            for (const event::MatchState& match : division.matches)
                there.insert(MatchId{Uuid{match.record.bytes}});
        std::vector<Act::Said> said;
        std::size_t matches = state.match_names.size();
        std::size_t next = 1;
        for (const StoredMatch& match : matches_) {
            if (there.contains(match.plan.key.match)) {
                ++moved_;
                continue;
            }
            if (matches == event::most_matches) {
                leave_out(match, fmt::format("the record holds {} matches", matches));
                continue;
            }
            next = std::max<std::size_t>(next, match.plan.number);
            const std::string name = free_match_name(state, next);
            auto facts = facts_of(known, match, name);
            if (!facts) continue;
            if (said.size() + facts->size() > tournament::most_facts_per_append) break;
            next = std::stoul(name) + 1;
            ++matches;
            auto more = said_of(match.plan.key.match, *std::move(facts));
            std::move(more.begin(), more.end(), std::back_inserter(said));
        }
        return said;
    }

    [[nodiscard]] std::size_t moved() const noexcept { return moved_; }
    [[nodiscard]] const std::vector<std::string>& left_out() const noexcept { return left_out_; }

  private:
    void leave_out(const StoredMatch& match, const std::string& why) {
        left_out_.push_back(fmt::format("match {} ({}) stays outside the record: {}",
                                        match.plan.number, to_text(match.plan.key.match), why));
    }

    std::optional<std::vector<event::Said>> facts_of(const KnownRecord& known,
                                                     const StoredMatch& match,
                                                     const std::string& name) {
        const MatchPlan& plan = match.plan;
        const auto no = [&](const std::string& why) {
            leave_out(match, why);
            return std::nullopt;
        };
        if (plan.status == PlanStatus::cancelled) return no("it is cancelled");
        const auto first = find_team(known, plan.first.id);
        const auto second = find_team(known, plan.second.id);
        if (!first || !second) return no("a team of it is not on the desk's list");
        if (first == second) return no("its teams are the same");
        if (find_profile(plan.profile) == nullptr)
            return no("there is no rule profile " + plan.profile);
        auto facts = match_facts(known, name, plan, *first, *second);
        for (const event::Said& one : facts)
            if (const auto wrong = event::out_of_bounds(one.fact))
                return no(fmt::format("{} {}", wrong->field, wrong->message));
        return facts;
    }

    std::vector<StoredMatch> matches_;
    std::vector<std::string> left_out_;
    std::size_t moved_ = 0;
};

}  // namespace

Result<Moved> move_tables(FormerTableStore& tables, tournament::RecordKeeper& record,
                          MatchStore& matches, TournamentId tournament) {
    const auto former = tables.read();
    if (!former.ok()) return former.status();
    if (!*former) return Moved{};
    const FittedTeams teams = fitted((*former)->teams);
    DeskStore desk{record};
    const auto kept =
        desk.keep_teams(this_server(), teams.teams, "moved from the tables of an earlier version");
    if (!kept.ok()) return kept.status();
    if (Status status = say_renamed(record, teams); !status.ok()) return status;
    if (Status status = say_courts(record, (*former)->courts); !status.ok()) return status;
    auto stored = matches.matches(tournament);
    if (!stored.ok()) return stored.status();
    MatchMove move{*std::move(stored)};
    const auto said = tournament::say(
        record, this_server(), [&](const KnownRecord& known) { return move.missing(known); });
    if (!said.ok()) return said.status();
    if (Status status = tables.moved(teams.kept_back); !status.ok()) return status;
    Moved moved{teams.teams.size(), (*former)->courts.size(), move.moved(), teams.notes};
    moved.notes.insert(moved.notes.end(), move.left_out().begin(), move.left_out().end());
    return moved;
}

}  // namespace courthand::server::desk
