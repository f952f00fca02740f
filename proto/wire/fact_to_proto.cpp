#include <string>

#include "courthand/rules/reason.h"
#include "wire/fact_accessors.h"
#include "wire/fact_convert.h"

namespace courthand::wire {
namespace {

constexpr int empty_place = -1;

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

// One field of a regular kind, written through its accessor `At` into the message of the kind.

template <class At, class Message, class Kind>
void write_field(Message& message, const Field<Kind, Team>&, Team team) {
    At::set(message, to_proto(team));
}
template <class At, class Message, class Kind>
void write_field(Message& message, const Field<Kind, Jersey>&, Jersey jersey) {
    if (jersey.worn()) At::set(message, jersey.number());
}
template <class At, class Message, class Kind>
void write_field(Message& message, const Field<Kind, std::uint8_t>& field, std::uint8_t kept) {
    At::set(message, field.bounds.said(kept));
}
template <class At, class Message, class Kind, Choice Value>
void write_field(Message& message, const Field<Kind, Value>&, Value value) {
    using OnTheWire = std::decay_t<decltype(At::get(message))>;
    At::set(message, static_cast<OnTheWire>(static_cast<int>(value) + first_choice));
}
template <class At, class Message, class Kind>
void write_field(Message& message, const Field<Kind, Reason>&, Reason reason) {
    At::set(message, std::string{describe(reason).word});
}
template <class At, class Message, class Kind>
void write_field(Message& message, const Field<Kind, LiberoBox>&, const LiberoBox& box) {
    write(box, At::part(message));
}
template <class At, class Message, class Kind>
void write_field(Message& message, const Field<Kind, Score>&, Score score) {
    to_proto(score, At::part(message));
}
template <class At, class Message, class Kind>
void write_field(Message& message, const Field<Kind, MatchFormat>&, const MatchFormat& format) {
    to_proto(format, At::part(message));
}

/// One overload for each kind that is written by hand: a new one does not compile before it is
/// added here.
struct Writer {
    v1::Fact& out;

    template <RegularKind Kind>
    void operator()(const Kind& fact) const {
        auto& message = KindOnWire<Kind>::part(out);
        for_each_field<Kind>([&](const auto& field, auto place) {
            write_field<FieldOnWire<Kind, place>>(message, field, fact.*field.member);
        });
    }

    void operator()(const Roster& fact) const {
        v1::TeamRoster& roster = *out.mutable_team_roster();
        roster.set_team(to_proto(fact.team));
        for (std::size_t i = 0; i < fact.count && i < most_players; ++i)
            roster.add_players(fact.players[i].number());
        if (fact.captain.worn()) roster.set_captain(fact.captain.number());
    }
    void operator()(const LineUp& fact) const {
        v1::LineUp& sheet = *out.mutable_line_up();
        sheet.set_team(to_proto(fact.team));
        to_proto(fact.order, *sheet.mutable_order());
        for (const LiberoBox& box : fact.liberos) write(box, *sheet.add_liberos());
        if (fact.captain.worn()) sheet.set_captain(fact.captain.number());
    }
    void operator()(const Serve& fact) const {
        out.mutable_serve()->set_team(to_proto(fact.team));
        if (fact.server.worn()) out.mutable_serve()->set_server(fact.server.number());
    }
    void operator()(const Substitution& fact) const {
        v1::Substitution& request = *out.mutable_substitution();
        request.set_team(to_proto(fact.team));
        for (std::size_t i = 0; i < fact.count && i < most_pairs; ++i) {
            v1::Pair& pair = *request.add_pairs();
            if (fact.pairs[i].in.worn()) pair.set_in(fact.pairs[i].in.number());
            if (fact.pairs[i].out.worn()) pair.set_out(fact.pairs[i].out.number());
        }
    }
    void operator()(const PositionalFault& fact) const {
        v1::PositionalFault& called = *out.mutable_positional_fault();
        called.set_team(to_proto(fact.team));
        if (!fact.player.worn()) return;
        called.set_player(fact.player.number());
        if (fact.neighbour.worn()) called.set_neighbour(fact.neighbour.number());
    }
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
