#include "server/publish/folder.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <system_error>

namespace courthand::server::publish {
namespace {

namespace fs = std::filesystem;

Status cannot(const char* what, const fs::path& path, const std::string& why) {
    return {StatusCode::internal, fmt::format("cannot {} {}: {}", what, path.string(), why),
            "name a folder that this server may write with --publish-folder"};
}

/// Under a name that no page has, then in its place at once.
Status put(const fs::path& folder, const std::string& name, const std::string& bytes) {
    const fs::path beside = folder / ("." + name + ".new");
    std::ofstream out{beside, std::ios::binary | std::ios::trunc};
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) return cannot("write", beside, "the disk or the rights do not allow it");
    std::error_code error;
    fs::rename(beside, folder / name, error);
    return error ? cannot("write", folder / name, error.message()) : Status::fine();
}

}  // namespace

Status Folder::write(const Files& files) {
    std::error_code error;
    fs::create_directories(path_, error);
    if (error) return cannot("make the folder", path_, error.message());
    Status first = Status::fine();
    for (const auto& [name, file] : files) {
        const auto was = written_.find(name);
        if (was != written_.end() && was->second == file) continue;
        if (Status status = put(path_, name, file->bytes); status.ok())
            written_.insert_or_assign(name, file);
        else if (first.ok())
            first = std::move(status);
    }
    for (auto was = written_.begin(); was != written_.end();) {
        if (files.count(was->first) != 0) {
            ++was;
            continue;
        }
        fs::remove(path_ / was->first, error);
        if (error && first.ok()) first = cannot("remove", path_ / was->first, error.message());
        was = error ? std::next(was) : written_.erase(was);
    }
    return first;
}

}  // namespace courthand::server::publish
