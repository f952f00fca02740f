#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "courthand/rules/reason.h"
#include "wire/fact_convert.h"

namespace courthand::wire {
namespace {

constexpr std::uint32_t largest_count = 255;

/// Reads fields and keeps the first that cannot be read. What it returns after that is never used.
class Reader {
  public:
    explicit Reader(std::string_view place) : place_{place} {}

    [[nodiscard]] const std::optional<Unreadable>& error() const noexcept { return error_; }

    void fail(std::string_view field, std::string message) {
        if (!error_) error_ = Unreadable{fmt::format("{}{}", place_, field), std::move(message)};
    }
    Team team(std::string_view field, v1::TeamLetter letter) {
        if (letter == v1::TEAM_LETTER_A) return Team::A;
        if (letter == v1::TEAM_LETTER_B) return Team::B;
        fail(field, fmt::format("{} names neither team A nor team B", static_cast<int>(letter)));
        return Team::A;
    }
    Jersey number(std::string_view field, std::int64_t value) {
        if (value >= 0 && value <= Jersey::largest) return Jersey{static_cast<std::uint8_t>(value)};
        fail(field, fmt::format("{} is not a jersey number (0 to {})", value, Jersey::largest));
        return Jersey::none();
    }
    Jersey required(std::string_view field, bool present, std::uint32_t value) {
        if (present) return number(field, value);
        fail(field, "a jersey number is missing");
        return Jersey::none();
    }
    Jersey optional(std::string_view field, bool present, std::uint32_t value) {
        return present ? number(field, value) : Jersey::none();
    }
    std::uint8_t count(std::string_view field, std::uint32_t value, std::uint32_t least = 0,
                       std::uint32_t most = largest_count) {
        if (value < least || value > most)
            fail(field, fmt::format("{} is not within {} to {}", value, least, most));
        return static_cast<std::uint8_t>(value);
    }
    void size(std::string_view field, int size, std::size_t least, std::size_t most) {
        const auto have = static_cast<std::size_t>(size);
        if (have < least || have > most)
            fail(field, fmt::format("{} values, {} to {} are allowed", have, least, most));
    }
    /// For an enum value that this build does not know, or none.
    void unknown(std::string_view field, int value) {
        fail(field, value == 0 ? std::string{"is not set"}
                               : fmt::format("{} is not known to this version", value));
    }
    [[nodiscard]] bool failed() const noexcept { return error_.has_value(); }

  private:
    std::string place_;
    std::optional<Unreadable> error_;
};

Cause read_cause(Reader& in, std::string_view field, v1::Cause cause) {
    if (cause == v1::CAUSE_INJURY) return Cause::injury;
    if (cause == v1::CAUSE_ILLNESS) return Cause::illness;
    if (cause == v1::CAUSE_EXPULSION) return Cause::expulsion;
    if (cause == v1::CAUSE_DISQUALIFICATION) return Cause::disqualification;
    if (cause == v1::CAUSE_DECLARED) return Cause::declared;
    in.unknown(field, cause);
    return Cause::injury;
}

Sanction read_sanction(Reader& in, std::string_view field, v1::Sanction sanction) {
    if (sanction == v1::SANCTION_WARNING) return Sanction::warning;
    if (sanction == v1::SANCTION_PENALTY) return Sanction::penalty;
    if (sanction == v1::SANCTION_EXPULSION) return Sanction::expulsion;
    if (sanction == v1::SANCTION_DISQUALIFICATION) return Sanction::disqualification;
    in.unknown(field, sanction);
    return Sanction::warning;
}

Six read_six(Reader& in, std::string_view field, const v1::Six& six) {
    Six places{};
    in.size(field, six.numbers_size(), players_on_court, players_on_court);
    if (in.failed()) return places;
    for (std::size_t i = 0; i < players_on_court; ++i) {
        const std::int32_t number = six.numbers(static_cast<int>(i));
        if (number != -1) places[i] = in.number(field, number);
    }
    return places;
}

LiberoBox read_box(Reader& in, std::string_view field, const v1::LiberoBox& box) {
    using Mark = LiberoBox::Mark;
    const std::string number = fmt::format("{}.number", field);
    if (box.mark() == v1::LiberoBox::MARK_NUMBER)
        return {Mark::number, in.required(number, box.has_number(), box.number())};
    if (box.has_number()) in.fail(number, "a box that is blank or none holds no number");
    if (box.mark() == v1::LiberoBox::MARK_BLANK) return {Mark::blank, {}};
    if (box.mark() == v1::LiberoBox::MARK_NONE) return {Mark::none, {}};
    in.unknown(fmt::format("{}.mark", field), box.mark());
    return {};
}

MatchFormat read_format(Reader& in, std::string_view at, const v1::MatchFormat& format) {
    const auto field = [&](std::string_view name) { return fmt::format("{}{}", at, name); };
    MatchFormat out;
    out.sets = in.count(field("sets"), format.sets(), 1, MatchFormat::most_sets);
    out.all_sets_played = format.all_sets_played() ? 1 : 0;
    if (out.all_sets_played == 0 && out.sets % 2 == 0)
        in.fail(field("sets"), "an even number of sets has no deciding set; set all_sets_played");
    out.points = in.count(field("points"), format.points(), 1);
    out.deciding_points = in.count(field("deciding_points"), format.deciding_points(), 1);
    out.lead = in.count(field("lead"), format.lead(), 1);
    out.cap = in.count(field("cap"), format.cap());
    out.deciding_cap = in.count(field("deciding_cap"), format.deciding_cap());
    out.start_score = in.count(field("start_score"), format.start_score());
    out.switch_at = in.count(field("switch_at"), format.switch_at());
    return out;
}

Fact read(Reader& in, const v1::MatchOpened& fact) {
    if (!fact.has_format()) in.fail("match_opened.format", "is not set");
    return MatchOpened{read_format(in, "match_opened.format.", fact.format())};
}

Fact read(Reader& in, const v1::TeamRoster& fact) {
    Roster roster;
    roster.team = in.team("team_roster.team", fact.team());
    in.size("team_roster.players", fact.players_size(), 0, most_players);
    if (in.failed()) return roster;
    for (const std::uint32_t number : fact.players())
        roster.players[roster.count++] = in.number("team_roster.players", number);
    roster.captain = in.optional("team_roster.captain", fact.has_captain(), fact.captain());
    return roster;
}

Fact read(Reader& in, const v1::Toss& fact) {
    return Toss{in.team("toss.serves", fact.serves()), in.team("toss.left", fact.left())};
}

Fact read(Reader& in, const v1::SetStarted& fact) {
    return SetStarted{in.count("set_started.number", fact.number(), 1, MatchFormat::most_sets)};
}

Fact read(Reader& in, const v1::LineUp& fact) {
    LineUp sheet;
    sheet.team = in.team("line_up.team", fact.team());
    sheet.order = read_six(in, "line_up.order", fact.order());
    in.size("line_up.liberos", fact.liberos_size(), libero_boxes, libero_boxes);
    if (in.failed()) return sheet;
    for (std::size_t i = 0; i < libero_boxes; ++i)
        sheet.liberos[i] = read_box(in, "line_up.liberos", fact.liberos(static_cast<int>(i)));
    sheet.captain = in.optional("line_up.captain", fact.has_captain(), fact.captain());
    return sheet;
}

Fact read(Reader& in, const v1::LiberoBoxSettled& fact) {
    LiberoBoxSettled settled;
    settled.team = in.team("libero_box_settled.team", fact.team());
    const std::uint8_t box = in.count("libero_box_settled.box", fact.box(), 1, libero_boxes);
    settled.box = static_cast<std::uint8_t>(box - 1);
    settled.entry = read_box(in, "libero_box_settled.entry", fact.entry());
    return settled;
}

Fact read(Reader& in, const v1::LineUpChecked& fact) {
    return LineUpChecked{in.team("line_up_checked.team", fact.team())};
}

Fact read(Reader&, const v1::Whistle&) {
    return Whistle{};
}

Fact read(Reader& in, const v1::Serve& fact) {
    Serve serve;
    serve.server = in.optional("serve.server", fact.has_server(), fact.server());
    if (fact.has_server() || fact.team() != v1::TEAM_LETTER_UNSPECIFIED)
        serve.team = in.team("serve.team", fact.team());
    return serve;
}

Fact read(Reader& in, const v1::RallyWon& fact) {
    return RallyWon{in.team("rally_won.team", fact.team())};
}

Fact read(Reader&, const v1::Replay&) {
    return Replay{};
}

Fact read(Reader& in, const v1::LiberoReplacement& fact) {
    return LiberoReplacement{in.team("libero_replacement.team", fact.team()),
                             in.required("libero_replacement.in", fact.has_in(), fact.in()),
                             in.required("libero_replacement.out", fact.has_out(), fact.out())};
}

Fact read(Reader& in, const v1::Substitution& fact) {
    Substitution request;
    request.team = in.team("substitution.team", fact.team());
    in.size("substitution.pairs", fact.pairs_size(), 1, most_pairs);
    if (in.failed()) return request;
    for (const v1::Pair& pair : fact.pairs())
        request.pairs[request.count++] = {
            in.required("substitution.pairs.in", pair.has_in(), pair.in()),
            in.required("substitution.pairs.out", pair.has_out(), pair.out())};
    return request;
}

Fact read(Reader& in, const v1::ExceptionalSubstitution& fact) {
    return ExceptionalSubstitution{
        in.team("exceptional_substitution.team", fact.team()),
        in.required("exceptional_substitution.in", fact.has_in(), fact.in()),
        in.required("exceptional_substitution.out", fact.has_out(), fact.out()),
        read_cause(in, "exceptional_substitution.cause", fact.cause())};
}

Fact read(Reader& in, const v1::TimeOut& fact) {
    return TimeOut{in.team("time_out.team", fact.team())};
}

Fact read(Reader& in, const v1::GameCaptain& fact) {
    return GameCaptain{in.team("game_captain.team", fact.team()),
                       in.required("game_captain.player", fact.has_player(), fact.player())};
}

Fact read(Reader& in, const v1::LiberoUnable& fact) {
    return LiberoUnable{in.team("libero_unable.team", fact.team()),
                        in.required("libero_unable.libero", fact.has_libero(), fact.libero()),
                        read_cause(in, "libero_unable.cause", fact.cause())};
}

Fact read(Reader& in, const v1::Redesignation& fact) {
    return Redesignation{in.team("redesignation.team", fact.team()),
                         in.required("redesignation.out", fact.has_out(), fact.out()),
                         in.required("redesignation.in", fact.has_in(), fact.in())};
}

Fact read(Reader& in, const v1::Misconduct& fact) {
    return Misconduct{in.team("misconduct.team", fact.team()),
                      in.optional("misconduct.person", fact.has_person(), fact.person()),
                      read_sanction(in, "misconduct.sanction", fact.sanction())};
}

Fact read(Reader& in, const v1::Delay& fact) {
    const Delay delay{in.team("delay.team", fact.team()),
                      read_sanction(in, "delay.sanction", fact.sanction())};
    if (delay.sanction != Sanction::warning && delay.sanction != Sanction::penalty)
        in.fail("delay.sanction", "a delay brings a warning or a penalty only");
    return delay;
}

Fact read(Reader& in, const v1::ImproperRequest& fact) {
    return ImproperRequest{in.team("improper_request.team", fact.team())};
}

Fact read(Reader& in, const v1::Injury& fact) {
    return Injury{in.team("injury.team", fact.team()),
                  in.required("injury.player", fact.has_player(), fact.player())};
}

Fact read(Reader& in, const v1::Recovery& fact) {
    return Recovery{in.team("recovery.team", fact.team()),
                    in.required("recovery.player", fact.has_player(), fact.player())};
}

Fact read(Reader& in, const v1::PositionalFault& fact) {
    PositionalFault called{in.team("positional_fault.team", fact.team()), {}, {}};
    called.player = in.optional("positional_fault.player", fact.has_player(), fact.player());
    if (called.player.worn())
        called.neighbour = in.optional("positional_fault.neighbour", fact.has_neighbour(),
                                       fact.neighbour());
    return called;
}

Fact read(Reader&, const v1::CourtSwitch&) {
    return CourtSwitch{};
}
Fact read(Reader&, const v1::Interval&) {
    return Interval{};
}

Fact read(Reader&, const v1::Interrupted&) {
    return Interrupted{};
}

Fact read(Reader& in, const v1::Resumed& fact) {
    Resumed resumed;
    if (fact.how() == v1::Resumed::HOW_SAME_COURT)
        resumed.how = Resumed::How::same_court;
    else if (fact.how() == v1::Resumed::HOW_OTHER_COURT)
        resumed.how = Resumed::How::other_court;
    else if (fact.how() == v1::Resumed::HOW_OVER_FOUR_HOURS)
        resumed.how = Resumed::How::over_four_hours;
    else
        in.unknown("resumed.how", fact.how());
    return resumed;
}

Fact read(Reader& in, const v1::Ruling& fact) {
    Ruling ruling;
    if (fact.decision() == v1::DECISION_ACCEPT)
        ruling.decision = Ruling::Decision::accept;
    else if (fact.decision() == v1::DECISION_OVERRULE)
        ruling.decision = Ruling::Decision::overrule;
    else if (fact.decision() == v1::DECISION_ACCEPT_MOMENT_UNKNOWN)
        ruling.decision = Ruling::Decision::accept_moment_unknown;
    else
        in.unknown("ruling.decision", fact.decision());
    if (const std::optional<Reason> reason = reason_of(fact.reason()))
        ruling.reason = *reason;
    else
        in.fail("ruling.reason", fmt::format("\"{:.{}}\" is no reason known to this version",
                                             fact.reason(), most_word_bytes));
    ruling.team = in.team("ruling.team", fact.team());
    return ruling;
}

Fact read(Reader& in, const v1::Incomplete& fact) {
    Incomplete incomplete;
    incomplete.team = in.team("incomplete.team", fact.team());
    if (fact.scope() == v1::Incomplete::SCOPE_SET)
        incomplete.scope = Incomplete::Scope::set;
    else if (fact.scope() == v1::Incomplete::SCOPE_MATCH)
        incomplete.scope = Incomplete::Scope::match;
    else
        in.unknown("incomplete.scope", fact.scope());
    return incomplete;
}

Fact read(Reader& in, const v1::DefaultLoss& fact) {
    return Default{in.team("default_loss.team", fact.team())};
}

Fact read(Reader& in, const v1::Protest& fact) {
    return Protest{in.team("protest.team", fact.team())};
}

Fact read(Reader& in, const v1::ScoreCorrection& fact) {
    if (!fact.has_score()) in.fail("score_correction.score", "is not set");
    return ScoreCorrection{{in.count("score_correction.score.a", fact.score().a()),
                            in.count("score_correction.score.b", fact.score().b())}};
}

Fact read(Reader& in, const v1::Note& fact) {
    if (fact.kind() == v1::Note::KIND_REMARK) return Note{Note::Kind::remark};
    if (fact.kind() == v1::Note::KIND_SIGNATURE) return Note{Note::Kind::signature};
    if (fact.kind() == v1::Note::KIND_OFFICIALS) return Note{Note::Kind::officials};
    in.unknown("note.kind", fact.kind());
    return Note{};
}

Fact read_kind(Reader& in, const v1::Fact& fact) {
    switch (fact.kind_case()) {
        case v1::Fact::kWhistle:
            return read(in, fact.whistle());
        case v1::Fact::kServe:
            return read(in, fact.serve());
        case v1::Fact::kRallyWon:
            return read(in, fact.rally_won());
        case v1::Fact::kLiberoReplacement:
            return read(in, fact.libero_replacement());
        case v1::Fact::kSubstitution:
            return read(in, fact.substitution());
        case v1::Fact::kTimeOut:
            return read(in, fact.time_out());
        case v1::Fact::kLineUp:
            return read(in, fact.line_up());
        case v1::Fact::kLineUpChecked:
            return read(in, fact.line_up_checked());
        case v1::Fact::kRuling:
            return read(in, fact.ruling());
        case v1::Fact::kGameCaptain:
            return read(in, fact.game_captain());
        case v1::Fact::kReplay:
            return read(in, fact.replay());
        case v1::Fact::kSetStarted:
            return read(in, fact.set_started());
        case v1::Fact::kCourtSwitch:
            return read(in, fact.court_switch());
        case v1::Fact::kMatchOpened:
            return read(in, fact.match_opened());
        case v1::Fact::kTeamRoster:
            return read(in, fact.team_roster());
        case v1::Fact::kToss:
            return read(in, fact.toss());
        case v1::Fact::kLiberoBoxSettled:
            return read(in, fact.libero_box_settled());
        case v1::Fact::kExceptionalSubstitution:
            return read(in, fact.exceptional_substitution());
        case v1::Fact::kLiberoUnable:
            return read(in, fact.libero_unable());
        case v1::Fact::kRedesignation:
            return read(in, fact.redesignation());
        case v1::Fact::kMisconduct:
            return read(in, fact.misconduct());
        case v1::Fact::kDelay:
            return read(in, fact.delay());
        case v1::Fact::kImproperRequest:
            return read(in, fact.improper_request());
        case v1::Fact::kInjury:
            return read(in, fact.injury());
        case v1::Fact::kRecovery:
            return read(in, fact.recovery());
        case v1::Fact::kInterval:
            return read(in, fact.interval());
        case v1::Fact::kPositionalFault:
            return read(in, fact.positional_fault());
        case v1::Fact::kInterrupted:
            return read(in, fact.interrupted());
        case v1::Fact::kResumed:
            return read(in, fact.resumed());
        case v1::Fact::kIncomplete:
            return read(in, fact.incomplete());
        case v1::Fact::kDefaultLoss:
            return read(in, fact.default_loss());
        case v1::Fact::kProtest:
            return read(in, fact.protest());
        case v1::Fact::kScoreCorrection:
            return read(in, fact.score_correction());
        case v1::Fact::kNote:
            return read(in, fact.note());
        case v1::Fact::KIND_NOT_SET:
            break;
    }
    in.fail("kind", "no fact is set, or one that this version does not know; update the program");
    return Whistle{};
}

/// A fact at `place`, e.g. "insert.fact.".
std::variant<Fact, Unreadable> read_fact(std::string_view place, const v1::Fact& fact) {
    Reader in{place};
    Fact value = read_kind(in, fact);
    if (in.error()) return *in.error();
    return value;
}

template <class Build>
std::variant<Record, Unreadable> read_with_fact(std::string_view place, const v1::Fact& fact,
                                                Build build) {
    std::variant<Fact, Unreadable> value = read_fact(place, fact);
    if (auto* error = std::get_if<Unreadable>(&value)) return std::move(*error);
    return Record{build(std::get<Fact>(value))};
}

}  // namespace

std::variant<MatchFormat, Unreadable> from_proto(const v1::MatchFormat& format) {
    Reader in{"format."};
    const MatchFormat value = read_format(in, "", format);
    if (in.error()) return *in.error();
    return value;
}

std::variant<Fact, Unreadable> from_proto(const v1::Fact& fact) {
    return read_fact("fact.", fact);
}

std::variant<Record, Unreadable> from_proto(const v1::Entry& entry) {
    switch (entry.body_case()) {
        case v1::Entry::kFact:
            return read_with_fact("fact.", entry.fact(), [](const Fact& fact) { return fact; });
        case v1::Entry::kInsert:
            return read_with_fact("insert.fact.", entry.insert().fact(), [&](const Fact& fact) {
                return Insert{entry.insert().after(), fact};
            });
        case v1::Entry::kAmend:
            if (entry.amend().target() == 0) return Unreadable{"amend.target", "names no entry"};
            return read_with_fact("amend.fact.", entry.amend().fact(), [&](const Fact& fact) {
                return Amend{entry.amend().target(), fact};
            });
        case v1::Entry::kStrike:
            if (entry.strike().target() == 0) return Unreadable{"strike.target", "names no entry"};
            return Record{Strike{entry.strike().target()}};
        case v1::Entry::BODY_NOT_SET:
            break;
    }
    return Unreadable{"body",
                      "no fact and no correction, or one that this version does not know; "
                      "update the program"};
}

const v1::Fact* fact_of(const v1::Entry& entry) noexcept {
    if (entry.has_fact()) return &entry.fact();
    if (entry.has_insert()) return &entry.insert().fact();
    if (entry.has_amend()) return &entry.amend().fact();
    return nullptr;
}

v1::Fact* mutable_fact_of(v1::Entry& entry) noexcept {
    if (entry.has_fact()) return entry.mutable_fact();
    if (entry.has_insert()) return entry.mutable_insert()->mutable_fact();
    if (entry.has_amend()) return entry.mutable_amend()->mutable_fact();
    return nullptr;
}

}  // namespace courthand::wire
