// The two teams of one match. A is the team the toss names A; it stays A for the whole match,
// whichever side of the net it plays on.
#pragma once

#include <cstddef>
#include <cstdint>

namespace courthand {

enum class Team : std::uint8_t { A, B };

[[nodiscard]] constexpr Team opponent(Team team) noexcept {
    return team == Team::A ? Team::B : Team::A;
}

[[nodiscard]] constexpr std::size_t index(Team team) noexcept {
    return static_cast<std::size_t>(team);
}

/// One value for each team, addressed by team and never by a bare number.
template <class T>
struct PerTeam {
    T a{};
    T b{};

    [[nodiscard]] constexpr T& operator[](Team team) noexcept { return team == Team::A ? a : b; }
    [[nodiscard]] constexpr const T& operator[](Team team) const noexcept {
        return team == Team::A ? a : b;
    }
    friend constexpr bool operator==(const PerTeam&, const PerTeam&) = default;
};

}  // namespace courthand
