// Facts drawn by their description (match/fact_fields.h). A generator says how it draws a value of
// each type, and a fact of each kind that is written by hand; a new regular kind needs nothing here
// or there, and a new one by hand does not compile before each generator draws it.
#pragma once

#include <array>
#include <cstddef>
#include <type_traits>
#include <utility>
#include <variant>

#include "courthand/match/fact_fields.h"

namespace courthand::testing {

template <class Kind>
using As = std::type_identity<Kind>;

/// `Source` has `draw(Bounds<Value>)` for each type of a field, and `by_hand(As<Kind>)`.
template <class Kind, class Source>
[[nodiscard]] Fact draw_kind(Source& source) {
    if constexpr (RegularKind<Kind>) {
        Kind fact{};
        for_each_field<Kind>([&](const auto& field, std::size_t) {
            fact.*field.member = source.draw(field.bounds);
        });
        return fact;
    } else {
        return source.by_hand(As<Kind>{});
    }
}

/// A fact of the kind with this place in `Fact`, below `kind_count`.
template <class Source>
[[nodiscard]] Fact draw_fact(Source& source, std::size_t kind) {
    using Draw = Fact (*)(Source&);
    constexpr auto draws = []<std::size_t... place>(std::index_sequence<place...>) {
        return std::array<Draw, kind_count>{
            draw_kind<std::variant_alternative_t<place, Fact>, Source>...};
    }
    (std::make_index_sequence<kind_count>{});
    return draws[kind](source);
}

}  // namespace courthand::testing
