#include "server/service/board_stream.h"

namespace courthand::server::service {

namespace {

DeviceId device_of(const std::optional<DeviceSeen>& seen) {
    return seen ? seen->device : DeviceId{};
}

}  // namespace

BoardStream* BoardStream::make(const VenueParts& parts, const v1::WatchBoardRequest& request,
                               std::optional<DeviceSeen> device,
                               grpc::CallbackServerContext& context) {
    const std::shared_ptr<BoardStream> stream{new BoardStream{parts, request, device}};
    if (stream->enter(stream, {device_of(device), context.peer()}, context)) stream->listen();
    return stream.get();
}

BoardStream::BoardStream(const VenueParts& parts, const v1::WatchBoardRequest& request,
                         std::optional<DeviceSeen> device)
    : ServerStream{parts.streams},
      parts_{parts},
      courts_{request.courts().begin(), request.courts().end()},
      device_{device},
      sent_{parts.venue.board().version_of(request.cursor())},
      last_write_{std::chrono::steady_clock::now()} {}

void BoardStream::listen() {
    board_token_ = parts_.venue.board().listen([this] { changed(); });
    hub_token_ = parts_.hub.subscribe(
        [this](Hub::Wake why) {
            if (why == Hub::Wake::tick) tick();
        },
        Hub::Nothing{});
    changed();
}

void BoardStream::stop_listening() {
    if (hub_token_ != 0) parts_.hub.unsubscribe(hub_token_);
    if (board_token_ != 0) parts_.venue.board().stop_listening(board_token_);
}

void BoardStream::changed() {
    const std::scoped_lock lock{mutex()};
    if (idle()) write_news();
}

void BoardStream::tick() {
    const std::scoped_lock lock{mutex()};
    if (device_) {
        device_->at = std::chrono::system_clock::now();
        parts_.presence.seen(*device_);
    }
    if (idle()) write_news();
    const auto since = std::chrono::steady_clock::now() - last_write_;
    if (idle() && since >= sign_of_life_every) {
        venue::BoardNews nothing;
        nothing.version = sent_.value_or(0);
        take(std::move(nothing));
    }
}

void BoardStream::go_on() {
    if (!pieces_.empty()) return write_piece();
    write_news();
}

void BoardStream::write_news() {
    venue::BoardNews news = parts_.venue.board().news(sent_);
    if (!news.empty()) take(std::move(news));
}

void BoardStream::take(venue::BoardNews news) {
    const venue::Board& board = parts_.venue.board();
    const venue::BoardVersion version = news.version;
    pieces_ =
        venue::pieces_of(std::move(news), courts_,
                         {sent_ ? board.cursor(*sent_) : std::string{}, board.cursor(version)});
    sent_ = version;
    write_piece();
}

void BoardStream::write_piece() {
    response_ = std::move(pieces_.front());
    pieces_.pop_front();
    parts_.stamp.fill(*response_.mutable_header());
    last_write_ = std::chrono::steady_clock::now();
    write(response_);
}

}  // namespace courthand::server::service
