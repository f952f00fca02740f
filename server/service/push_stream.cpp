#include "server/service/push_stream.h"

#include <grpcpp/grpcpp.h>

#include "server/service/push_call.h"
#include "server/service/status_map.h"

namespace courthand::server::service {

PushStream* PushStream::make(std::shared_ptr<const SyncParts> parts, const auth::Caller& who,
                             grpc::CallbackServerContext& context) {
    std::shared_ptr<PushStream> stream{new PushStream{std::move(parts), who}};
    PushStream* const raw = stream.get();
    raw->begin(std::move(stream), context);
    return raw;
}

void PushStream::begin(std::shared_ptr<PushStream> self, grpc::CallbackServerContext& context) {
    const std::scoped_lock lock{mutex_};
    self_ = std::move(self);
    const auto added = parts_.streams.add(
        {who_.device, context.peer()},
        [this](const grpc::Status& why) {
            const std::scoped_lock ending{mutex_};
            finish(why);
        },
        [&context] { context.TryCancel(); });
    registry_token_ = added.token;
    if (registry_token_ == 0) return finish(added.refusal);
    // The device learns at once that it is connected.
    StartSendInitialMetadata();
    read_next();
}

void PushStream::read_next() {
    if (reading_ || reads_ended_ || finished_ || under_way_.size() >= most_under_way) return;
    reading_ = true;
    StartRead(&request_);
}

void PushStream::OnReadDone(bool ok) {
    Slot slot;
    std::shared_ptr<PushStream> self;
    v1::PushRequest request;
    {
        const std::scoped_lock lock{mutex_};
        if (!ok) {
            reading_ = false;
            reads_ended_ = true;
            if (under_way_.empty() && !writing_) finish(grpc::Status::OK);
            return;
        }
        if (finished_) return;
        parts_.presence.seen(
            {parts_.tournament, who_.device, who_.court, std::chrono::system_clock::now()});
        slot = std::make_shared<Slot::element_type>();
        under_way_.push_back(slot);
        request.Swap(&request_);
        self = self_;
    }
    push(parts_, who_, request, [self, slot](std::variant<v1::PushResponse, Status> answer) {
        self->answered(slot, std::move(answer));
    });
    // Only now: a request read meanwhile could be handed on before this one.
    const std::scoped_lock lock{mutex_};
    reading_ = false;
    read_next();
}

void PushStream::answered(const Slot& slot, std::variant<v1::PushResponse, Status> answer) {
    const std::scoped_lock lock{mutex_};
    slot->emplace(std::move(answer));
    write_next();
}

void PushStream::write_next() {
    if (finished_ || writing_ || under_way_.empty() || !under_way_.front()->has_value()) return;
    auto answer = std::move(**under_way_.front());
    under_way_.pop_front();
    if (const auto* status = std::get_if<Status>(&answer)) return finish(to_grpc(*status));
    response_ = std::get<v1::PushResponse>(std::move(answer));
    writing_ = true;
    StartWrite(&response_);
}

void PushStream::OnWriteDone(bool ok) {
    const std::scoped_lock lock{mutex_};
    writing_ = false;
    if (!ok) return finish({grpc::StatusCode::CANCELLED, "the device has gone"});
    write_next();
    read_next();
    if (reads_ended_ && under_way_.empty() && !writing_) finish(grpc::Status::OK);
}

void PushStream::OnCancel() {
    const std::scoped_lock lock{mutex_};
    finish({grpc::StatusCode::CANCELLED, "cancelled by the device"});
}

void PushStream::finish(grpc::Status status) {
    if (finished_) return;
    finished_ = true;
    Finish(std::move(status));
}

void PushStream::OnDone() {
    if (registry_token_ != 0) parts_.streams.remove(registry_token_);
    std::shared_ptr<PushStream> self;
    {
        const std::scoped_lock lock{mutex_};
        self.swap(self_);
    }
}

}  // namespace courthand::server::service
