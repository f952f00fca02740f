#include "server/publish/publisher.h"

#include <utility>

#include "server/publish/match_rows.h"

namespace courthand::server::publish {

Publisher::Publisher(const Sources& sources, Ways ways, Report report)
    : record_{sources.record},
      board_{sources.board},
      ways_{std::move(ways)},
      report_{std::move(report)} {
    hall_.tournament = to_text(sources.tournament);
    // Whoever asks first is served a page.
    (void)look();
    record_listener_ = record_.listen([this] { thread_.wake(); });
    board_listener_ = board_.listen([this] { thread_.wake(); });
    thread_.start();
}

Publisher::~Publisher() {
    record_.stop_listening(record_listener_);
    board_.stop_listening(board_listener_);
    thread_.stop();
}

const HallView& Publisher::hall() {
    const tournament::KnownRecord known = record_.known();
    if (known.version != hall_.version || !hall_.event) {
        hall_.event = known.state;
        hall_.version = known.version;
        hall_.order = in_order(*known.state);
        for (const event::MatchRef ref : hall_.order)
            if (const auto& place = known.state->match(ref).placement)
                hall_.placed.try_emplace(place->fact, std::chrono::system_clock::now());
    }
    venue::BoardNews news = board_.news(board_seen_);
    if (news.snapshot) courts_.clear();
    for (const std::uint32_t court : news.removed_courts) courts_.erase(court);
    for (const v1::CourtCard& card : news.cards)
        courts_.insert_or_assign(card.court(), court_now(card));
    board_seen_ = news.version;
    hall_.courts.clear();
    for (const auto& [court, now] : courts_) hall_.courts.push_back(now);
    return hall_;
}

bool Publisher::look() {
    beat_when_due();
    const SiteMaker::Made made = maker_.make(hall());
    if (ways_.door) ways_.door->show(made);
    if (ways_.folder) write(*made.files);
    return true;
}

void Publisher::beat_when_due() {
    const auto now = Clock::now();
    if (now >= beat_at_) {
        if (ways_.door) ways_.door->beat();
        beat_at_ = now + beat;
    }
    thread_.look_again_in(std::chrono::ceil<std::chrono::milliseconds>(beat_at_ - now));
}

void Publisher::write(const Files& files) {
    const Status status = ways_.folder->write(files);
    if (status.code != written_) report_(status);
    written_ = status.code;
    if (!status.ok()) thread_.look_again_in(tries_again);
}

}  // namespace courthand::server::publish
