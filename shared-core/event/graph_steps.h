// Makes the match graph of a division: its pools, then its brackets and added matches, step by
// step, and all of it anew when a team changes pools. Internal to shared-core/event.
#pragma once

#include <optional>
#include <utility>
#include <variant>

#include "courthand/event/state.h"

namespace courthand::event {

/// Why a step cannot be taken.
using Refusal = std::pair<Problem, tournament::Fault>;

/// Teams that play, the best seed first.
[[nodiscard]] std::vector<TeamIndex> seeded(const TournamentState& state, const Division& division);

class GraphSteps {
  public:
    /// Names are looked up in `state`; `division` may be a copy that is not part of it yet.
    GraphSteps(const TournamentState& state, Division& division)
        : state_{state}, division_{division} {}

    /// The whole graph anew, by the draw, the teams of the pools and the steps; what was known of
    /// each match stays with its name. Nothing: it is made.
    [[nodiscard]] std::optional<Refusal> rebuild();

    /// `seeds`: the teams of a bracket by seeds; filled when it is empty.
    [[nodiscard]] std::optional<Refusal> bracket(const BracketMade& fact,
                                                 std::vector<TeamIndex>& seeds);
    [[nodiscard]] std::optional<Refusal> added(const MatchAdded& fact);
    [[nodiscard]] std::optional<Refusal> sides(const SidesGiven& fact);

    /// The source of the graph that a name stands for; added when it was not there. Teams of
    /// another division may work a match and not play it.
    enum class Teams : std::uint8_t { own, any };
    [[nodiscard]] std::variant<SourceIndex, Refusal> resolve(const Source& source,
                                                             Teams teams = Teams::own);

  private:
    void pools();
    [[nodiscard]] SourceIndex team_source(TeamIndex team);
    [[nodiscard]] std::variant<SourceIndex, Refusal> named(const Source& source, Teams teams);
    [[nodiscard]] std::variant<SourceIndex, Refusal> compared(const Source& source, Teams teams);
    [[nodiscard]] std::variant<std::vector<SourceIndex>, Refusal> entrants(
        const BracketMade& fact, std::vector<TeamIndex>& seeds);
    [[nodiscard]] std::variant<std::vector<SourceIndex>, Refusal> listed(const BracketMade& fact);
    [[nodiscard]] std::variant<std::vector<SourceIndex>, Refusal> from_pools(
        const BracketMade& fact);
    [[nodiscard]] std::optional<Refusal> repeat(GraphStep& step);
    /// A second final is played or not by the first as long as a side comes from there; sides that
    /// a person has named are to be played.
    void settle_condition(MatchIndex match);
    [[nodiscard]] std::optional<Refusal> place_sides(MatchIndex match, const Source& first,
                                                     const Source& second);
    [[nodiscard]] std::optional<MatchIndex> find(const std::string& match) const;
    [[nodiscard]] std::string words(SourceIndex source) const;
    [[nodiscard]] bool leads_to(SourceIndex source, MatchIndex match) const;
    /// Gives the matches from `first` on their format and settles what is new.
    void finish(MatchIndex first, const FormatChoice& format);

    const TournamentState& state_;
    Division& division_;
};

}  // namespace courthand::event
