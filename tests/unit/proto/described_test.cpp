// match/fact_fields.h and fact.proto say the same about every kind of fact. A field or a choice
// that only one of them has fails here by its name.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <string>

#include "courthand/match/fact_fields.h"
#include "courthand/v1/fact.pb.h"

namespace courthand::wire {
namespace {

using google::protobuf::Descriptor;
using google::protobuf::EnumDescriptor;
using google::protobuf::FieldDescriptor;

/// "moment-unknown" as an enum of the wire spells it.
std::string in_capitals(std::string_view word) {
    std::string out{word};
    std::transform(out.begin(), out.end(), out.begin(), [](char c) {
        return c == '-' ? '_' : static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    });
    return out;
}

bool ends_with(const std::string& text, const std::string& end) {
    return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

/// The message has one value for each of ours, with our word and our number plus one, and 0.
template <Choice Value>
void expect_choices(const EnumDescriptor& on_wire) {
    EXPECT_EQ(on_wire.value_count(), static_cast<int>(choice_count<Value>) + 1)
        << on_wire.full_name();
    for (std::size_t i = 0; i < choice_count<Value>; ++i) {
        const auto* value = on_wire.FindValueByNumber(static_cast<int>(i) + 1);
        ASSERT_NE(value, nullptr) << on_wire.full_name() << ": " << choices<Value>[i];
        EXPECT_TRUE(ends_with(value->name(), '_' + in_capitals(choices<Value>[i])))
            << value->name() << " stands where " << choices<Value>[i] << " belongs";
    }
}

template <class Value>
void expect_value(const FieldDescriptor& on_wire) {
    if constexpr (Choice<Value>) {
        ASSERT_EQ(on_wire.type(), FieldDescriptor::TYPE_ENUM) << on_wire.full_name();
        expect_choices<Value>(*on_wire.enum_type());
    } else if constexpr (std::is_same_v<Value, Jersey>) {
        EXPECT_TRUE(on_wire.has_presence())
            << on_wire.full_name() << " must be optional: 0 is a jersey number";
    }
}

template <RegularKind Kind>
void expect_fields(const Descriptor& on_wire) {
    std::set<std::string> ours;
    for_each_field<Kind>([&](const auto& field, std::size_t) {
        ours.emplace(field.name);
        const auto* found = on_wire.FindFieldByName(std::string{field.name});
        ASSERT_NE(found, nullptr) << on_wire.full_name() << " has no field " << field.name;
        expect_value<typename std::decay_t<decltype(field)>::Value>(*found);
    });
    for (int i = 0; i < on_wire.field_count(); ++i)
        EXPECT_EQ(ours.count(on_wire.field(i)->name()), 1u)
            << on_wire.field(i)->full_name() << " has no place in the row of its kind";
}

TEST(Described, EveryKindHasItsMessageAndEveryMessageItsKind) {
    std::set<std::string> ours;
    for_each_kind([&](auto kind) {
        using Kind = typename decltype(kind)::type;
        const std::string name{described<Kind>.name};
        EXPECT_TRUE(ours.insert(name).second) << "two kinds are called " << name;
        const auto* found = v1::Fact::descriptor()->FindFieldByName(name);
        ASSERT_NE(found, nullptr) << "fact.proto has no " << name;
        if constexpr (RegularKind<Kind>) expect_fields<Kind>(*found->message_type());
    });
    const auto* kinds = v1::Fact::descriptor()->FindOneofByName("kind");
    for (int i = 0; i < kinds->field_count(); ++i)
        EXPECT_EQ(ours.count(kinds->field(i)->name()), 1u)
            << "no kind of match/fact_fields.h is called " << kinds->field(i)->name();
}

TEST(Described, MostKindsAreRegularAndTheOthersSayWhy) {
    std::size_t regular = 0;
    for_each_kind([&](auto kind) {
        using Kind = typename decltype(kind)::type;
        if constexpr (RegularKind<Kind>) {
            ++regular;
        } else {
            EXPECT_FALSE(described<Kind>.why.empty()) << described<Kind>.name;
        }
    });
    EXPECT_GE(regular, 26u);
}

TEST(Described, ABoxIsSaidFromOneAndKeptFromZero) {
    const auto& box = std::get<1>(described<LiberoBoxSettled>.fields);
    EXPECT_EQ(box.bounds.said(0), 1u);
    EXPECT_EQ(box.bounds.kept(2), 1u);
}

}  // namespace
}  // namespace courthand::wire
