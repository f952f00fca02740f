#include "client/journal/files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <fstream>
#include <system_error>

namespace courthand::client {
namespace fs = std::filesystem;
namespace {

fs::path log_of(const fs::path& file) {
    return file.string() + "-wal";
}
fs::path index_of(const fs::path& file) {
    return file.string() + "-shm";
}

/// A rename is on the disk only when its folder is.
void flush_folder(const fs::path& folder) {
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle < 0) return;
    ::fsync(handle);
    ::close(handle);
}

}  // namespace

std::string bytes_of(const fs::path& file) {
    std::error_code failed;
    const std::uintmax_t size = fs::file_size(file, failed);
    if (failed || size > most_journal_bytes) return {};
    std::string bytes(static_cast<std::size_t>(size), '\0');
    std::ifstream in{file, std::ios::binary};
    in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    bytes.resize(static_cast<std::size_t>(in.gcount()));
    return bytes;
}

SavedLog::SavedLog(const fs::path& journal) : file_{log_of(journal)}, bytes_{bytes_of(file_)} {}

void SavedLog::put_back() const {
    if (bytes_of(file_) == bytes_) return;
    std::ofstream out{file_, std::ios::binary | std::ios::trunc};
    out << bytes_;
}

fs::path journal_file(const fs::path& folder) {
    return folder / "journal.db";
}
fs::path high_water_file(const fs::path& folder) {
    return folder / "journal.marks";
}
fs::path successor_file(const fs::path& folder) {
    return folder / "journal.new.db";
}

fs::path set_aside_file(const fs::path& folder) {
    for (int number = 1;; ++number) {
        fs::path file = folder / fmt::format("journal.damaged-{}.db", number);
        if (!fs::exists(file) && !fs::exists(log_of(file))) return file;
    }
}

void copy_journal(const fs::path& from, const fs::path& to) {
    fs::copy_file(from, to, fs::copy_options::overwrite_existing);
    if (fs::exists(log_of(from)))
        fs::copy_file(log_of(from), log_of(to), fs::copy_options::overwrite_existing);
}

void move_journal(const fs::path& from, const fs::path& to) {
    if (fs::exists(from)) fs::rename(from, to);
    if (fs::exists(log_of(from))) fs::rename(log_of(from), log_of(to));
    fs::remove(index_of(from));
}

void remove_journal(const fs::path& file) {
    fs::remove(file);
    fs::remove(log_of(file));
    fs::remove(index_of(file));
}

void exchange(const fs::path& folder, const fs::path& set_aside) {
    move_journal(journal_file(folder), set_aside);
    fs::rename(successor_file(folder), journal_file(folder));
    flush_folder(folder);
}

void finish_exchange(const fs::path& folder) {
    const fs::path successor = successor_file(folder);
    if (!fs::exists(successor)) return;
    if (fs::exists(journal_file(folder))) {
        // Unfinished: the damaged journal is still in place and will be read again.
        remove_journal(successor);
        return;
    }
    exchange(folder, set_aside_file(folder));
}

}  // namespace courthand::client
