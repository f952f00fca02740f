#include "server/publish/calendar.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "courthand/event/duty.h"
#include "server/papers/match_words.h"
#include "server/publish/match_rows.h"
#include "server/tournament/hall_clock.h"

namespace courthand::server::publish {
namespace {

using event::MatchRef;
using event::TournamentState;

/// Bytes of a line without its end (RFC 5545, section 3.1).
constexpr std::size_t most_line = 75;

/// A line, folded between characters of UTF-8.
std::string folded(std::string_view line) {
    std::string text;
    std::size_t room = most_line;
    while (line.size() > room) {
        std::size_t cut = room;
        while (cut > 0 && (static_cast<unsigned char>(line[cut]) & 0xC0U) == 0x80U) --cut;
        text.append(line.substr(0, cut)).append("\r\n ");
        line.remove_prefix(cut);
        room = most_line - 1;  // the space that begins the next one
    }
    return text.append(line).append("\r\n");
}

/// A value of type TEXT (section 3.3.11).
std::string text_value(std::string_view text) {
    std::string safe;
    for (const char c : text) {
        if (c == '\\' || c == ';' || c == ',') safe += '\\';
        if (c == '\n')
            safe += "\\n";
        else if (c != '\r')
            safe += c;
    }
    return safe;
}

std::string utc(std::chrono::system_clock::time_point moment) {
    return fmt::format("{:%Y%m%dT%H%M%SZ}",
                       fmt::gmtime(std::chrono::system_clock::to_time_t(moment)));
}

std::int32_t minutes_of(const TournamentState& state, MatchRef ref) {
    const auto told = state.divisions[ref.division].rules.match_minutes;
    return told != 0 ? std::int32_t{told} : usual_minutes;
}

/// The clock of all times here. A calendar must have a component also when no match has a time yet.
std::string clock_lines() {
    return folded("BEGIN:VTIMEZONE") + folded("TZID:UTC") + folded("BEGIN:STANDARD") +
           folded("DTSTART:19700101T000000") + folded("TZOFFSETFROM:+0000") +
           folded("TZOFFSETTO:+0000") + folded("END:STANDARD") + folded("END:VTIMEZONE");
}

std::string event_lines(const HallView& hall, const tournament::HallClock& clock, MatchRef ref) {
    const TournamentState& state = *hall.event;
    const event::Placement& place = *state.match(ref).placement;
    const std::string name = state.node(ref).name;
    const std::string division = papers::division_words(state.divisions[ref.division]);
    std::string lines = folded("BEGIN:VEVENT");
    lines += folded(fmt::format("UID:{}@{}.invalid", match_id(ref), hall.tournament));
    lines += folded(fmt::format("SEQUENCE:{}", place.fact));
    const auto known = hall.placed.find(place.fact);
    lines += folded("DTSTAMP:" + utc(known == hall.placed.end() ? ServerTime{} : known->second));
    lines += folded("DTSTART:" + utc(clock.moment(place.at)));
    lines += folded(fmt::format("DURATION:PT{}M", minutes_of(state, ref)));
    lines += folded("SUMMARY:" +
                    text_value(fmt::format("{}: {} - {}", name, papers::side_words(state, ref, 0),
                                           papers::side_words(state, ref, 1))));
    lines += folded("LOCATION:" + text_value(fmt::format("Court {}", place.court)));
    lines += folded("DESCRIPTION:" + text_value(division));
    return lines + folded("END:VEVENT");
}

}  // namespace

std::string calendar(const HallView& hall, const std::string& name,
                     const std::vector<MatchRef>& matches) {
    const tournament::HallClock clock{*hall.event};
    std::string text = folded("BEGIN:VCALENDAR") + folded("VERSION:2.0") +
                       folded("PRODID:-//Courthand//Pages for everyone//EN") +
                       folded("NAME:" + text_value(name));
    for (const MatchRef ref : matches) {
        const auto& place = hall.event->match(ref).placement;
        if (place && place->at.given()) text += event_lines(hall, clock, ref);
    }
    return text + clock_lines() + folded("END:VCALENDAR");
}

std::vector<MatchRef> matches_worked_by(const HallView& hall, std::uint16_t person) {
    std::vector<MatchRef> found;
    for (const MatchRef ref : hall.order) {
        const auto persons = event::persons_of(*hall.event, hall.event->match(ref).duty);
        if (std::find(persons.begin(), persons.end(), person) != persons.end())
            found.push_back(ref);
    }
    return found;
}

}  // namespace courthand::server::publish
