#include "server/auth/key_files.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <fstream>
#include <iterator>

namespace courthand::server::auth {

std::optional<std::string> read_file(const std::filesystem::path& path) {
    std::error_code error;
    const auto size = std::filesystem::file_size(path, error);
    if (error || size > largest_key_file) return std::nullopt;
    std::ifstream in(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    if (!in) return std::nullopt;
    return text;
}

namespace {

bool write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = ::write(file, text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return false;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
}

}  // namespace

bool write_secret_file(const std::filesystem::path& path, std::string_view text) {
    const std::string beside = path.string() + ".new";
    ::unlink(beside.c_str());  // left over from a start that was cut short
    const int file = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
    if (file < 0) return false;
    const bool written = write_all(file, text) && ::fsync(file) == 0;
    const int error = errno;
    ::close(file);
    if (written) return std::rename(beside.c_str(), path.c_str()) == 0;
    ::unlink(beside.c_str());
    errno = error;
    return false;
}

FolderLock::FolderLock(const std::filesystem::path& folder)
    : file_{::open((folder / "lock").c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600)} {
    if (file_ >= 0 && ::flock(file_, LOCK_EX) != 0) {
        ::close(file_);
        file_ = -1;
    }
}

FolderLock::~FolderLock() {
    if (file_ >= 0) ::close(file_);
}

}  // namespace courthand::server::auth
