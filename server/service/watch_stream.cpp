#include "server/service/watch_stream.h"

#include <algorithm>
#include <utility>

namespace courthand::server::service {

namespace {

std::optional<MatchId> single_match(const WatchWish& wish) {
    const auto* one = std::get_if<MatchId>(&wish.watched);
    return one != nullptr ? std::optional{*one} : std::nullopt;
}

}  // namespace

WatchStream* WatchStream::make(std::shared_ptr<const SyncParts> parts, WatchWish wish,
                               const auth::Caller& who, grpc::CallbackServerContext& context) {
    const std::shared_ptr<WatchStream> stream{
        new WatchStream{std::move(parts), std::move(wish), who}};
    if (stream->enter(stream, {who.device, context.peer()}, context)) stream->listen();
    return stream.get();
}

WatchStream::WatchStream(std::shared_ptr<const SyncParts> parts, WatchWish wish,
                         const auth::Caller& who)
    : StoreStream{parts->streams, parts->work, "watch"},
      hold_{std::move(parts)},
      parts_{*hold_},
      who_{who},
      single_{single_match(wish)},
      session_{std::move(wish), {parts_.tournament, parts_.keeper, parts_.hub}},
      last_write_{std::chrono::steady_clock::now()} {}

void WatchStream::listen() {
    hub_token_ = parts_.hub.subscribe([this](Hub::Wake why) { wake(why); }, session_.interest());
    const std::scoped_lock lock{mutex()};
    if (idle()) pump();
}

void WatchStream::stop_listening() {
    if (hub_token_ != 0) parts_.hub.unsubscribe(hub_token_);
}

void WatchStream::wake(Hub::Wake why) {
    const std::scoped_lock lock{mutex()};
    if (finished()) return;
    if (why == Hub::Wake::tick)
        parts_.presence.seen(
            {parts_.tournament, who_.device, who_.court, std::chrono::system_clock::now()});
    // What is under way asks for news when it is done.
    if (!idle()) return;
    // A tick alone brings nothing new: a watch whose matches are quiet costs nothing.
    const bool bookmark_due = std::chrono::steady_clock::now() - last_write_ >= bookmark_every;
    if (why == Hub::Wake::news || bookmark_due) pump();
    if (idle() && bookmark_due) {
        queue_.clear();
        next_ = 0;
        queue_.push_back(session_.bookmark());
        write_next();
    }
}

void WatchStream::go_on() {
    if (next_ < queue_.size()) return write_next();
    pump();
}

void WatchStream::advance() {
    if (std::exchange(changed_, false)) {
        admitted_ = false;
        return read_store([this] { return read(true); });
    }
    queue_.clear();
    next_ = 0;
    switch (session_.next(queue_)) {
        case WatchSession::Next::messages:
            // It may have gone to a court that this device must not see.
            changed_ = single_ && std::any_of(queue_.begin(), queue_.end(),
                                              [](const auto& news) { return news.has_change(); });
            return write_next();
        case WatchSession::Next::wait:
            return;
        case WatchSession::Next::read_store:
            return read_store([this] { return read(false); });
    }
}

void WatchStream::write_next() {
    last_write_ = std::chrono::steady_clock::now();
    v1::WatchResponse& response = queue_[next_++];
    parts_.stamp.fill(*response.mutable_header());
    write(response);
}

Status WatchStream::read(bool only_admit) {
    if (!admitted_)
        if (Status admitted = admit(); !admitted.ok()) return admitted;
    return only_admit ? Status::fine() : session_.read_store(parts_.store);
}

/// A table sees matches of its court only. Runs where it may wait, before anything is sent.
Status WatchStream::admit() {
    admitted_ = true;
    if (!single_) return Status::fine();
    const Result<Reach> reach = parts_.rights.settled_reach(who_, *single_);
    if (!reach.ok()) return reach.status();
    if (*reach != Reach::other_court) return Status::fine();
    Status why = another_court(who_);
    parts_.audit.refused(to_text(who_.device),
                         {0, {}, who_, "watch", to_text(*single_), why.text(), true});
    return why;
}

}  // namespace courthand::server::service
