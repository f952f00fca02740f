// The board: one card per court and every alert, with a version for each, so that a watcher can be
// given exactly what changed since it last looked. Thread-safe; holds no more than the venue has.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/v1/venue.pb.h"
#include "server/domain/ids.h"

namespace courthand::server::venue {

/// Grows by one with every change of the board; 0 before the first.
using BoardVersion = std::uint64_t;

/// What a watcher is sent next.
struct BoardNews {
    bool snapshot = false;
    std::vector<v1::CourtCard> cards;
    std::vector<v1::Alert> alerts;
    std::vector<std::uint32_t> removed_courts;
    BoardVersion version = 0;

    [[nodiscard]] bool empty() const noexcept {
        return !snapshot && cards.empty() && alerts.empty() && removed_courts.empty();
    }
};

class Board {
  public:
    Board();

    void put(v1::CourtCard card);
    void remove_court(std::uint32_t court);
    void put(v1::Alert alert);

    /// Everything after `since`; without it, or when it is of another board, a snapshot. A
    /// snapshot holds the alerts that have not ended and the last `ended_shown` that have.
    [[nodiscard]] BoardNews news(std::optional<BoardVersion> since) const;
    [[nodiscard]] std::optional<v1::CourtCard> card(std::uint32_t court) const;
    [[nodiscard]] std::optional<v1::Alert> alert(const std::string& id) const;

    /// Cursors are worthless after a restart: they name the board they are of.
    [[nodiscard]] std::string cursor(BoardVersion version) const;
    [[nodiscard]] std::optional<BoardVersion> version_of(std::string_view cursor) const;

    /// `changed` is called after every change, from the changing thread; it must not block. The
    /// number stops it.
    std::uint64_t listen(std::function<void()> changed);
    void stop_listening(std::uint64_t number);

    static constexpr std::size_t ended_shown = 50;

  private:
    template <class Message>
    struct Versioned {
        Message message;
        BoardVersion version = 0;
    };
    void tell();

    mutable std::mutex mutex_;
    Uuid id_;
    BoardVersion version_ = 0;
    std::map<std::uint32_t, Versioned<v1::CourtCard>> cards_;
    std::map<std::uint32_t, BoardVersion> removed_;
    std::map<std::string, Versioned<v1::Alert>> alerts_;

    std::mutex listeners_mutex_;
    std::uint64_t next_listener_ = 1;
    std::map<std::uint64_t, std::function<void()>> listeners_;
};

[[nodiscard]] bool ended(const v1::Alert& alert);

}  // namespace courthand::server::venue
