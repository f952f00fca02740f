#include <fmt/format.h>

#include <cassert>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "courthand/rules/reason.h"
#include "wire/fact_accessors.h"
#include "wire/fact_convert.h"
#include "wire/work_done.h"

namespace courthand::wire {
namespace {

constexpr std::uint32_t largest_count = 255;

/// Reads fields and keeps the first that cannot be read. What it returns after that is never used.
class Reader {
  public:
    explicit Reader(std::string_view place) : place_{place} {}

    [[nodiscard]] const std::optional<Unreadable>& error() const noexcept { return error_; }

    /// The fields that follow belong to this kind of fact.
    void enter(std::string_view kind) noexcept { kind_ = kind; }
    void fail(std::string_view field, std::string message) {
        if (error_) return;
        const std::string_view dot = kind_.empty() ? "" : ".";
        error_ = Unreadable{fmt::format("{}{}{}{}", place_, kind_, dot, field), std::move(message)};
    }
    Team team(std::string_view field, int letter) {
        if (letter == v1::TEAM_LETTER_A) return Team::A;
        if (letter == v1::TEAM_LETTER_B) return Team::B;
        fail(field, fmt::format("{} names neither team A nor team B", letter));
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
    template <Choice Value>
    Value choice(std::string_view field, int value, const Bounds<Value>& bounds) {
        const int number = value - first_choice;
        if (number < 0 || number >= static_cast<int>(choice_count<Value>)) {
            unknown(field, value);
            return Value{};
        }
        const auto chosen = static_cast<Value>(number);
        if (!bounds.allows(chosen)) fail(field, std::string{bounds.otherwise});
        return chosen;
    }
    /// For an enum value that this build does not know, or none.
    void unknown(std::string_view field, int value) {
        fail(field, value == 0 ? std::string{"is not set"}
                               : fmt::format("{} is not known to this version", value));
    }
    [[nodiscard]] bool failed() const noexcept { return error_.has_value(); }

  private:
    std::string place_;
    std::string_view kind_;
    std::optional<Unreadable> error_;
};

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

Reason read_reason(Reader& in, std::string_view field, const std::string& word) {
    if (const std::optional<Reason> reason = reason_of(word)) return *reason;
    in.fail(field,
            fmt::format("\"{:.{}}\" is no reason known to this version", word, most_word_bytes));
    return Reason{};
}

Score read_score(Reader& in, std::string_view field, const v1::Score& score) {
    return {in.count(fmt::format("{}.a", field), score.a()),
            in.count(fmt::format("{}.b", field), score.b())};
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

// One field of a regular kind, read through its accessor `At` from the message of the kind.

template <class At, class Message, class Kind>
Team read_field(Reader& in, const Message& message, const Field<Kind, Team>& field) {
    return in.team(field.name, At::get(message));
}
template <class At, class Message, class Kind>
Jersey read_field(Reader& in, const Message& message, const Field<Kind, Jersey>& field) {
    return field.bounds.may_be_none ? in.optional(field.name, At::has(message), At::get(message))
                                    : in.required(field.name, At::has(message), At::get(message));
}
template <class At, class Message, class Kind>
std::uint8_t read_field(Reader& in, const Message& message,
                        const Field<Kind, std::uint8_t>& field) {
    const Bounds<std::uint8_t>& bounds = field.bounds;
    return bounds.kept(in.count(field.name, At::get(message), bounds.least, bounds.most));
}
template <class At, class Message, class Kind, Choice Value>
Value read_field(Reader& in, const Message& message, const Field<Kind, Value>& field) {
    return in.choice(field.name, At::get(message), field.bounds);
}
template <class At, class Message, class Kind>
Reason read_field(Reader& in, const Message& message, const Field<Kind, Reason>& field) {
    return read_reason(in, field.name, At::get(message));
}
template <class At, class Message, class Kind>
LiberoBox read_field(Reader& in, const Message& message, const Field<Kind, LiberoBox>& field) {
    return read_box(in, field.name, At::get(message));
}
template <class At, class Message, class Kind>
Score read_field(Reader& in, const Message& message, const Field<Kind, Score>& field) {
    if (!At::has(message)) in.fail(field.name, "is not set");
    return read_score(in, field.name, At::get(message));
}
template <class At, class Message, class Kind>
MatchFormat read_field(Reader& in, const Message& message, const Field<Kind, MatchFormat>& field) {
    if (!At::has(message)) in.fail(field.name, "is not set");
    return read_format(in, fmt::format("{}.", field.name), At::get(message));
}

template <RegularKind Kind>
void read(Reader& in, const v1::Fact& fact, Kind& out) {
    const auto& message = KindOnWire<Kind>::get(fact);
    for_each_field<Kind>([&](const auto& field, auto place) {
        out.*field.member = read_field<FieldOnWire<Kind, place>>(in, message, field);
    });
}

// One function for each kind that is read by hand: a new one does not compile before it is added.

void read(Reader& in, const v1::Fact& fact, Roster& out) {
    const v1::TeamRoster& roster = fact.team_roster();
    out.team = in.team("team", roster.team());
    in.size("players", roster.players_size(), 0, most_players);
    if (in.failed()) return;
    for (const std::uint32_t number : roster.players())
        out.players[out.count++] = in.number("players", number);
    out.captain = in.optional("captain", roster.has_captain(), roster.captain());
}

void read(Reader& in, const v1::Fact& fact, LineUp& out) {
    const v1::LineUp& sheet = fact.line_up();
    out.team = in.team("team", sheet.team());
    out.order = read_six(in, "order", sheet.order());
    in.size("liberos", sheet.liberos_size(), libero_boxes, libero_boxes);
    if (in.failed()) return;
    for (std::size_t i = 0; i < libero_boxes; ++i)
        out.liberos[i] = read_box(in, "liberos", sheet.liberos(static_cast<int>(i)));
    out.captain = in.optional("captain", sheet.has_captain(), sheet.captain());
}

void read(Reader& in, const v1::Fact& fact, Serve& out) {
    const v1::Serve& serve = fact.serve();
    out.server = in.optional("server", serve.has_server(), serve.server());
    if (serve.has_server() || serve.team() != v1::TEAM_LETTER_UNSPECIFIED)
        out.team = in.team("team", serve.team());
}

void read(Reader& in, const v1::Fact& fact, Substitution& out) {
    const v1::Substitution& request = fact.substitution();
    out.team = in.team("team", request.team());
    in.size("pairs", request.pairs_size(), 1, most_pairs);
    if (in.failed()) return;
    for (const v1::Pair& pair : request.pairs())
        out.pairs[out.count++] = {in.required("pairs.in", pair.has_in(), pair.in()),
                                  in.required("pairs.out", pair.has_out(), pair.out())};
}

void read(Reader& in, const v1::Fact& fact, PositionalFault& out) {
    const v1::PositionalFault& called = fact.positional_fault();
    out.team = in.team("team", called.team());
    out.player = in.optional("player", called.has_player(), called.player());
    if (out.player.worn())
        out.neighbour = in.optional("neighbour", called.has_neighbour(), called.neighbour());
}

using ReadKind = Fact (*)(Reader& in, const v1::Fact& fact);

template <class Kind>
Fact read_as(Reader& in, const v1::Fact& fact) {
    in.enter(described<Kind>.name);
    Kind out;
    read(in, fact, out);
    return out;
}

/// How to read a kind, by the number of its field in `Fact`.
std::vector<ReadKind> readers_by_number() {
    std::vector<ReadKind> readers;
    for_each_kind([&](auto kind) {
        using Kind = typename decltype(kind)::type;
        const auto* field =
            v1::Fact::descriptor()->FindFieldByName(std::string{described<Kind>.name});
        assert(field != nullptr);  // only a kind by hand can be misspelt
        const auto number = static_cast<std::size_t>(field->number());
        if (readers.size() <= number) readers.resize(number + 1);
        readers[number] = read_as<Kind>;
    });
    return readers;
}

Fact read_kind(Reader& in, const v1::Fact& fact) {
    static const std::vector<ReadKind> readers = readers_by_number();
    const auto number = static_cast<std::size_t>(fact.kind_case());
    if (number < readers.size() && readers[number] != nullptr) return readers[number](in, fact);
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
    count_conversion();
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
