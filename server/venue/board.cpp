#include "server/venue/board.h"

#include <utility>

namespace courthand::server::venue {

namespace {

// Sixteen bytes of the board's id and eight of the version, most significant first.
constexpr std::size_t cursor_size = 24;

}  // namespace

bool ended(const v1::Alert& alert) {
    return alert.state() == v1::ALERT_STATE_RULED || alert.state() == v1::ALERT_STATE_CLEARED;
}

Board::Board() : id_{new_uuid()} {}

BoardVersion Board::move(BoardVersion before, Place place) {
    if (before != 0) changes_.erase(before);
    changes_.emplace(++version_, std::move(place));
    return version_;
}

void Board::put(v1::CourtCard card) {
    const std::scoped_lock lock{mutex_};
    std::string bytes = card.SerializeAsString();
    const std::uint32_t court = card.court();
    Versioned<v1::CourtCard>& place = cards_[court];
    if (place.version != 0 && place.bytes == bytes) return;
    if (const auto removed = removed_.find(court); removed != removed_.end()) {
        changes_.erase(removed->second);
        removed_.erase(removed);
    }
    place = {std::move(card), std::move(bytes), move(place.version, court)};
}

void Board::remove_court(std::uint32_t court) {
    const std::scoped_lock lock{mutex_};
    const auto found = cards_.find(court);
    if (found == cards_.end()) return;
    removed_[court] = move(found->second.version, Removed{court});
    cards_.erase(found);
}

void Board::put(v1::Alert alert) {
    const std::scoped_lock lock{mutex_};
    std::string bytes = alert.SerializeAsString();
    const std::string id = alert.alert_id();
    Versioned<v1::Alert>& place = alerts_[id];
    if (place.version != 0 && place.bytes == bytes) return;
    ended_.erase(place.version);
    place = {std::move(alert), std::move(bytes), move(place.version, id)};
    if (ended(place.message)) ended_.emplace(place.version, id);
    forget_ended();
}

void Board::forget_ended() {
    while (ended_.size() > most_ended) {
        const auto oldest = ended_.begin();
        forgotten_ = oldest->first;
        changes_.erase(oldest->first);
        alerts_.erase(oldest->second);
        ended_.erase(oldest);
    }
}

BoardNews Board::snapshot() const {
    BoardNews out;
    out.snapshot = true;
    out.version = version_;
    for (const auto& [court, card] : cards_) out.cards.push_back(card.message);
    for (const auto& [id, alert] : alerts_)
        if (!ended(alert.message)) out.alerts.push_back(alert.message);
    std::size_t shown = 0;
    for (auto last = ended_.rbegin(); last != ended_.rend() && shown < ended_shown; ++last, ++shown)
        out.alerts.push_back(alerts_.at(last->second).message);
    return out;
}

BoardNews Board::news(std::optional<BoardVersion> since) const {
    const std::scoped_lock lock{mutex_};
    if (!since || *since > version_ || *since < forgotten_) return snapshot();
    BoardNews out;
    out.version = version_;
    for (auto change = changes_.upper_bound(*since); change != changes_.end(); ++change) {
        const Place& place = change->second;
        if (const auto* court = std::get_if<std::uint32_t>(&place))
            out.cards.push_back(cards_.at(*court).message);
        else if (const auto* id = std::get_if<std::string>(&place))
            out.alerts.push_back(alerts_.at(*id).message);
        else
            out.removed_courts.push_back(std::get<Removed>(place).court);
    }
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
    BoardVersion now = 0;
    {
        const std::scoped_lock board{mutex_};
        now = version_;
    }
    if (now == told_) return;
    told_ = now;
    for (const auto& [number, listener] : listeners_) listener();
}

}  // namespace courthand::server::venue
