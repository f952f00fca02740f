#include "server/service/watch_stream.h"

#include <grpcpp/grpcpp.h>

#include <algorithm>
#include <utility>

#include "server/domain/fault_log.h"
#include "server/service/status_map.h"

namespace courthand::server::service {

namespace {

std::optional<MatchId> single_match(const WatchWish& wish) {
    const auto* one = std::get_if<MatchId>(&wish.watched);
    return one != nullptr ? std::optional{*one} : std::nullopt;
}

}  // namespace

WatchStream* WatchStream::make(std::shared_ptr<const SyncParts> parts, WatchWish wish,
                               const auth::Caller& who, grpc::CallbackServerContext& context) {
    std::shared_ptr<WatchStream> stream{new WatchStream{std::move(parts), std::move(wish), who}};
    WatchStream* const raw = stream.get();
    raw->begin(std::move(stream), context);
    return raw;
}

WatchStream::WatchStream(std::shared_ptr<const SyncParts> parts, WatchWish wish,
                         const auth::Caller& who)
    : hold_{std::move(parts)},
      parts_{*hold_},
      who_{who},
      single_{single_match(wish)},
      session_{std::move(wish), {parts_.tournament, parts_.keeper, parts_.hub}},
      last_write_{std::chrono::steady_clock::now()} {}

WatchStream::~WatchStream() = default;

void WatchStream::begin(std::shared_ptr<WatchStream> self, grpc::CallbackServerContext& context) {
    const std::scoped_lock lock{mutex_};
    self_ = std::move(self);
    const auto added = parts_.streams.add(
        {who_.device, context.peer()}, [this](const grpc::Status& why) { end(why); },
        [&context] { context.TryCancel(); });
    registry_token_ = added.token;
    if (registry_token_ == 0) return finish(added.refusal);
    // The device learns at once that it is connected.
    StartSendInitialMetadata();
    hub_token_ = parts_.hub.subscribe([this](Hub::Wake why) { wake(why); }, session_.interest());
    pump();
}

void WatchStream::wake(Hub::Wake why) {
    const std::scoped_lock lock{mutex_};
    if (state_ == State::finished) return;
    if (why == Hub::Wake::tick)
        parts_.presence.seen(
            {parts_.tournament, who_.device, who_.court, std::chrono::system_clock::now()});
    if (state_ != State::idle) {
        news_ = true;
        return;
    }
    // A tick alone brings nothing new: a watch whose matches are quiet costs nothing.
    const bool bookmark_due = std::chrono::steady_clock::now() - last_write_ >= bookmark_every;
    if (why == Hub::Wake::news || bookmark_due) pump();
    if (state_ == State::idle && bookmark_due) {
        queue_.push_back(session_.bookmark());
        write_next();
    }
}

void WatchStream::pump() {
    if (end_) return finish(*end_);
    if (std::exchange(changed_, false)) {
        admitted_ = false;
        return read_store(true);
    }
    state_ = State::pumping;
    news_ = false;
    queue_.clear();
    next_ = 0;
    switch (session_.next(queue_)) {
        case WatchSession::Next::messages:
            // It may have gone to a court that this device must not see.
            changed_ = single_ && std::any_of(queue_.begin(), queue_.end(),
                                              [](const auto& news) { return news.has_change(); });
            return write_next();
        case WatchSession::Next::wait:
            state_ = State::idle;
            return;
        case WatchSession::Next::read_store:
            return read_store();
    }
}

void WatchStream::write_next() {
    state_ = State::writing;
    last_write_ = std::chrono::steady_clock::now();
    v1::WatchResponse& response = queue_[next_++];
    parts_.stamp.fill(*response.mutable_header());
    StartWrite(&response);
}

void WatchStream::read_store(bool only_admit) {
    state_ = State::reading;
    const bool taken = parts_.work.submit(Lane::catch_up, [this, only_admit, self = self_] {
        Status status = Status::fine();
        try {
            if (!admitted_) status = admit();
            if (status.ok() && !only_admit) status = session_.read_store(parts_.store);
        } catch (const StoreFailure& failure) {
            status = failure.status();
        } catch (...) {
            log_current_exception("watch");
            status = own_fault();
        }
        const std::scoped_lock lock{mutex_};
        if (state_ == State::finished) return;
        if (!status.ok()) return finish(to_grpc(status));
        pump();
    });
    if (!taken) finish(to_grpc(overloaded()));
}

/// A table sees matches of its court only. Runs where it may wait, before anything is sent.
Status WatchStream::admit() {
    admitted_ = true;
    if (!single_ || parts_.rights.settled_reach(who_, *single_) != Reach::other_court)
        return Status::fine();
    Status why = another_court(who_);
    parts_.audit.refused(to_text(who_.device),
                         {0, {}, who_, "watch", to_text(*single_), why.text(), true});
    return why;
}

void WatchStream::OnWriteDone(bool ok) {
    const std::scoped_lock lock{mutex_};
    if (state_ == State::finished) return;
    if (!ok) return finish({grpc::StatusCode::CANCELLED, "the device has gone"});
    if (end_) return finish(*end_);
    if (next_ < queue_.size()) return write_next();
    pump();
}

void WatchStream::OnCancel() {
    end({grpc::StatusCode::CANCELLED, "cancelled by the device"});
}

void WatchStream::end(grpc::Status status) {
    const std::scoped_lock lock{mutex_};
    if (state_ == State::finished || end_) return;
    // A write or a read in flight comes back and finds it.
    end_ = std::move(status);
    if (state_ == State::idle) finish(*end_);
}

void WatchStream::finish(grpc::Status status) {
    state_ = State::finished;
    Finish(std::move(status));
}

void WatchStream::OnDone() {
    if (hub_token_ != 0) parts_.hub.unsubscribe(hub_token_);
    if (registry_token_ != 0) parts_.streams.remove(registry_token_);
    // Dropped outside the lock: a job of the work queue may hold the last reference.
    std::shared_ptr<WatchStream> self;
    {
        const std::scoped_lock lock{mutex_};
        self.swap(self_);
    }
}

}  // namespace courthand::server::service
