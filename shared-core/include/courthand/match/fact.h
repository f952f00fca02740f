// What a person at a table or desk says happened. A fact is never refused by the rules; what the
// rules think of it is a verdict (rules/verdict.h). One struct for each kind, all plain values
// without text: names, remarks and times travel beside a fact, never inside it.
#pragma once

#include <array>
#include <cstdint>
#include <variant>

#include "courthand/match/format.h"
#include "courthand/match/jersey.h"
#include "courthand/match/position.h"
#include "courthand/match/signature.h"
#include "courthand/match/team.h"
#include "courthand/rules/reason.h"

namespace courthand {

/// More players than any published code lets a team list for one match.
inline constexpr std::size_t most_players = 24;
/// More pairs than one request can hold: six players are on court.
inline constexpr std::size_t most_pairs = 6;
inline constexpr std::size_t libero_boxes = 2;

/// The first fact of every match: how it is won. The rule profile is named beside the record.
struct MatchOpened {
    MatchFormat format{};
    friend constexpr bool operator==(const MatchOpened&, const MatchOpened&) = default;
};

/// The team list as signed: every number that may play, and the team captain.
struct Roster {
    Team team{};
    std::uint8_t count = 0;
    std::array<Jersey, most_players> players{};
    Jersey captain{};
    friend constexpr bool operator==(const Roster&, const Roster&) = default;
};

/// Toss before the match, and again before the deciding set.
struct Toss {
    Team serves{};
    Team left{};  ///< which team starts on the left as seen from the scorer's table
    friend constexpr bool operator==(const Toss&, const Toss&) = default;
};

struct SetStarted {
    std::uint8_t number = 1;
    friend constexpr bool operator==(const SetStarted&, const SetStarted&) = default;
};

/// One libero box of a line-up sheet: blank, marked "none" by a person, or a number.
struct LiberoBox {
    enum class Mark : std::uint8_t { blank, none, number };
    Mark mark = Mark::blank;
    Jersey number{};
    friend constexpr bool operator==(const LiberoBox&, const LiberoBox&) = default;
};

/// A line-up sheet as handed in; a second one for the same set before play corrects the first.
struct LineUp {
    Team team{};
    Six order{};  ///< by slot: index 0 is slot I
    std::array<LiberoBox, libero_boxes> liberos{};
    Jersey captain{};  ///< the playing captain marked on the sheet, or none
    friend constexpr bool operator==(const LineUp&, const LineUp&) = default;
};

/// A person settles a blank libero box after the sheet was handed in.
struct LiberoBoxSettled {
    Team team{};
    std::uint8_t box = 0;  ///< 0 or 1
    LiberoBox entry{};
    friend constexpr bool operator==(const LiberoBoxSettled&, const LiberoBoxSettled&) = default;
};

/// The second referee has compared court and sheet.
struct LineUpChecked {
    Team team{};
    friend constexpr bool operator==(const LineUpChecked&, const LineUpChecked&) = default;
};

/// The first referee authorises the service.
struct Whistle {
    friend constexpr bool operator==(const Whistle&, const Whistle&) = default;
};

/// The service is hit. Without a number: by the player the record expects.
struct Serve {
    Team team{};  ///< only meaningful when `server.worn()`
    Jersey server{};
    friend constexpr bool operator==(const Serve&, const Serve&) = default;
};

struct RallyWon {
    Team team{};
    friend constexpr bool operator==(const RallyWon&, const RallyWon&) = default;
};

/// The rally does not count and is played again.
struct Replay {
    friend constexpr bool operator==(const Replay&, const Replay&) = default;
};

/// A referee calls that `player` stood out of position when the service was hit.
struct PositionalFault {
    Team team{};
    Jersey player{};     ///< or none
    Jersey neighbour{};  ///< towards whom he stood wrong, or none
    friend constexpr bool operator==(const PositionalFault&, const PositionalFault&) = default;
};

/// `in` takes the place of `out`; at least one of them should be a libero.
struct LiberoReplacement {
    Team team{};
    Jersey in{};
    Jersey out{};
    friend constexpr bool operator==(const LiberoReplacement&, const LiberoReplacement&) = default;
};

struct Pair {
    Jersey in{};
    Jersey out{};
    friend constexpr bool operator==(const Pair&, const Pair&) = default;
};

/// One request of a team with one or more pairs.
struct Substitution {
    Team team{};
    std::uint8_t count = 0;
    std::array<Pair, most_pairs> pairs{};
    friend constexpr bool operator==(const Substitution&, const Substitution&) = default;
};

/// Why a player cannot go on.
enum class Cause : std::uint8_t { injury, illness, expulsion, disqualification, declared };

struct ExceptionalSubstitution {
    Team team{};
    Jersey in{};
    Jersey out{};
    Cause cause = Cause::injury;
    friend constexpr bool operator==(const ExceptionalSubstitution&,
                                     const ExceptionalSubstitution&) = default;
};

struct TimeOut {
    Team team{};
    friend constexpr bool operator==(const TimeOut&, const TimeOut&) = default;
};

/// Game captain while the team captain is off the court.
struct GameCaptain {
    Team team{};
    Jersey player{};
    friend constexpr bool operator==(const GameCaptain&, const GameCaptain&) = default;
};

/// A libero is unable to play, or is declared so.
struct LiberoUnable {
    Team team{};
    Jersey libero{};
    Cause cause = Cause::declared;
    friend constexpr bool operator==(const LiberoUnable&, const LiberoUnable&) = default;
};

struct Redesignation {
    Team team{};
    Jersey out{};  ///< the libero whose place is taken
    Jersey in{};   ///< the new libero
    friend constexpr bool operator==(const Redesignation&, const Redesignation&) = default;
};

enum class Sanction : std::uint8_t { warning, penalty, expulsion, disqualification };

/// Misconduct of one person; without a number: of someone on the bench who wears none.
struct Misconduct {
    Team team{};
    Jersey person{};
    Sanction sanction = Sanction::warning;
    friend constexpr bool operator==(const Misconduct&, const Misconduct&) = default;
};

/// Delay by a team: warning or penalty only.
struct Delay {
    Team team{};
    Sanction sanction = Sanction::warning;
    friend constexpr bool operator==(const Delay&, const Delay&) = default;
};

/// A request that was refused and is written down.
struct ImproperRequest {
    Team team{};
    friend constexpr bool operator==(const ImproperRequest&, const ImproperRequest&) = default;
};

/// Play is stopped for an injured player. Medical staff and local rules decide what follows.
struct Injury {
    Team team{};
    Jersey player{};
    friend constexpr bool operator==(const Injury&, const Injury&) = default;
};

/// The recovery time of an injured player for whom no substitution is possible.
struct Recovery {
    Team team{};
    Jersey player{};
    friend constexpr bool operator==(const Recovery&, const Recovery&) = default;
};

struct CourtSwitch {
    friend constexpr bool operator==(const CourtSwitch&, const CourtSwitch&) = default;
};

/// The time between two sets begins.
struct Interval {
    friend constexpr bool operator==(const Interval&, const Interval&) = default;
};

/// Play is interrupted by something outside the match; until it is resumed nobody plays.
struct Interrupted {
    friend constexpr bool operator==(const Interrupted&, const Interrupted&) = default;
};

/// How an interrupted match goes on.
struct Resumed {
    enum class How : std::uint8_t {
        same_court,       ///< with the same score, players and positions
        other_court,      ///< the set is cancelled and played anew with its starting line-ups
        over_four_hours,  ///< the whole match is played anew
    };
    How how = How::same_court;
    friend constexpr bool operator==(const Resumed&, const Resumed&) = default;
};

/// A referee accepts a verdict, so that its remedy is applied, or overrules it.
struct Ruling {
    enum class Decision : std::uint8_t {
        accept,
        overrule,
        accept_moment_unknown,  ///< the record cannot show since when: no point is cancelled
    };
    Decision decision = Decision::accept;
    Reason reason{};
    Team team{};
    friend constexpr bool operator==(const Ruling&, const Ruling&) = default;
};

/// A team cannot go on for this set or for the match.
struct Incomplete {
    enum class Scope : std::uint8_t { set, match };
    Team team{};
    Scope scope = Scope::set;
    friend constexpr bool operator==(const Incomplete&, const Incomplete&) = default;
};

/// A team does not appear or refuses to play: the whole match is lost.
struct Default {
    Team team{};
    friend constexpr bool operator==(const Default&, const Default&) = default;
};

struct Protest {
    Team team{};
    friend constexpr bool operator==(const Protest&, const Protest&) = default;
};

/// Referees set the score of the present set; who serves may be set with it.
struct ScoreCorrection {
    Score score{};
    friend constexpr bool operator==(const ScoreCorrection&, const ScoreCorrection&) = default;
};

/// Something written down that changes nothing: a remark, an official's name. A signature of this
/// kind is of an earlier program, which did not say whose it is: it counts for nobody.
struct Note {
    enum class Kind : std::uint8_t { remark, signature, officials };
    Kind kind = Kind::remark;
    friend constexpr bool operator==(const Note&, const Note&) = default;
};

/// Everything that can be recorded in a match. A new kind breaks the build wherever it is not
/// handled.
using Fact = std::variant<MatchOpened, Roster, Toss, SetStarted, LineUp, LiberoBoxSettled,
                          LineUpChecked, Whistle, Serve, RallyWon, Replay, LiberoReplacement,
                          Substitution, ExceptionalSubstitution, TimeOut, GameCaptain, LiberoUnable,
                          Redesignation, Misconduct, Delay, ImproperRequest, Injury, Recovery,
                          CourtSwitch, Interval, Interrupted, Resumed, Ruling, Incomplete, Default,
                          Protest, ScoreCorrection, Note, PositionalFault, Signature>;

}  // namespace courthand
