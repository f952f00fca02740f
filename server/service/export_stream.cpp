#include "server/service/export_stream.h"

#include <algorithm>
#include <utility>

#include "server/domain/fault_log.h"
#include "server/export/event_export.h"
#include "server/service/audit_note.h"
#include "wire/message_limits.h"

namespace courthand::server::service {
namespace {

DeviceId device_of(const std::optional<auth::Caller>& who) {
    return who ? who->device : DeviceId{};
}

Status another_is_under_way() {
    return Status::failed(StatusCode::exhausted, "another desk is exporting the event",
                          "try again when it is done");
}

}  // namespace

ExportStream* ExportStream::make(const VenueParts& parts, ExportTurn& turn,
                                 const v1::ExportEventRequest& request,
                                 const std::optional<auth::Caller>& who,
                                 grpc::CallbackServerContext& context) {
    const std::shared_ptr<ExportStream> stream{new ExportStream{parts, turn, request, who}};
    if (stream->enter(stream, {device_of(who), context.peer()}, context)) stream->begin();
    return stream.get();
}

ExportStream::ExportStream(const VenueParts& parts, ExportTurn& turn,
                           const v1::ExportEventRequest& request,
                           const std::optional<auth::Caller>& who)
    : ServerStream{parts.streams}, parts_{parts}, turn_{turn}, request_{request}, who_{who} {}

ExportStream::~ExportStream() {
    if (has_turn_) turn_ = false;
}

void ExportStream::begin() {
    const std::scoped_lock lock{mutex()};
    if (!idle()) return;
    const std::string& author = request_.author();
    if (author.empty() || !wire::fits(author, wire::most_name_bytes))
        return finish(
            to_grpc(Status::failed(StatusCode::invalid, "author: it does not say who asks",
                                   "give a function of up to 64 bytes, without special keys")));
    has_turn_ = !turn_.exchange(true);
    if (!has_turn_) return finish(to_grpc(another_is_under_way()));
    making_ = true;
    const auto self = std::static_pointer_cast<ExportStream>(this->self());
    if (parts_.work.submit(Lane::reads, [self] { self->make_files(); })) return;
    making_ = false;
    finish(to_grpc(overloaded()));
}

Result<std::vector<exports::ExportedFile>> ExportStream::files() const {
    const Tournament tournament{parts_.tournament, parts_.tournament_name, {}};
    exports::MemorySink sink;
    const Status status = exports::export_event(tournament, parts_.matches, parts_.facts,
                                                {request_.with_names()}, sink);
    if (!status.ok()) return status;
    return sink.take();
}

void ExportStream::make_files() {
    Status status;
    std::vector<exports::ExportedFile> made;
    try {
        const ActWords words{"export-event", request_.author(),
                             request_.with_names() ? "with names" : "without names"};
        auto answer = audited(parts_, who_, words, [this] { return files(); });
        status = answer.status();
        if (status.ok()) made = *std::move(answer);
    } catch (...) {
        log_current_exception("an export");
        status = own_fault();
    }
    const std::scoped_lock lock{mutex()};
    making_ = false;
    files_ = std::move(made);
    if (finished()) return;
    if (ending()) return finish(*ending());
    if (!status.ok()) return finish(to_grpc(status));
    go_on();
}

void ExportStream::go_on() {
    if (complete_) return finish(grpc::Status::OK);
    response_.Clear();
    if (!std::exchange(header_sent_, true)) parts_.stamp.fill(*response_.mutable_header());
    exports::ExportedFile& file = files_[file_];
    if (offset_ == 0) response_.set_file(file.name);
    const std::size_t size = std::min(most_piece_bytes, file.bytes.size() - offset_);
    response_.set_data(file.bytes.substr(offset_, size));
    offset_ += size;
    if (offset_ == file.bytes.size()) {
        // What was sent is not kept until the slowest desk has read the rest.
        file = {};
        offset_ = 0;
        ++file_;
    }
    complete_ = file_ == files_.size();
    response_.set_complete(complete_);
    write(response_);
}

}  // namespace courthand::server::service
