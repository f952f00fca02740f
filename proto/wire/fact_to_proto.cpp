#include <string>

#include "courthand/rules/reason.h"
#include "wire/fact_convert.h"

namespace courthand::wire {
namespace {

constexpr int empty_place = -1;

v1::Cause to_wire(Cause cause) noexcept {
    switch (cause) {
        case Cause::injury:
            return v1::CAUSE_INJURY;
        case Cause::illness:
            return v1::CAUSE_ILLNESS;
        case Cause::expulsion:
            return v1::CAUSE_EXPULSION;
        case Cause::disqualification:
            return v1::CAUSE_DISQUALIFICATION;
        case Cause::declared:
            return v1::CAUSE_DECLARED;
    }
    return v1::CAUSE_UNSPECIFIED;
}

v1::Sanction to_wire(Sanction sanction) noexcept {
    switch (sanction) {
        case Sanction::warning:
            return v1::SANCTION_WARNING;
        case Sanction::penalty:
            return v1::SANCTION_PENALTY;
        case Sanction::expulsion:
            return v1::SANCTION_EXPULSION;
        case Sanction::disqualification:
            return v1::SANCTION_DISQUALIFICATION;
    }
    return v1::SANCTION_UNSPECIFIED;
}

v1::Resumed::How to_wire(Resumed::How how) noexcept {
    switch (how) {
        case Resumed::How::same_court:
            return v1::Resumed::HOW_SAME_COURT;
        case Resumed::How::other_court:
            return v1::Resumed::HOW_OTHER_COURT;
        case Resumed::How::over_four_hours:
            return v1::Resumed::HOW_OVER_FOUR_HOURS;
    }
    return v1::Resumed::HOW_UNSPECIFIED;
}

v1::Decision to_wire(Ruling::Decision decision) noexcept {
    switch (decision) {
        case Ruling::Decision::accept:
            return v1::DECISION_ACCEPT;
        case Ruling::Decision::overrule:
            return v1::DECISION_OVERRULE;
        case Ruling::Decision::accept_moment_unknown:
            return v1::DECISION_ACCEPT_MOMENT_UNKNOWN;
    }
    return v1::DECISION_UNSPECIFIED;
}

v1::Note::Kind to_wire(Note::Kind kind) noexcept {
    switch (kind) {
        case Note::Kind::remark:
            return v1::Note::KIND_REMARK;
        case Note::Kind::signature:
            return v1::Note::KIND_SIGNATURE;
        case Note::Kind::officials:
            return v1::Note::KIND_OFFICIALS;
    }
    return v1::Note::KIND_UNSPECIFIED;
}

void write(const LiberoBox& box, v1::LiberoBox& out) {
    switch (box.mark) {
        case LiberoBox::Mark::blank:
            out.set_mark(v1::LiberoBox::MARK_BLANK);
            break;
        case LiberoBox::Mark::none:
            out.set_mark(v1::LiberoBox::MARK_NONE);
            break;
        case LiberoBox::Mark::number:
            out.set_mark(v1::LiberoBox::MARK_NUMBER);
            if (box.number.worn()) out.set_number(box.number.number());
            break;
    }
}

/// Who comes in and who goes out; a number that is not worn stays unset.
template <class Out>
void write_exchange(Jersey in, Jersey out, Out& message) {
    if (in.worn()) message.set_in(in.number());
    if (out.worn()) message.set_out(out.number());
}

/// One overload for each kind of fact: a new kind does not compile before it is added here.
struct Writer {
    v1::Fact& out;

    void operator()(const MatchOpened& fact) const {
        to_proto(fact.format, *out.mutable_match_opened()->mutable_format());
    }
    void operator()(const Roster& fact) const {
        v1::TeamRoster& roster = *out.mutable_team_roster();
        roster.set_team(to_proto(fact.team));
        for (std::size_t i = 0; i < fact.count && i < most_players; ++i)
            roster.add_players(fact.players[i].number());
        if (fact.captain.worn()) roster.set_captain(fact.captain.number());
    }
    void operator()(const Toss& fact) const {
        out.mutable_toss()->set_serves(to_proto(fact.serves));
        out.mutable_toss()->set_left(to_proto(fact.left));
    }
    void operator()(const SetStarted& fact) const {
        out.mutable_set_started()->set_number(fact.number);
    }
    void operator()(const LineUp& fact) const {
        v1::LineUp& sheet = *out.mutable_line_up();
        sheet.set_team(to_proto(fact.team));
        to_proto(fact.order, *sheet.mutable_order());
        for (const LiberoBox& box : fact.liberos) write(box, *sheet.add_liberos());
        if (fact.captain.worn()) sheet.set_captain(fact.captain.number());
    }
    void operator()(const LiberoBoxSettled& fact) const {
        v1::LiberoBoxSettled& settled = *out.mutable_libero_box_settled();
        settled.set_team(to_proto(fact.team));
        settled.set_box(fact.box + 1u);
        write(fact.entry, *settled.mutable_entry());
    }
    void operator()(const LineUpChecked& fact) const {
        out.mutable_line_up_checked()->set_team(to_proto(fact.team));
    }
    void operator()(const Whistle&) const { out.mutable_whistle(); }
    void operator()(const Serve& fact) const {
        out.mutable_serve()->set_team(to_proto(fact.team));
        if (fact.server.worn()) out.mutable_serve()->set_server(fact.server.number());
    }
    void operator()(const RallyWon& fact) const {
        out.mutable_rally_won()->set_team(to_proto(fact.team));
    }
    void operator()(const Replay&) const { out.mutable_replay(); }
    void operator()(const LiberoReplacement& fact) const {
        out.mutable_libero_replacement()->set_team(to_proto(fact.team));
        write_exchange(fact.in, fact.out, *out.mutable_libero_replacement());
    }
    void operator()(const Substitution& fact) const {
        v1::Substitution& request = *out.mutable_substitution();
        request.set_team(to_proto(fact.team));
        for (std::size_t i = 0; i < fact.count && i < most_pairs; ++i)
            write_exchange(fact.pairs[i].in, fact.pairs[i].out, *request.add_pairs());
    }
    void operator()(const ExceptionalSubstitution& fact) const {
        v1::ExceptionalSubstitution& made = *out.mutable_exceptional_substitution();
        made.set_team(to_proto(fact.team));
        write_exchange(fact.in, fact.out, made);
        made.set_cause(to_wire(fact.cause));
    }
    void operator()(const TimeOut& fact) const {
        out.mutable_time_out()->set_team(to_proto(fact.team));
    }
    void operator()(const GameCaptain& fact) const {
        out.mutable_game_captain()->set_team(to_proto(fact.team));
        if (fact.player.worn()) out.mutable_game_captain()->set_player(fact.player.number());
    }
    void operator()(const LiberoUnable& fact) const {
        v1::LiberoUnable& unable = *out.mutable_libero_unable();
        unable.set_team(to_proto(fact.team));
        if (fact.libero.worn()) unable.set_libero(fact.libero.number());
        unable.set_cause(to_wire(fact.cause));
    }
    void operator()(const Redesignation& fact) const {
        out.mutable_redesignation()->set_team(to_proto(fact.team));
        write_exchange(fact.in, fact.out, *out.mutable_redesignation());
    }
    void operator()(const Misconduct& fact) const {
        v1::Misconduct& misconduct = *out.mutable_misconduct();
        misconduct.set_team(to_proto(fact.team));
        if (fact.person.worn()) misconduct.set_person(fact.person.number());
        misconduct.set_sanction(to_wire(fact.sanction));
    }
    void operator()(const Delay& fact) const {
        out.mutable_delay()->set_team(to_proto(fact.team));
        out.mutable_delay()->set_sanction(to_wire(fact.sanction));
    }
    void operator()(const ImproperRequest& fact) const {
        out.mutable_improper_request()->set_team(to_proto(fact.team));
    }
    void operator()(const Injury& fact) const {
        out.mutable_injury()->set_team(to_proto(fact.team));
        if (fact.player.worn()) out.mutable_injury()->set_player(fact.player.number());
    }
    void operator()(const Recovery& fact) const {
        out.mutable_recovery()->set_team(to_proto(fact.team));
        if (fact.player.worn()) out.mutable_recovery()->set_player(fact.player.number());
    }
    void operator()(const PositionalFault& fact) const {
        v1::PositionalFault& called = *out.mutable_positional_fault();
        called.set_team(to_proto(fact.team));
        if (!fact.player.worn()) return;
        called.set_player(fact.player.number());
        if (fact.neighbour.worn()) called.set_neighbour(fact.neighbour.number());
    }
    void operator()(const CourtSwitch&) const { out.mutable_court_switch(); }
    void operator()(const Interval&) const { out.mutable_interval(); }
    void operator()(const Interrupted&) const { out.mutable_interrupted(); }
    void operator()(const Resumed& fact) const { out.mutable_resumed()->set_how(to_wire(fact.how)); }
    void operator()(const Ruling& fact) const {
        v1::Ruling& ruling = *out.mutable_ruling();
        ruling.set_decision(to_wire(fact.decision));
        ruling.set_reason(std::string{describe(fact.reason).word});
        ruling.set_team(to_proto(fact.team));
    }
    void operator()(const Incomplete& fact) const {
        out.mutable_incomplete()->set_team(to_proto(fact.team));
        out.mutable_incomplete()->set_scope(fact.scope == Incomplete::Scope::set
                                                ? v1::Incomplete::SCOPE_SET
                                                : v1::Incomplete::SCOPE_MATCH);
    }
    void operator()(const Default& fact) const {
        out.mutable_default_loss()->set_team(to_proto(fact.team));
    }
    void operator()(const Protest& fact) const {
        out.mutable_protest()->set_team(to_proto(fact.team));
    }
    void operator()(const ScoreCorrection& fact) const {
        to_proto(fact.score, *out.mutable_score_correction()->mutable_score());
    }
    void operator()(const Note& fact) const { out.mutable_note()->set_kind(to_wire(fact.kind)); }
};

struct BodyWriter {
    v1::Entry& entry;

    void operator()(const Fact& fact) const { to_proto(fact, *entry.mutable_fact()); }
    void operator()(const Strike& strike) const {
        entry.mutable_strike()->set_target(strike.target);
    }
    void operator()(const Insert& insert) const {
        entry.mutable_insert()->set_after(insert.after);
        to_proto(insert.fact, *entry.mutable_insert()->mutable_fact());
    }
    void operator()(const Amend& amend) const {
        entry.mutable_amend()->set_target(amend.target);
        to_proto(amend.fact, *entry.mutable_amend()->mutable_fact());
    }
};

}  // namespace

v1::TeamLetter to_proto(Team team) noexcept {
    return team == Team::A ? v1::TEAM_LETTER_A : v1::TEAM_LETTER_B;
}

void to_proto(const MatchFormat& format, v1::MatchFormat& out) {
    out.Clear();
    out.set_sets(format.sets);
    out.set_all_sets_played(format.all_sets_played != 0);
    out.set_points(format.points);
    out.set_deciding_points(format.deciding_points);
    out.set_lead(format.lead);
    out.set_cap(format.cap);
    out.set_deciding_cap(format.deciding_cap);
    out.set_start_score(format.start_score);
    out.set_switch_at(format.switch_at);
}

void to_proto(const Six& six, v1::Six& out) {
    out.Clear();
    for (const Jersey jersey : six) out.add_numbers(jersey.worn() ? jersey.number() : empty_place);
}

void to_proto(Score score, v1::Score& out) {
    out.set_a(score.a);
    out.set_b(score.b);
}

void to_proto(const Fact& fact, v1::Fact& out) {
    out.Clear();
    std::visit(Writer{out}, fact);
}

void to_proto(const Record& record, v1::Entry& entry) {
    entry.clear_body();
    std::visit(BodyWriter{entry}, record);
}

}  // namespace courthand::wire
