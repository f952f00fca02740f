// At least one example of every kind of fact, and of every choice inside a kind.
#pragma once

#include <type_traits>
#include <utility>
#include <vector>

#include "courthand/match/fact_fields.h"
#include "courthand/rules/reason.h"

namespace courthand::wire::kit {

inline Jersey n(int number) {
    return Jersey{static_cast<std::uint8_t>(number)};
}

inline LineUp full_sheet(Team team) {
    LineUp sheet;
    sheet.team = team;
    for (std::size_t i = 0; i < players_on_court; ++i) sheet.order[i] = n(static_cast<int>(i) + 1);
    sheet.liberos = {LiberoBox{LiberoBox::Mark::number, n(0)},
                     LiberoBox{LiberoBox::Mark::none, {}}};
    sheet.captain = n(3);
    return sheet;
}

inline Roster full_roster(Team team) {
    Roster roster;
    roster.team = team;
    roster.count = most_players;
    for (std::size_t i = 0; i < most_players; ++i)
        roster.players[i] = n(Jersey::largest - static_cast<int>(i));
    roster.captain = n(Jersey::largest);
    return roster;
}

inline Substitution six_pairs(Team team) {
    Substitution request;
    request.team = team;
    request.count = most_pairs;
    for (std::size_t i = 0; i < most_pairs; ++i)
        request.pairs[i] = {n(static_cast<int>(i) + 11), n(static_cast<int>(i) + 1)};
    return request;
}

inline MatchFormat odd_format() {
    MatchFormat format;
    format.sets = 2;
    format.all_sets_played = 1;
    format.points = 21;
    format.deciding_points = 11;
    format.lead = 1;
    format.cap = 255;
    format.deciding_cap = 17;
    format.start_score = 4;
    format.switch_at = 0;
    return format;
}

inline std::vector<Team> examples(const Bounds<Team>&) {
    return {Team::A, Team::B};
}
inline std::vector<Jersey> examples(const Bounds<Jersey>& bounds) {
    std::vector<Jersey> numbers{n(0), n(12), n(Jersey::largest)};
    if (bounds.may_be_none) numbers.push_back(Jersey::none());
    return numbers;
}
inline std::vector<std::uint8_t> examples(const Bounds<std::uint8_t>& bounds) {
    return {bounds.kept(bounds.least), bounds.kept(bounds.most)};
}
template <Choice Value>
std::vector<Value> examples(const Bounds<Value>& bounds) {
    std::vector<Value> values;
    for (std::size_t i = 0; i < bounds.allowed; ++i) values.push_back(static_cast<Value>(i));
    return values;
}
inline std::vector<Reason> examples(const Bounds<Reason>&) {
    std::vector<Reason> reasons;
    for (std::size_t i = 0; i < reason_count; ++i) reasons.push_back(static_cast<Reason>(i));
    return reasons;
}
inline std::vector<LiberoBox> examples(const Bounds<LiberoBox>&) {
    using Mark = LiberoBox::Mark;
    return {{Mark::blank, {}}, {Mark::none, {}}, {Mark::number, n(22)}};
}
inline std::vector<Score> examples(const Bounds<Score>&) {
    return {{0, 0}, {255, 24}};
}
inline std::vector<MatchFormat> examples(const Bounds<MatchFormat>&) {
    return {MatchFormat{}, odd_format()};
}

/// Every mixture of the examples of its fields.
template <RegularKind Kind>
std::vector<Fact> examples_of() {
    std::vector<Kind> all(1);
    for_each_field<Kind>([&](const auto& field, std::size_t) {
        std::vector<Kind> mixed;
        for (const Kind& begun : all)
            for (const auto& value : examples(field.bounds)) {
                mixed.push_back(begun);
                mixed.back().*field.member = value;
            }
        all = std::move(mixed);
    });
    return {all.begin(), all.end()};
}

template <class Kind>
using As = std::type_identity<Kind>;

inline std::vector<Fact> by_hand(As<Roster>, Team team) {
    return {Roster{team, 0, {}, {}}, full_roster(team)};
}
inline std::vector<Fact> by_hand(As<LineUp>, Team team) {
    return {LineUp{team, {}, {}, {}}, full_sheet(team)};
}
inline std::vector<Fact> by_hand(As<Serve>, Team team) {
    return {Serve{team, {}}, Serve{team, n(0)}};
}
inline std::vector<Fact> by_hand(As<Substitution>, Team team) {
    Substitution one_pair{team, 1, {}};
    one_pair.pairs[0] = {n(0), n(99)};
    return {one_pair, six_pairs(team)};
}
inline std::vector<Fact> by_hand(As<PositionalFault>, Team team) {
    return {PositionalFault{team, {}, {}}, PositionalFault{team, n(4), {}},
            PositionalFault{team, n(4), n(5)}};
}

inline std::vector<Fact> every_fact() {
    std::vector<Fact> facts;
    const auto add = [&](const std::vector<Fact>& more) {
        facts.insert(facts.end(), more.begin(), more.end());
    };
    for_each_kind([&](auto kind) {
        using Kind = typename decltype(kind)::type;
        if constexpr (RegularKind<Kind>)
            add(examples_of<Kind>());
        else
            for (const Team team : {Team::A, Team::B}) add(by_hand(As<Kind>{}, team));
    });
    return facts;
}

}  // namespace courthand::wire::kit
