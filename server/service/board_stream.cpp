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
    std::shared_ptr<BoardStream> stream{new BoardStream{parts, request, device}};
    BoardStream* const raw = stream.get();
    raw->begin(std::move(stream), context);
    return raw;
}

BoardStream::BoardStream(const VenueParts& parts, const v1::WatchBoardRequest& request,
                         std::optional<DeviceSeen> device)
    : parts_{parts},
      courts_{request.courts().begin(), request.courts().end()},
      device_{device},
      sent_{parts.venue.board().version_of(request.cursor())},
      last_write_{std::chrono::steady_clock::now()} {}

// Nothing is registered under the lock: registries call back under locks of their own.
void BoardStream::begin(std::shared_ptr<BoardStream> self, grpc::CallbackServerContext& context) {
    {
        const std::scoped_lock lock{mutex_};
        self_ = std::move(self);
    }
    const auto added = parts_.streams.add(
        {device_of(device_), context.peer()}, [this](const grpc::Status& why) { end(why); },
        [&context] { context.TryCancel(); });
    registry_token_ = added.token;
    if (registry_token_ == 0) return end(added.refusal);
    board_token_ = parts_.venue.board().listen([this] { changed(); });
    hub_token_ = parts_.hub.subscribe(
        [this](Hub::Wake why) {
            if (why == Hub::Wake::tick) tick();
        },
        Hub::Nothing{});
    changed();
}

void BoardStream::changed() {
    const std::scoped_lock lock{mutex_};
    if (!writing_ && !finished_ && !end_) write_news();
}

void BoardStream::tick() {
    const std::scoped_lock lock{mutex_};
    if (device_) {
        device_->at = std::chrono::system_clock::now();
        parts_.presence.seen(*device_);
    }
    if (writing_ || finished_ || end_) return;
    write_news();
    const auto idle = std::chrono::steady_clock::now() - last_write_;
    if (!writing_ && idle >= sign_of_life_every) {
        venue::BoardNews nothing;
        nothing.version = sent_.value_or(0);
        take(std::move(nothing));
    }
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
    writing_ = true;
    last_write_ = std::chrono::steady_clock::now();
    StartWrite(&response_);
}

void BoardStream::OnWriteDone(bool ok) {
    const std::scoped_lock lock{mutex_};
    writing_ = false;
    if (finished_) return;
    if (!ok) return finish({grpc::StatusCode::CANCELLED, "the device has gone"});
    if (end_) return finish(*end_);
    if (!pieces_.empty()) return write_piece();
    write_news();
}

void BoardStream::OnCancel() {
    end({grpc::StatusCode::CANCELLED, "cancelled by the device"});
}

void BoardStream::end(grpc::Status status) {
    const std::scoped_lock lock{mutex_};
    if (finished_ || end_) return;
    end_ = std::move(status);
    if (!writing_) finish(*end_);
}

void BoardStream::finish(grpc::Status status) {
    finished_ = true;
    Finish(std::move(status));
}

void BoardStream::OnDone() {
    if (hub_token_ != 0) parts_.hub.unsubscribe(hub_token_);
    if (board_token_ != 0) parts_.venue.board().stop_listening(board_token_);
    if (registry_token_ != 0) parts_.streams.remove(registry_token_);
    std::shared_ptr<BoardStream> self;
    const std::scoped_lock lock{mutex_};
    self.swap(self_);
}

}  // namespace courthand::server::service
