#include "server/publish/hall_view.h"

#include <fmt/format.h>

namespace courthand::server::publish {
namespace {

CourtNow::Serving serving(const v1::CourtCard& card) {
    if (card.serving() == v1::TEAM_LETTER_A) return CourtNow::Serving::first;
    if (card.serving() == v1::TEAM_LETTER_B) return CourtNow::Serving::second;
    return CourtNow::Serving::nobody;
}

Points points(const v1::Score& score) {
    return {score.a(), score.b()};
}

}  // namespace

CourtNow court_now(const v1::CourtCard& card) {
    CourtNow now;
    now.court = card.court();
    if (card.match_id().empty()) return now;
    now.match = card.match_name().empty() ? fmt::format("match {}", card.match_number())
                                          : card.match_name();
    now.first = card.a().name();
    now.second = card.b().name();
    now.stage = card.stage_words();
    now.set = card.set();
    now.sets = {card.a().sets_won(), card.b().sets_won()};
    now.score = points(card.score());
    for (const v1::Score& set : card.finished_sets()) now.finished.push_back(points(set));
    now.over = card.winner() != v1::TEAM_LETTER_UNSPECIFIED;
    if (!now.over) now.serving = serving(card);
    return now;
}

}  // namespace courthand::server::publish
