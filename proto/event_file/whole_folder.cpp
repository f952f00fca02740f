#include "event_file/whole_folder.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdlib.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

namespace courthand::event_file {
namespace {

constexpr std::size_t most_name_bytes = 64;

/// On the disk, so that a loss of power cannot leave a folder with half a file.
bool sync(const std::filesystem::path& path) {
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0) return false;
    const bool done = ::fsync(file) == 0;
    ::close(file);
    return done;
}

}  // namespace

WholeFolder::WholeFolder(std::filesystem::path folder) : folder_{std::move(folder)} {
    if (!folder_.has_filename()) folder_ = folder_.parent_path();
}

WholeFolder::~WholeFolder() {
    file_.close();
    std::error_code ignored;
    if (!unfinished_.empty()) std::filesystem::remove_all(unfinished_, ignored);
}

bool WholeFolder::plain_name(std::string_view name) noexcept {
    const auto fine = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '-' || c == '_' || c == '.';
    };
    return !name.empty() && name.size() <= most_name_bytes && name.front() != '.' &&
           std::all_of(name.begin(), name.end(), fine);
}

FolderFault WholeFolder::failed(const std::string& what) const {
    return {fmt::format("{}: {}", what, std::generic_category().message(errno)),
            "make room, or name another folder"};
}

WholeFolder::Failure WholeFolder::open() {
    std::error_code error;
    if (std::filesystem::exists(folder_, error) && !std::filesystem::is_empty(folder_, error))
        return FolderFault{folder_.string() + " is there already and not empty",
                           "name another folder"};
    const std::filesystem::path beside = std::filesystem::absolute(folder_, error).parent_path();
    std::filesystem::create_directories(beside, error);
    std::string name = (beside / ("." + folder_.filename().string() + "-XXXXXX")).string();
    if (mkdtemp(name.data()) == nullptr)
        return failed("no folder can be made in " + beside.string());
    unfinished_ = name;
    return std::nullopt;
}

WholeFolder::Failure WholeFolder::close_file() {
    if (!file_.is_open()) return std::nullopt;
    file_.close();
    if (!file_ || !sync(unfinished_ / name_))
        return failed("cannot write " + name_ + " in " + folder_.string());
    return std::nullopt;
}

WholeFolder::Failure WholeFolder::begin(const std::string& name) {
    if (!plain_name(name))
        return FolderFault{fmt::format("\"{}\" is no name of a file", name), "update the server"};
    if (auto failure = close_file()) return failure;
    name_ = name;
    file_.open(unfinished_ / name, std::ios::binary | std::ios::trunc);
    if (!file_) return failed("cannot write " + name + " in " + folder_.string());
    return std::nullopt;
}

WholeFolder::Failure WholeFolder::write(std::string_view bytes) {
    file_.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (!file_) return failed("cannot write " + name_ + " in " + folder_.string());
    return std::nullopt;
}

WholeFolder::Failure WholeFolder::finish() {
    if (auto failure = close_file()) return failure;
    if (!sync(unfinished_)) return failed("cannot write " + folder_.string());
    // An empty folder of that name makes room for it.
    if (::rename(unfinished_.c_str(), folder_.c_str()) != 0)
        return failed("the folder cannot be called " + folder_.string());
    unfinished_.clear();
    return std::nullopt;
}

}  // namespace courthand::event_file
