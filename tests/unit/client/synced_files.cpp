#include "tests/unit/client/synced_files.h"

#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <mutex>
#include <utility>

namespace {

std::mutex mutex;
std::vector<std::string> synced;  ///< guarded by mutex

void note(int file) {
    std::error_code unknown;
    const auto path =
        std::filesystem::read_symlink("/proc/self/fd/" + std::to_string(file), unknown);
    const std::scoped_lock lock{mutex};
    if (!unknown) synced.push_back(path.filename().string());
}

}  // namespace

extern "C" int fsync(int file) {
    note(file);
    return static_cast<int>(syscall(SYS_fsync, file));
}
extern "C" int fdatasync(int file) {
    note(file);
    return static_cast<int>(syscall(SYS_fdatasync, file));
}

namespace courthand::client {

std::vector<std::string> take_synced_files() {
    const std::scoped_lock lock{mutex};
    return std::exchange(synced, {});
}

std::size_t take_commits() {
    const auto files = take_synced_files();
    return static_cast<std::size_t>(std::count_if(
        files.begin(), files.end(),
        [](const std::string& name) { return name.find("-wal") != std::string::npos; }));
}

}  // namespace courthand::client
