// The folded state of one match: small, trivially copyable, comparable byte by byte.
//
// It holds what happened, legal or not. `rules/judge.h` moves it; everything else only reads it.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <type_traits>

#include "courthand/match/entry.h"
#include "courthand/match/fact.h"
#include "courthand/match/format.h"
#include "courthand/match/position.h"
#include "courthand/match/rally_bits.h"
#include "courthand/match/team.h"
#include "courthand/rules/reason.h"
#include "courthand/rules/verdict.h"

namespace courthand {

/// Where the match stands between two entries.
enum class Stage : std::uint8_t {
    before_match,  ///< rosters, toss
    before_set,    ///< line-ups and their check
    dead_ball,     ///< between two rallies
    whistled,      ///< the service is authorised but not hit
    in_play,       ///< the service is hit
    set_over,
    match_over,
};

/// What a player is to the libero function, for the match.
enum class LiberoRole : std::uint8_t {
    none,
    designated,  ///< named on a sheet, or re-designated: may act as libero
    replaced,    ///< another was re-designated in his place: out as libero
};

enum class Bar : std::uint8_t {
    none,
    expelled,      ///< for the set in `PlayerRecord::barred_set`
    disqualified,  ///< for the match
    injured_out,   ///< left by exceptional substitution: may not return to the match
};

/// One number of a team list; match scope.
struct PlayerRecord {
    Jersey jersey{};
    LiberoRole libero = LiberoRole::none;
    std::uint8_t libero_unable = 0;  ///< 1: declared or become unable to act as libero
    std::uint8_t redesignated = 0;   ///< 1: became libero by re-designation
    Bar bar = Bar::none;
    std::uint8_t barred_set = 0;  ///< set of an expulsion
    std::uint8_t misconduct = 0;  ///< sanctions so far: 1 penalty, 2 expulsion, 3 disqualification
    std::uint8_t recovery_used = 0;
    friend constexpr bool operator==(const PlayerRecord&, const PlayerRecord&) = default;
};

/// How a team has used its choice of liberos where the profile leaves one.
enum class DesignationChoice : std::uint8_t { open, two_for_match, one_per_set };

/// Everything about a team that outlives a set.
struct TeamRecord {
    std::array<PlayerRecord, most_players> players{};
    /// 1 + place in `players` by number, 0 for who is not listed.
    std::array<std::uint8_t, Jersey::largest + 1> place_of{};
    std::uint8_t count = 0;
    Jersey captain{};
    std::array<Jersey, libero_boxes> designated{};  ///< liberos of the match, with re-designations
    DesignationChoice choice = DesignationChoice::open;
    std::uint8_t sets_won = 0;
    std::uint8_t delays = 0;             ///< delay sanctions so far in the profile's scope
    std::uint8_t improper_requests = 0;  ///< written on the sheet so far
    std::uint8_t late_replacements = 0;
    std::uint8_t warned = 0;             ///< 1: the team has had its misconduct warning
    std::uint8_t pending_penalties = 0;  ///< penalties to be applied when the next set starts
    std::uint8_t redesignations = 0;

    /// Adds a number to the team list; a full list takes no more.
    constexpr void enlist(Jersey jersey) noexcept {
        if (count == most_players) return;
        players[count++].jersey = jersey;
        if (jersey.number() <= Jersey::largest && place_of[jersey.number()] == 0)
            place_of[jersey.number()] = count;
    }
    friend constexpr bool operator==(const TeamRecord&, const TeamRecord&) = default;
};

/// One place in the serving order.
struct SlotRecord {
    Jersey starter{};     ///< on the line-up sheet
    Jersey regular{};     ///< entitled to the place now, by line-up and legal substitution
    Jersey replaced{};    ///< who went off for the libero now in the place, or none
    Jersey on_court{};    ///< who stands there; none when the place is empty
    Jersey substitute{};  ///< the first substitute of the set in this place
    friend constexpr bool operator==(const SlotRecord&, const SlotRecord&) = default;
};

/// How one player has moved in this set. `bound` is 1 + slot, 0 while he is free.
struct PlayerSetRecord {
    std::uint8_t bound = 0;
    std::uint8_t entered = 0;
    std::uint8_t left = 0;
    friend constexpr bool operator==(const PlayerSetRecord&, const PlayerSetRecord&) = default;
};

/// Everything about a team that ends with the set.
struct TeamSet {
    std::array<SlotRecord, players_on_court> slots{};
    std::array<PlayerSetRecord, most_players> players{};
    std::array<LiberoBox, libero_boxes> boxes{};
    std::array<Jersey, libero_boxes> liberos{};  ///< who may act as libero in this set
    Rotation rotation{};
    Jersey captain{};       ///< playing captain of the set's start
    Jersey game_captain{};  ///< captain on court now, or none
    std::uint8_t lineup_in = 0;
    std::uint8_t checked = 0;
    std::uint8_t substitutions = 0;
    std::uint8_t exceptional = 0;
    std::uint8_t time_outs = 0;
    std::uint8_t request_made = 0;       ///< a substitution request in this interruption
    std::uint8_t rejected = 0;           ///< a request was rejected in this interruption
    std::uint8_t serving_slot = 0;       ///< 1 + slot in which a libero has served, 0 for none
    std::uint8_t unable_exception = 0;   ///< the acting libero became unable in this dead ball
    std::uint8_t pending_penalties = 0;  ///< penalties of this rally, applied when it is decided
    std::uint8_t replaced_yet = 0;       ///< 1: `last_replacement` is meaningful
    Jersey injured{};        ///< injured in this interruption: may be substituted at once
    std::uint8_t clean = 0;  ///< as `SetResult::clean`, of the set now played
    std::uint16_t last_replacement = 0;  ///< rallies completed when the last replacement was made
    friend constexpr bool operator==(const TeamSet&, const TeamSet&) = default;
};

/// Who stands where in a team. Kept before every entry, as evidence.
struct Floor {
    std::array<SlotRecord, players_on_court> slots{};
    Rotation rotation{};
    friend constexpr bool operator==(const Floor&, const Floor&) = default;
};

/// The liberos of a team, and what the two players of a verdict were.
struct Roles {
    std::array<Jersey, libero_boxes> of_match{};  ///< liberos of the match
    std::array<Jersey, libero_boxes> of_set{};    ///< liberos of the set
    std::array<Jersey, libero_boxes> retired{};   ///< whom a re-designation puts out of the role
    LiberoRole in_role = LiberoRole::none;
    std::uint8_t in_redesignated = 0;
    std::uint8_t out_unable = 0;
    Bar out_bar = Bar::none;
    friend constexpr bool operator==(const Roles&, const Roles&) = default;
};

/// What an act changes about who is on court.
struct Changes {
    std::uint8_t slots = 0;        ///< bit s set: it changes slot s
    std::uint8_t pairs = 0;        ///< substitutions that it is counted as
    std::uint8_t exceptional = 0;  ///< 1: an exceptional substitution
    friend constexpr bool operator==(const Changes&, const Changes&) = default;
};

/// The image of a team before a fault, and what the act did: all that taking it back needs.
struct Undo {
    std::uint16_t last_replacement = 0;
    std::uint8_t replaced_yet = 0;
    Floor floor{};
    Roles roles{};
    Changes changes{};
    // Of a request:
    std::array<PlayerSetRecord, most_players> moves{};  ///< of each player before it
    Six entered{};                                      ///< whom it brought in
    std::uint8_t counted = 0;                           ///< bit i set: legally, so it was counted
    friend constexpr bool operator==(const Undo&, const Undo&) = default;
};

/// A fault that stands: armed or open. The present term of service, for profiles that only look
/// back so far, begins with the last rally that the opponent served.
struct Standing {
    EntryNumber entry = 0;
    std::uint16_t rally = 0;
    std::uint16_t term_from = 0;  ///< first rally of the present term of service, see above
    Reason reason{};
    Team team{};
    Phase phase = Phase::armed;
    std::uint8_t set = 0;
    std::array<Jersey, 2> players{};
    std::uint8_t slot = 0;               ///< 1 + slot in which the fault was made, 0 for none
    std::uint8_t repeat = 0;             ///< 1: the team did the same before in the match
    std::uint8_t in_rally = 0;           ///< a rally is being played with the fault
    std::uint8_t opponent_won_last = 0;  ///< the last rally at fault went to the opponent
    std::uint8_t won_receiving = 0;      ///< the last rally at fault was won as the receiving team
    std::uint8_t point_given = 0;  ///< another fault of that rally gave the opponent its point
    std::uint16_t completed = 0;   ///< rallies completed when the fault was made
    Undo undo{};
    RallyBits played{};  ///< rallies decided while the team was at fault
    friend constexpr bool operator==(const Standing&, const Standing&) = default;
};

inline constexpr std::size_t most_standing = 12;

/// The set now played, or the last one.
struct SetState {
    std::uint8_t number = 0;
    Stage stage = Stage::before_match;
    Score score{};
    Team serving{};
    Team first_server{};
    Team left{};                   ///< on the left as seen from the scorer's table
    std::uint8_t switched = 0;     ///< courts changed in the deciding set
    std::uint8_t replaying = 0;    ///< the next service repeats a rally that did not count
    std::uint8_t penalised = 0;    ///< a penalty point was given since the last service
    std::uint8_t interrupted = 0;  ///< 1: play is interrupted and not yet resumed
    std::uint8_t spare = 0;
    std::uint16_t rallies = 0;  ///< services hit and decided, replays not counted
    std::uint16_t completed =
        0;                   ///< completed rallies in the sense of the rules, penalties counted
    RallyBits won_by_a{};    ///< rallies that A won; those decided otherwise B won
    RallyBits taken_back{};  ///< rallies whose point a ruling has taken from their winner
    PerTeam<TeamSet> team{};
    friend constexpr bool operator==(const SetState&, const SetState&) = default;
};

/// Result of one set.
struct SetResult {
    Score score{};
    std::uint8_t played = 0;  ///< 1 when the set is over
    Team winner{};
    /// 1 + points a team had before it first played with somebody who is not on its list; 0: never.
    PerTeam<std::uint8_t> clean{};
    friend constexpr bool operator==(const SetResult&, const SetResult&) = default;
};

struct MatchState {
    MatchFormat format{};
    std::uint8_t opened = 0;
    std::uint8_t tossed = 0;  ///< sets for which there has been a toss: 0, 1, 2 with the decider
    std::uint8_t standing_count = 0;
    Team winner{};               ///< only meaningful when the stage is `match_over`
    std::uint8_t forfeited = 0;  ///< lost by default or as incomplete
    Team toss_left{};
    Team toss_serves{};
    std::array<SetResult, MatchFormat::most_sets> results{};
    PerTeam<TeamRecord> team{};
    std::array<std::uint8_t, 2> spare{};  ///< fills the gap: equal states have equal bytes
    SetState set{};
    std::array<Standing, most_standing> standing{};

    /// The faults that stand, oldest first.
    [[nodiscard]] std::span<Standing> faults() noexcept {
        return {standing.data(), standing_count};
    }
    [[nodiscard]] std::span<const Standing> faults() const noexcept {
        return {standing.data(), standing_count};
    }
    friend constexpr bool operator==(const MatchState&, const MatchState&) = default;
};

static_assert(std::is_trivially_copyable_v<MatchState>);
static_assert(sizeof(SetState) <= 1024, "a set state stays within 1 KiB");

/// The team's numbers by position, index 0 is position I.
[[nodiscard]] constexpr Six on_court(const TeamSet& team) noexcept {
    Six six{};
    for (const Position p : all_positions)
        six[index(p)] = team.slots[index(team.rotation.slot_at(p))].on_court;
    return six;
}

/// Who must serve next for the team if it serves now.
[[nodiscard]] constexpr Jersey expected_server(const TeamSet& team) noexcept {
    return team.slots[index(team.rotation.slot_at(Position::I))].on_court;
}

/// The record of a number in the team list, or null.
[[nodiscard]] constexpr const PlayerRecord* find(const TeamRecord& team, Jersey jersey) noexcept {
    if (jersey.number() > Jersey::largest) return nullptr;
    const std::uint8_t place = team.place_of[jersey.number()];
    return place == 0 ? nullptr : &team.players[place - 1U];
}

/// May not take part in a set.
[[nodiscard]] constexpr bool barred(const PlayerRecord& player, std::uint8_t set) noexcept {
    return player.bar == Bar::expelled ? player.barred_set == set : player.bar != Bar::none;
}

[[nodiscard]] constexpr bool acts_as_libero(const TeamSet& team, Jersey jersey) noexcept {
    return jersey.worn() && (team.liberos[0] == jersey || team.liberos[1] == jersey);
}

/// A hash of everything in the state. Equal for the same facts whatever their ids and times;
/// entry numbers are left out of it, so that a corrected record equals one written right at once.
[[nodiscard]] std::uint64_t state_hash(const MatchState& state) noexcept;

}  // namespace courthand
