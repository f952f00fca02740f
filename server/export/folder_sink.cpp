#include "server/export/folder_sink.h"

#include <utility>

namespace courthand::server::exports {
namespace {

Status status_of(event_file::WholeFolder::Failure failure) {
    if (!failure) return Status::fine();
    return Status::failed(StatusCode::invalid, std::move(failure->message),
                          std::move(failure->cure));
}

}  // namespace

Status FolderSink::open() {
    return status_of(folder_.open());
}
Status FolderSink::begin(const std::string& name) {
    return status_of(folder_.begin(name));
}
Status FolderSink::write(std::string_view bytes) {
    return status_of(folder_.write(bytes));
}
Status FolderSink::finish() {
    return status_of(folder_.finish());
}

}  // namespace courthand::server::exports
