#include "wire/event_convert.h"

#include <fmt/format.h>
#include <google/protobuf/descriptor.h>
#include <google/protobuf/message.h>

#include <cassert>
#include <string>
#include <utility>
#include <vector>

#include "courthand/event/fact_fields.h"
#include "wire/fact_convert.h"

namespace courthand::wire {
namespace {

namespace pb = google::protobuf;
using event::Count;

/// A choice has the number of its value plus one on the wire, where 0 says nothing.
constexpr int first_choice = 1;

/// One field of a message, by name.
struct Slot {
    const pb::FieldDescriptor* field;
    const pb::Reflection* reflection;
};

[[nodiscard]] Slot slot(const pb::Message& message, std::string_view name) {
    const pb::FieldDescriptor* field = message.GetDescriptor()->FindFieldByName(std::string{name});
    assert(field != nullptr);  // a row and its message differ: Described.* finds it
    return {field, message.GetReflection()};
}

// --- writing ------------------------------------------------------------------------------------

void write(pb::Message& message, std::string_view name, const std::string& value) {
    const Slot s = slot(message, name);
    s.reflection->SetString(&message, s.field, value);
}
template <Count Value>
void write(pb::Message& message, std::string_view name, Value value) {
    const Slot s = slot(message, name);
    if (s.field->cpp_type() == pb::FieldDescriptor::CPPTYPE_UINT64)
        s.reflection->SetUInt64(&message, s.field, value);
    else
        s.reflection->SetUInt32(&message, s.field, static_cast<std::uint32_t>(value));
}
void write(pb::Message& message, std::string_view name, bool value) {
    const Slot s = slot(message, name);
    s.reflection->SetBool(&message, s.field, value);
}
template <Choice Value>
void write(pb::Message& message, std::string_view name, Value value) {
    const Slot s = slot(message, name);
    s.reflection->SetEnumValue(&message, s.field, static_cast<int>(value) + first_choice);
}
void write(pb::Message& message, std::string_view name, event::Date value) {
    const Slot s = slot(message, name);
    s.reflection->SetInt32(&message, s.field, value.days);
}
void write(pb::Message& message, std::string_view name, event::LocalTime value) {
    const Slot s = slot(message, name);
    s.reflection->SetInt32(&message, s.field, value.minutes);
}
void write(pb::Message& message, std::string_view name, Jersey value) {
    if (value.worn()) write(message, name, value.number());
}
void write(pb::Message& message, std::string_view name, const event::FormatChoice& value) {
    if (!value.own) return;
    const Slot s = slot(message, name);
    to_proto(value.format,
             static_cast<v1::MatchFormat&>(*s.reflection->MutableMessage(&message, s.field)));
}

void write(const event::Source& source, v1::MatchSource& out) {
    out.set_kind(static_cast<v1::MatchSource::Kind>(static_cast<int>(source.kind) + first_choice));
    out.set_of(source.of);
    out.set_place(source.place);
    for (const event::Source& one : source.two) write(one, *out.add_two());
}
void write(pb::Message& message, std::string_view name, const event::Source& value) {
    if (value.kind == event::Source::Kind::none) return;
    const Slot s = slot(message, name);
    write(value, static_cast<v1::MatchSource&>(*s.reflection->MutableMessage(&message, s.field)));
}

template <std::size_t size>
void write_bytes(pb::Message& message, std::string_view name,
                 const std::array<std::uint8_t, size>& bytes) {
    write(message, name, std::string{bytes.begin(), bytes.end()});
}
void write(pb::Message& message, std::string_view name, const event::RecordId& value) {
    if (value.given()) write_bytes(message, name, value.bytes);
}
void write(pb::Message& message, std::string_view name, const event::HeadHash& value) {
    if (value.given()) write_bytes(message, name, value.bytes);
}

void add(pb::Message& message, const Slot& s, const std::string& item) {
    s.reflection->AddString(&message, s.field, item);
}
template <Count Value>
void add(pb::Message& message, const Slot& s, Value item) {
    s.reflection->AddUInt32(&message, s.field, item);
}
void add(pb::Message& message, const Slot& s, const event::Source& item) {
    write(item, static_cast<v1::MatchSource&>(*s.reflection->AddMessage(&message, s.field)));
}
void add(pb::Message& message, const Slot& s, event::SetScore item) {
    auto& out = static_cast<v1::SetPoints&>(*s.reflection->AddMessage(&message, s.field));
    out.set_first(item.first);
    out.set_second(item.second);
}
template <class Item>
void write(pb::Message& message, std::string_view name, const std::vector<Item>& items) {
    const Slot s = slot(message, name);
    for (const Item& item : items) add(message, s, item);
}

// --- reading ------------------------------------------------------------------------------------

/// What cannot be kept in the type of the field; bounds are checked once all is read.
using Wrong = std::optional<std::string>;

template <Count Value>
[[nodiscard]] Wrong narrow(std::uint64_t wide, Value& out) {
    out = static_cast<Value>(wide);
    if (out == wide) return {};
    return fmt::format("{} is too large", wide);
}

[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, std::string& out) {
    out = s.reflection->GetString(message, s.field);
    return {};
}
template <Count Value>
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, Value& out) {
    if (s.field->cpp_type() == pb::FieldDescriptor::CPPTYPE_UINT64)
        return narrow(s.reflection->GetUInt64(message, s.field), out);
    return narrow(s.reflection->GetUInt32(message, s.field), out);
}
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, bool& out) {
    out = s.reflection->GetBool(message, s.field);
    return {};
}
template <Choice Value>
[[nodiscard]] Wrong choice(int number, Value& out) {
    const int value = number - first_choice;
    if (number == 0) return "is not set";
    if (value < 0 || value >= static_cast<int>(choice_count<Value>))
        return fmt::format("{} is not known to this version", number);
    out = static_cast<Value>(value);
    return {};
}
template <Choice Value>
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, Value& out) {
    return choice(s.reflection->GetEnumValue(message, s.field), out);
}
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, event::Date& out) {
    out.days = s.reflection->GetInt32(message, s.field);
    return {};
}
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, event::LocalTime& out) {
    out.minutes = s.reflection->GetInt32(message, s.field);
    return {};
}
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, Jersey& out) {
    if (!s.reflection->HasField(message, s.field)) return {};
    const std::uint32_t number = s.reflection->GetUInt32(message, s.field);
    if (number > Jersey::largest)
        return fmt::format("{} is not a jersey number (0 to {})", number, Jersey::largest);
    out = Jersey{static_cast<std::uint8_t>(number)};
    return {};
}
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, event::FormatChoice& out) {
    if (!s.reflection->HasField(message, s.field)) return {};
    const auto& format =
        static_cast<const v1::MatchFormat&>(s.reflection->GetMessage(message, s.field));
    const auto read = from_proto(format);
    if (const auto* why = std::get_if<Unreadable>(&read)) return why->text();
    out = {true, std::get<MatchFormat>(read)};
    return {};
}

[[nodiscard]] Wrong read(const v1::MatchSource& source, bool nested, event::Source& out) {
    if (auto why = choice(source.kind(), out.kind)) return "kind " + *why;
    out.of = source.of();
    if (auto why = narrow(source.place(), out.place)) return why;
    if (nested && source.two_size() != 0) return "compares a comparison";
    if (source.two_size() > 2) return "compares more than two";
    for (const v1::MatchSource& one : source.two())
        if (auto why = read(one, true, out.two.emplace_back())) return why;
    return {};
}
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, event::Source& out) {
    if (!s.reflection->HasField(message, s.field)) return {};
    return read(static_cast<const v1::MatchSource&>(s.reflection->GetMessage(message, s.field)),
                false, out);
}

template <std::size_t size>
[[nodiscard]] Wrong read_bytes(const pb::Message& message, const Slot& s,
                               std::array<std::uint8_t, size>& out) {
    const std::string bytes = s.reflection->GetString(message, s.field);
    if (bytes.empty()) return {};
    if (bytes.size() != size) return fmt::format("{} bytes, {} are needed", bytes.size(), size);
    std::copy(bytes.begin(), bytes.end(), out.begin());
    return {};
}
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, event::RecordId& out) {
    return read_bytes(message, s, out.bytes);
}
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, event::HeadHash& out) {
    return read_bytes(message, s, out.bytes);
}

[[nodiscard]] Wrong item(const pb::Message& message, const Slot& s, int i, std::string& out) {
    out = s.reflection->GetRepeatedString(message, s.field, i);
    return {};
}
template <Count Value>
[[nodiscard]] Wrong item(const pb::Message& message, const Slot& s, int i, Value& out) {
    return narrow(s.reflection->GetRepeatedUInt32(message, s.field, i), out);
}
[[nodiscard]] Wrong item(const pb::Message& message, const Slot& s, int i, event::Source& out) {
    return read(
        static_cast<const v1::MatchSource&>(s.reflection->GetRepeatedMessage(message, s.field, i)),
        false, out);
}
[[nodiscard]] Wrong item(const pb::Message& message, const Slot& s, int i, event::SetScore& out) {
    const auto& set =
        static_cast<const v1::SetPoints&>(s.reflection->GetRepeatedMessage(message, s.field, i));
    if (auto why = narrow(set.first(), out.first)) return why;
    return narrow(set.second(), out.second);
}
template <class Item>
[[nodiscard]] Wrong read(const pb::Message& message, const Slot& s, std::vector<Item>& out) {
    const int count = s.reflection->FieldSize(message, s.field);
    if (count > static_cast<int>(event::most_listed)) return fmt::format("{} items", count);
    for (int i = 0; i < count; ++i)
        if (auto why = item(message, s, i, out.emplace_back())) return why;
    return {};
}

template <class Kind>
std::variant<event::Fact, Unreadable> read_kind(const pb::Message& message) {
    Kind out{};
    std::optional<Unreadable> error;
    const auto place = [](std::string_view field) {
        return fmt::format("fact.{}.{}", event::described<Kind>.name, field);
    };
    event::for_each_field<Kind>([&](const auto& field) {
        if (error) return;
        if (auto why = read(message, slot(message, field.name), out.*field.member))
            error = Unreadable{place(field.name), std::move(*why)};
    });
    if (error) return std::move(*error);
    event::Fact fact{std::move(out)};
    if (const auto wrong = event::out_of_bounds(fact))
        return Unreadable{place(wrong->field), wrong->message};
    return fact;
}

struct Reader {
    const pb::FieldDescriptor* field;
    std::variant<event::Fact, Unreadable> (*read)(const pb::Message& message);
};

/// How to read a kind, by the number of its field.
const std::vector<Reader>& readers() {
    static const std::vector<Reader> all = [] {
        std::vector<Reader> found;
        event::for_each_kind([&](auto kind) {
            using Kind = typename decltype(kind)::type;
            const auto* field = v1::TournamentFact::descriptor()->FindFieldByName(
                std::string{event::described<Kind>.name});
            assert(field != nullptr);
            const auto number = static_cast<std::size_t>(field->number());
            if (found.size() <= number) found.resize(number + 1);
            found[number] = {field, read_kind<Kind>};
        });
        return found;
    }();
    return all;
}

}  // namespace

void to_proto(const event::Fact& fact, v1::TournamentFact& out) {
    out.Clear();
    std::visit(
        [&]<class Kind>(const Kind& value) {
            const Slot s = slot(out, event::described<Kind>.name);
            pb::Message& message = *s.reflection->MutableMessage(&out, s.field);
            event::for_each_field<Kind>(
                [&](const auto& field) { write(message, field.name, value.*field.member); });
        },
        fact);
}

std::variant<event::Fact, Unreadable> from_proto(const v1::TournamentFact& fact) {
    const auto number = static_cast<std::size_t>(fact.kind_case());
    if (number >= readers().size() || readers()[number].read == nullptr)
        return Unreadable{"fact.kind",
                          "no fact is set, or one that this version does not know; update the "
                          "program"};
    const Reader& reader = readers()[number];
    return reader.read(fact.GetReflection()->GetMessage(fact, reader.field));
}

}  // namespace courthand::wire
