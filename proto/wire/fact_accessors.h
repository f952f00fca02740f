// The accessors of fact.proto by the names that match/fact_fields.h gives kinds and fields:
// `OnWire<"in">::set(message, 5)` is `message.set_in(5)`. A name that fact.proto does not have, and
// a field that the message of a kind does not have, does not compile.
//
// Why not by reflection: it was measured at 1.6 times the cost of writing an entry and 1.25 times
// that of reading one.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>

#include "courthand/match/fact_fields.h"
#include "courthand/v1/fact.pb.h"

namespace courthand::wire {

/// A name as a template argument.
template <std::size_t length>
struct Name {
    std::array<char, length> letters{};

    constexpr Name(const char (&text)[length]) { std::copy_n(text, length, letters.begin()); }
    explicit constexpr Name(std::string_view text) {
        std::copy_n(text.begin(), text.size(), letters.begin());
    }
};

template <Name name>
struct OnWire;  // without a body: no field of fact.proto has this name

// NOLINTBEGIN(cppcoreguidelines-macro-usage): only the preprocessor can make up a function's name
#define COURTHAND_ON_WIRE(name)                             \
    template <>                                             \
    struct OnWire<#name> {                                  \
        template <class Message>                            \
        static bool has(const Message& message) {           \
            return message.has_##name();                    \
        }                                                   \
        template <class Message>                            \
        static decltype(auto) get(const Message& message) { \
            return message.name();                          \
        }                                                   \
        template <class Message, class Value>               \
        static void set(Message& message, Value&& value) {  \
            message.set_##name(std::forward<Value>(value)); \
        }                                                   \
        template <class Message>                            \
        static auto& part(Message& message) {               \
            return *message.mutable_##name();               \
        }                                                   \
    };

#include "wire/fact_names.inc"  // one line for each name of a field in fact.proto

#undef COURTHAND_ON_WIRE
// NOLINTEND(cppcoreguidelines-macro-usage)

/// The accessors of a kind in `v1::Fact`, and of one of its fields in the message of the kind.
template <RegularKind Kind>
using KindOnWire = OnWire<Name<described<Kind>.name.size() + 1>{described<Kind>.name}>;

template <RegularKind Kind, std::size_t place>
inline constexpr std::string_view field_name = std::get<place>(described<Kind>.fields).name;

template <RegularKind Kind, std::size_t place>
using FieldOnWire = OnWire<Name<field_name<Kind, place>.size() + 1>{field_name<Kind, place>}>;

/// A choice has the number of its value plus one on the wire, where 0 says nothing.
inline constexpr int first_choice = 1;

}  // namespace courthand::wire
