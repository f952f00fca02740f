#include "server/service/record_stream.h"

namespace courthand::server::service {

RecordStream* RecordStream::make(const VenueParts& parts, RecordWish wish, const auth::Caller& who,
                                 grpc::CallbackServerContext& context) {
    const std::shared_ptr<RecordStream> stream{new RecordStream{parts, wish, who}};
    if (stream->enter(stream, {who.device, context.peer()}, context)) stream->listen();
    return stream.get();
}

RecordStream::RecordStream(const VenueParts& parts, RecordWish wish, const auth::Caller& who)
    : StoreStream{parts.streams, parts.work, "watch of the record"},
      parts_{parts},
      who_{who},
      session_{wish, {parts.tournament, parts.record, parts.facts}},
      last_write_{std::chrono::steady_clock::now()} {}

void RecordStream::listen() {
    record_token_ = parts_.record.listen([this] { changed(); });
    hub_token_ = parts_.hub.subscribe(
        [this](Hub::Wake why) {
            if (why == Hub::Wake::tick) tick();
        },
        Hub::Nothing{});
    changed();
}

void RecordStream::stop_listening() {
    if (hub_token_ != 0) parts_.hub.unsubscribe(hub_token_);
    if (record_token_ != 0) parts_.record.stop_listening(record_token_);
}

void RecordStream::changed() {
    const std::scoped_lock lock{mutex()};
    // What is under way asks for news when it is done.
    if (idle()) pump();
}

void RecordStream::tick() {
    const std::scoped_lock lock{mutex()};
    if (finished()) return;
    parts_.presence.seen(
        {parts_.tournament, who_.device, who_.court, std::chrono::system_clock::now()});
    const auto since = std::chrono::steady_clock::now() - last_write_;
    if (!idle() || since < sign_of_life_every) return;
    response_ = session_.sign_of_life();
    write_response();
}

void RecordStream::advance() {
    switch (session_.next(response_)) {
        case RecordSession::Next::message:
            return write_response();
        case RecordSession::Next::wait:
            return;
        case RecordSession::Next::read_store:
            return read_store([this] { return session_.read_store(); });
    }
}

void RecordStream::write_response() {
    last_write_ = std::chrono::steady_clock::now();
    if (response_.has_header()) parts_.stamp.fill(*response_.mutable_header());
    write(response_);
}

}  // namespace courthand::server::service
