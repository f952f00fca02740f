#include "tests/bench/load_board.h"

#include "tests/bench/secure_channel.h"

namespace courthand::bench {

LoadBoard::LoadBoard(LoadVenue& venue, const server::testing::EnrolledDevice& device)
    : venue_{venue}, stub_{v1::Venue::NewStub(secure_channel(venue.address, device))} {}

void LoadBoard::start() {
    const std::scoped_lock lock{mutex_};
    open();
}

void LoadBoard::stop() {
    std::unique_lock lock{mutex_};
    stopping_ = true;
    if (watch_ != nullptr) watch_->cancel();
    ended_.wait(lock, [this] { return watch_ == nullptr; });
}

std::size_t LoadBoard::courts() const {
    const std::scoped_lock lock{mutex_};
    return seen_.size();
}

Distribution LoadBoard::shown() const {
    const std::scoped_lock lock{mutex_};
    return shown_;
}

void LoadBoard::open() {
    const auto step = [this](const v1::WatchBoardResponse& response) {
        const auto now = Sightings::Clock::now();
        const std::scoped_lock lock{mutex_};
        for (const v1::CourtCard& card : response.cards()) see(card, now);
    };
    const auto ended = [this](const grpc::Status& status) {
        const std::scoped_lock lock{mutex_};
        watch_ = nullptr;
        ended_.notify_all();
        if (stopping_) return;
        venue_.faults.add("board ended: " + status.error_message());
        venue_.timetable.after(try_again_after, [this] {
            const std::scoped_lock again{mutex_};
            if (!stopping_) open();
        });
    };
    watch_ = new Watch{
        v1::WatchBoardRequest{}, {step, ended}, [this](auto* context, auto* what, auto* reader) {
            stub_->async()->WatchBoard(context, what, reader);
        }};
}

void LoadBoard::see(const v1::CourtCard& card, Sightings::Clock::time_point now) {
    Seen& seen = seen_[card.court()];
    if (seen.match_id != card.match_id()) seen = {card.match_id(), 0};
    for (; seen.seq < card.head_seq(); ++seen.seq)
        if (const auto made = venue_.sightings.made_at(card.court(), card.match_id(), seen.seq + 1))
            shown_.add(now - *made);
}

}  // namespace courthand::bench
