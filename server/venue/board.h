// The board: one card per court and every alert, with a version for each, so that a watcher can be
// given exactly what changed since it last looked, at the cost of what changed. Thread-safe; holds
// no more than the venue has, and of ended alerts the last ones.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
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

    // Changes; listeners hear of them with the next `tell`.
    void put(v1::CourtCard card);
    void remove_court(std::uint32_t court);
    void put(v1::Alert alert);
    /// Calls the listeners, once, when anything has changed since the last call.
    void tell();

    /// Everything after `since`; without it, when it is of another board, or when more has ended
    /// since than is held, a snapshot. A snapshot holds the alerts that have not ended and the last
    /// `ended_shown` that have.
    [[nodiscard]] BoardNews news(std::optional<BoardVersion> since) const;
    [[nodiscard]] std::optional<v1::CourtCard> card(std::uint32_t court) const;
    [[nodiscard]] std::optional<v1::Alert> alert(const std::string& id) const;

    /// Cursors are worthless after a restart: they name the board they are of.
    [[nodiscard]] std::string cursor(BoardVersion version) const;
    [[nodiscard]] std::optional<BoardVersion> version_of(std::string_view cursor) const;

    /// `changed` is called by `tell`, from the changing thread; it must not block. The number stops
    /// it.
    std::uint64_t listen(std::function<void()> changed);
    void stop_listening(std::uint64_t number);

    static constexpr std::size_t ended_shown = 50;
    /// Ended alerts that are held for watchers who come back after a short while.
    static constexpr std::size_t most_ended = 1000;

  private:
    template <class Message>
    struct Versioned {
        Message message;
        std::string bytes;  ///< serialized, by which a change is seen
        BoardVersion version = 0;
    };
    struct Removed {
        std::uint32_t court = 0;
    };
    /// What changed: a court's card, an alert, or a court that is gone.
    using Place = std::variant<std::uint32_t, std::string, Removed>;

    /// Gives the place the next version; `before` is the one it had, or 0.
    BoardVersion move(BoardVersion before, Place place);
    void forget_ended();
    [[nodiscard]] BoardNews snapshot() const;

    mutable std::mutex mutex_;
    Uuid id_;
    BoardVersion version_ = 0;
    std::map<std::uint32_t, Versioned<v1::CourtCard>> cards_;
    std::map<std::uint32_t, BoardVersion> removed_;
    std::map<std::string, Versioned<v1::Alert>> alerts_;
    std::map<BoardVersion, Place> changes_;      ///< the last change of each place
    std::map<BoardVersion, std::string> ended_;  ///< ended alerts, by their version
    BoardVersion forgotten_ = 0;                 ///< last version of an alert no longer held

    std::mutex listeners_mutex_;
    std::uint64_t next_listener_ = 1;
    std::map<std::uint64_t, std::function<void()>> listeners_;
    BoardVersion told_ = 0;
};

[[nodiscard]] bool ended(const v1::Alert& alert);

}  // namespace courthand::server::venue
