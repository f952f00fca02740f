// The record of the tournament as a head seat sees it.
#pragma once

#include <filesystem>
#include <memory>
#include <mutex>
#include <variant>

#include "client/app/enrolled_seat.h"
#include "venue/event_client.h"

namespace courthand::client {

class Onlooker {
  public:
    explicit Onlooker(const std::filesystem::path& folder) {
        SeatOptions options;
        options.seat = Seat::head;
        options.folder = folder;
        const auto seat = enrolled_seat(options);
        client_ = std::make_unique<venue::EventClient>(open_channel(std::get<EnrolledSeat>(seat)),
                                                       "head");
        client_->start({[this](const venue::EventBook& book) {
                            const std::scoped_lock lock{mutex_};
                            state_ = book.state;
                        },
                        {}});
    }
    ~Onlooker() { client_->stop(); }
    [[nodiscard]] std::shared_ptr<const event::TournamentState> state() {
        const std::scoped_lock lock{mutex_};
        return state_;
    }

  private:
    std::mutex mutex_;
    std::shared_ptr<const event::TournamentState> state_ =
        std::make_shared<const event::TournamentState>();
    std::unique_ptr<venue::EventClient> client_;
};

}  // namespace courthand::client
