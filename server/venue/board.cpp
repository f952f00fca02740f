#include "server/venue/board.h"

#include <google/protobuf/util/message_differencer.h>

#include <algorithm>

namespace courthand::server::venue {

namespace {

using google::protobuf::util::MessageDifferencer;

// Sixteen bytes of the board's id and eight of the version, most significant first.
constexpr std::size_t cursor_size = 24;

}  // namespace

bool ended(const v1::Alert& alert) {
    return alert.state() == v1::ALERT_STATE_RULED || alert.state() == v1::ALERT_STATE_CLEARED;
}

Board::Board() : id_{new_uuid()} {}

void Board::put(v1::CourtCard card) {
    {
        const std::scoped_lock lock{mutex_};
        Versioned<v1::CourtCard>& place = cards_[card.court()];
        if (place.version != 0 && MessageDifferencer::Equals(place.message, card)) return;
        removed_.erase(card.court());
        place = {std::move(card), ++version_};
    }
    tell();
}

void Board::remove_court(std::uint32_t court) {
    {
        const std::scoped_lock lock{mutex_};
        if (cards_.erase(court) == 0) return;
        removed_[court] = ++version_;
    }
    tell();
}

void Board::put(v1::Alert alert) {
    {
        const std::scoped_lock lock{mutex_};
        Versioned<v1::Alert>& place = alerts_[alert.alert_id()];
        place = {std::move(alert), ++version_};
    }
    tell();
}

BoardNews Board::news(std::optional<BoardVersion> since) const {
    const std::scoped_lock lock{mutex_};
    BoardNews out;
    out.snapshot = !since || *since > version_;
    out.version = version_;
    const BoardVersion after = out.snapshot ? 0 : *since;
    for (const auto& [court, card] : cards_)
        if (card.version > after) out.cards.push_back(card.message);
    std::vector<const Versioned<v1::Alert>*> over;
    for (const auto& [id, alert] : alerts_) {
        if (alert.version <= after) continue;
        if (out.snapshot && ended(alert.message))
            over.push_back(&alert);
        else
            out.alerts.push_back(alert.message);
    }
    std::sort(over.begin(), over.end(),
              [](const auto* one, const auto* other) { return one->version > other->version; });
    for (std::size_t i = 0; i < over.size() && i < ended_shown; ++i)
        out.alerts.push_back(over[i]->message);
    if (!out.snapshot)
        for (const auto& [court, version] : removed_)
            if (version > after) out.removed_courts.push_back(court);
    return out;
}

std::optional<v1::CourtCard> Board::card(std::uint32_t court) const {
    const std::scoped_lock lock{mutex_};
    const auto found = cards_.find(court);
    return found == cards_.end() ? std::nullopt : std::optional{found->second.message};
}

std::optional<v1::Alert> Board::alert(const std::string& id) const {
    const std::scoped_lock lock{mutex_};
    const auto found = alerts_.find(id);
    return found == alerts_.end() ? std::nullopt : std::optional{found->second.message};
}

std::string Board::cursor(BoardVersion version) const {
    std::string bytes = to_bytes(id_);
    for (int shift = 56; shift >= 0; shift -= 8)
        bytes += static_cast<char>(version >> shift & 255U);
    return bytes;
}

std::optional<BoardVersion> Board::version_of(std::string_view cursor) const {
    if (cursor.size() != cursor_size || cursor.substr(0, 16) != to_bytes(id_)) return std::nullopt;
    BoardVersion version = 0;
    for (const char byte : cursor.substr(16))
        version = version << 8U | static_cast<unsigned char>(byte);
    return version;
}

std::uint64_t Board::listen(std::function<void()> changed) {
    const std::scoped_lock lock{listeners_mutex_};
    listeners_[next_listener_] = std::move(changed);
    return next_listener_++;
}

void Board::stop_listening(std::uint64_t number) {
    const std::scoped_lock lock{listeners_mutex_};
    listeners_.erase(number);
}

// Under the lock of the listeners: once `stop_listening` returns, its listener is not called.
void Board::tell() {
    const std::scoped_lock lock{listeners_mutex_};
    for (const auto& [number, listener] : listeners_) listener();
}

}  // namespace courthand::server::venue
