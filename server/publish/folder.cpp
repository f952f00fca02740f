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

// Only names of files in the folder itself: a line that says another place is not one of ours.
void Folder::read_list() {
    listed_.emplace();
    std::ifstream in{path_ / list};
    for (std::string name; std::getline(in, name);)
        if (!name.empty() && fs::path{name}.filename() == name && name.front() != '.')
            written_.try_emplace(name, nullptr);
}

Status Folder::write_list() {
    std::string names;
    for (const auto& [name, file] : written_) names += name + "\n";
    if (names == *listed_) return Status::fine();
    if (Status status = put(path_, list, names); !status.ok()) return status;
    listed_ = std::move(names);
    return Status::fine();
}

Status Folder::put_changed(const Files& files) {
    Status first = Status::fine();
    for (const auto& [name, file] : files) {
        const auto was = written_.find(name);
        if (was != written_.end() && was->second == file) continue;
        if (Status status = put(path_, name, file->bytes); status.ok())
            written_.insert_or_assign(name, file);
        else if (first.ok())
            first = std::move(status);
    }
    return first;
}

Status Folder::take_away_gone(const Files& files) {
    Status first = Status::fine();
    for (auto was = written_.begin(); was != written_.end();) {
        if (files.count(was->first) != 0) {
            ++was;
            continue;
        }
        std::error_code error;
        fs::remove(path_ / was->first, error);
        if (error && first.ok()) first = cannot("remove", path_ / was->first, error.message());
        was = error ? std::next(was) : written_.erase(was);
    }
    return first;
}

Status Folder::write(const Files& files) {
    std::error_code error;
    fs::create_directories(path_, error);
    if (error) return cannot("make the folder", path_, error.message());
    if (!listed_) read_list();
    const Status put = put_changed(files);
    const Status gone = take_away_gone(files);
    const Status listed = write_list();
    for (const Status& status : {put, gone})
        if (!status.ok()) return status;
    return listed;
}

}  // namespace courthand::server::publish
