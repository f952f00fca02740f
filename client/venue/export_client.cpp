#include "venue/export_client.h"

#include <fmt/format.h>
#include <grpcpp/grpcpp.h>

#include <chrono>
#include <cstdint>
#include <utility>

#include "courthand/v1/export.grpc.pb.h"
#include "event_file/whole_folder.h"
#include "venue/call_line.h"
#include "venue/open_calls.h"
#include "venue/venue_call.h"

namespace courthand::venue {
namespace {

using event_file::WholeFolder;

/// A server at work makes the files of the largest event in a fraction of it.
constexpr std::chrono::minutes longest{10};
/// So much a server sends at most (server/export/memory_sink.h); what comes beyond is no export.
constexpr std::uint64_t most_bytes = std::uint64_t{256} * 1024 * 1024;

Outcome refused(const event_file::FolderFault& fault) {
    return Outcome::refused(fmt::format("{}; {}. Nothing was saved.", fault.message, fault.cure));
}

constexpr const char* cut_off =
    "The server ended before the last file. Nothing was saved; try again.";

}  // namespace

struct ExportClient::Parts {
    explicit Parts(std::shared_ptr<grpc::Channel> channel)
        : stub{v1::Export::NewStub(std::move(channel))} {}

    [[nodiscard]] Outcome save(const ExportWanted& wanted, const EventExporter::Progress& progress);
    [[nodiscard]] WholeFolder::Failure receive(grpc::ClientReader<v1::ExportEventResponse>& stream,
                                               WholeFolder& folder, bool& complete,
                                               const EventExporter::Progress& progress);

    std::unique_ptr<v1::Export::Stub> stub;
    OpenCalls open_calls;
    CallLine line;  ///< the last: its thread uses the others
};

WholeFolder::Failure ExportClient::Parts::receive(
    grpc::ClientReader<v1::ExportEventResponse>& stream, WholeFolder& folder, bool& complete,
    const EventExporter::Progress& progress) {
    v1::ExportEventResponse piece;
    ExportProgress so_far;
    while (stream.Read(&piece)) {
        so_far.bytes += piece.data().size();
        if (so_far.bytes > most_bytes)
            return event_file::FolderFault{"the server sends more than an event has",
                                           "update this program"};
        if (!piece.file().empty()) {
            if (auto failure = folder.begin(piece.file())) return failure;
            ++so_far.files;
        }
        if (auto failure = folder.write(piece.data())) return failure;
        complete = piece.complete();
        if (progress) progress(so_far);
    }
    return std::nullopt;
}

Outcome ExportClient::Parts::save(const ExportWanted& wanted,
                                  const EventExporter::Progress& progress) {
    WholeFolder folder{wanted.folder};
    if (const auto failure = folder.open()) return refused(*failure);
    v1::ExportEventRequest request;
    request.set_with_names(wanted.with_names);
    request.set_author(wanted.author);
    grpc::ClientContext context;
    sign_call(context);
    context.set_deadline(std::chrono::system_clock::now() + longest);
    const OpenCalls::Call call{open_calls, context};
    const auto stream = stub->ExportEvent(&context, request);
    bool complete = false;
    const WholeFolder::Failure failure = receive(*stream, folder, complete, progress);
    if (failure) context.TryCancel();
    const grpc::Status status = stream->Finish();
    if (failure) return refused(*failure);
    if (!status.ok()) return Outcome::refused(failure_words(status));
    if (!complete) return Outcome::refused(cut_off);
    if (const auto unfinished = folder.finish()) return refused(*unfinished);
    return Outcome::ok();
}

ExportClient::ExportClient(std::shared_ptr<grpc::Channel> channel)
    : parts_{std::make_unique<Parts>(std::move(channel))} {}

ExportClient::~ExportClient() {
    parts_->open_calls.close();
    parts_->line.stop();
}

void ExportClient::save(const ExportWanted& wanted, Progress progress, Answer answer) {
    const bool taken = parts_->line.add(
        [this, wanted, progress, answer] { answer(parts_->save(wanted, progress)); });
    if (!taken) answer(Outcome::refused("Too many requests wait already; try again in a moment."));
}

}  // namespace courthand::venue
