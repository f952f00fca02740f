// A hall to publish: a small cup with a plan, and what its tables say.
#pragma once

#include <string>
#include <utility>

#include "server/publish/match_rows.h"
#include "server/publish/site.h"
#include "tests/unit/event/event_of.h"

namespace courthand::server::publish::testing {

/// Two pools of three on two courts, the first match of pool A played.
inline std::string planned_cup() {
    return event::testing::small_cup() +
           "court 1\ncourt 2\n"
           "place A1 court 1 at 2026-11-28T09:00 timing fixed\n"
           "place A2 court 1 at 2026-11-28T09:40 timing follows\n"
           "place B1 court 2 at 2026-11-28T09:00 timing fixed\n"
           "result A1 paper 25-20 25-22\n";
}

inline HallView hall_of(const std::string& script, std::uint64_t version = 1) {
    HallView hall;
    hall.event = std::make_shared<const event::TournamentState>(event::testing::state_of(script));
    hall.version = version;
    hall.tournament = "one";
    hall.order = in_order(*hall.event);
    for (const auto& [number, court] : hall.event->courts) {
        CourtNow now;
        now.court = number;
        hall.courts.push_back(std::move(now));
    }
    return hall;
}

/// Set 1 of a match on a court, at this score.
inline CourtNow playing(std::uint32_t court, std::uint32_t first, std::uint32_t second) {
    CourtNow now;
    now.court = court;
    now.match = "B1";
    now.first = "Mill Lane";
    now.second = "Quayside";
    now.stage = "in play";
    now.set = 1;
    now.score = {first, second};
    return now;
}

inline std::string text_at(const SiteMaker::Made& made, const std::string& path) {
    const auto file = made.files->find(path);
    return file == made.files->end() ? "there is no " + path : file->second->bytes;
}

/// What stands as the heading of a page.
inline std::string title_of(const std::string& html) {
    const std::size_t begin = html.find("<h1>") + 4;
    return html.substr(begin, html.find("</h1>", begin) - begin);
}

}  // namespace courthand::server::publish::testing
