#include "venue/board.h"

#include <algorithm>
#include <charconv>

namespace courthand::venue {

Colour colour_of_hex(const std::string& digits) {
    constexpr std::size_t length = 6;
    constexpr int base = 16;
    Colour colour;
    if (digits.size() != length) return colour;
    const char* const end = digits.data() + digits.size();
    std::uint32_t rgb = 0;
    const auto [stopped, error] = std::from_chars(digits.data(), end, rgb, base);
    if (error == std::errc{} && stopped == end) colour.rgb = rgb;
    return colour;
}

bool CourtOnBoard::serves(Team team) const noexcept {
    return serving == team && stage != CourtStage::set_over && stage != CourtStage::match_over;
}

const CourtOnBoard* Board::court(CourtNumber number) const noexcept {
    const auto found = std::find_if(courts.begin(), courts.end(),
                                    [number](const auto& each) { return each.court == number; });
    return found == courts.end() ? nullptr : &*found;
}

const Alert* Board::alert(const std::string& id) const noexcept {
    const auto found =
        std::find_if(alerts.begin(), alerts.end(), [&](const auto& each) { return each.id == id; });
    return found == alerts.end() ? nullptr : &*found;
}

bool Board::left_behind(const Alert& alert) const noexcept {
    if (alert.match_id.empty()) return false;
    const CourtOnBoard* const now = court(alert.court);
    return now != nullptr && now->match_id != alert.match_id;
}

}  // namespace courthand::venue
