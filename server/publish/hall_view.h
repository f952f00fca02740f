// What the pages are made of: the record of the event, and what is on each court at this moment.
// Numbers and teams only; nothing here can hold the name of a person.
#pragma once

#include <chrono>
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "courthand/event/state.h"
#include "courthand/v1/venue.pb.h"

namespace courthand::server::publish {

struct Points {
    std::uint32_t first = 0;
    std::uint32_t second = 0;
    friend bool operator==(Points, Points) = default;
};

/// One court as its table tells it; first and second as the record of the match has its teams.
struct CourtNow {
    std::uint32_t court = 0;
    std::string match;  ///< its name in the event's record, else "match 12"; empty: none
    std::string first;  ///< name of a team
    std::string second;
    std::string stage;      ///< in words: "set in play"
    std::uint32_t set = 0;  ///< 0: not begun
    Points sets;
    Points score;                  ///< of the present set
    std::vector<Points> finished;  ///< sets, in order
    enum class Serving : std::uint8_t { nobody, first, second } serving = Serving::nobody;
    bool over = false;
    friend bool operator==(const CourtNow&, const CourtNow&) = default;
};

[[nodiscard]] CourtNow court_now(const v1::CourtCard& card);

struct HallView {
    std::shared_ptr<const event::TournamentState> event;
    std::uint64_t version = 0;  ///< of the record; the same number: the same state
    /// All its matches in the order in which they are played (match_rows.h).
    std::vector<event::MatchRef> order;
    /// When the place of a match was first known here, by the fact that gave it.
    std::map<event::FactNumber, std::chrono::system_clock::time_point> placed;
    std::string tournament;        ///< its id as text, which no other event has
    std::vector<CourtNow> courts;  ///< by number
};

}  // namespace courthand::server::publish
