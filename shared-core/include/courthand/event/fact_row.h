// What a row of event/fact_fields.h is made of: fields by their names, each with its bounds.
#pragma once

#include <cstddef>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>

#include "courthand/event/bounds.h"

namespace courthand::event {

template <class Kind, class Member>
struct Field {
    using Value = Member;

    std::string_view name;
    Member Kind::*member = nullptr;
    Bounds<Member> bounds{};
};

template <class Kind, class Value>
[[nodiscard]] constexpr Field<Kind, Value> field(std::string_view name, Value Kind::*member,
                                                 std::type_identity_t<Bounds<Value>> bounds = {}) {
    return {name, member, bounds};
}

template <class... Fields>
struct Row {
    std::string_view name;  ///< of the kind, as in `TournamentFact` of tournament.proto
    std::tuple<Fields...> fields;
};

namespace detail {

/// Turns into a member of any type, where nothing is evaluated.
struct Anything {
    template <class Member>
    operator Member() const;  // NOLINT(google-explicit-constructor)
};
template <class Kind, std::size_t... place>
[[nodiscard]] constexpr bool takes(std::index_sequence<place...>) {
    return requires {
        Kind{(static_cast<void>(place), Anything{})...};
    };
}
/// Members of an aggregate.
template <class Kind, std::size_t most = 20>
[[nodiscard]] constexpr std::size_t members() {
    if constexpr (takes<Kind>(std::make_index_sequence<most>{}))
        return most;
    else
        return members<Kind, most - 1>();
}

}  // namespace detail

template <class Kind, class... Values>
[[nodiscard]] constexpr auto row(std::string_view name, Field<Kind, Values>... fields) {
    static_assert(detail::members<Kind>() == sizeof...(Values),
                  "a field of this kind has no name in its row");
    return Row<Field<Kind, Values>...>{name, {fields...}};
}

}  // namespace courthand::event
