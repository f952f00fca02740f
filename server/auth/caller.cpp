#include "server/auth/caller.h"

#include <array>
#include <charconv>

namespace courthand::server::auth {

namespace {

struct SeatWord {
    Seat seat;
    std::string_view word;
};
constexpr std::array<SeatWord, 3> seat_words{
    {{Seat::table, "table"}, {Seat::desk, "desk"}, {Seat::head, "head"}}};

constexpr std::string_view scheme = "courthand:device/";
constexpr std::string_view seat_part = "?seat=";
constexpr std::string_view court_part = "&court=";

// The text before `mark`, which is removed from `rest` together with the mark.
std::optional<std::string_view> take_until(std::string_view& rest, std::string_view mark) {
    const std::size_t at = rest.find(mark);
    if (at == std::string_view::npos) return std::nullopt;
    const std::string_view taken = rest.substr(0, at);
    rest.remove_prefix(at + mark.size());
    return taken;
}

}  // namespace

std::string_view word(Seat seat) noexcept {
    for (const SeatWord& row : seat_words)
        if (row.seat == seat) return row.word;
    return "unknown";
}

std::optional<Seat> seat_of(std::string_view text) noexcept {
    for (const SeatWord& row : seat_words)
        if (row.word == text) return row.seat;
    return std::nullopt;
}

std::string uri_of(const Caller& caller) {
    return std::string{scheme} + to_text(caller.device) + std::string{seat_part} +
           std::string{word(caller.seat)} + std::string{court_part} + std::to_string(caller.court);
}

std::optional<Caller> caller_of_uri(std::string_view uri) {
    if (uri.substr(0, scheme.size()) != scheme) return std::nullopt;
    uri.remove_prefix(scheme.size());
    const auto id = take_until(uri, seat_part);
    const auto seat_word = id ? take_until(uri, court_part) : std::nullopt;
    if (!seat_word) return std::nullopt;

    const auto device = uuid_from_text(*id);
    const auto seat = seat_of(*seat_word);
    CourtNumber court = 0;
    const auto [end, error] = std::from_chars(uri.data(), uri.data() + uri.size(), court);
    const bool whole = error == std::errc{} && end == uri.data() + uri.size();
    if (!device || !seat || !whole || court > most_courts) return std::nullopt;
    return Caller{DeviceId{*device}, *seat, court};
}

}  // namespace courthand::server::auth
