#include "client/journal/high_water.h"

#include <fcntl.h>
#include <unistd.h>
#include <xxhash.h>

#include <array>
#include <charconv>
#include <optional>
#include <string_view>

#include <fmt/format.h>

namespace courthand::client {
namespace {

/// "<match id, 36> <seq, 10> <check, 16>\n": text, so that a person can read it too.
constexpr std::size_t id_size = 36;
constexpr std::size_t place_size = id_size + 1 + 10 + 1 + 16 + 1;

std::string place_text(std::string_view match_id, std::uint32_t seq) {
    const std::string head = fmt::format("{:<36} {:010}", match_id, seq);
    return fmt::format("{} {:016x}\n", head, XXH64(head.data(), head.size(), 0));
}

struct Mark {
    std::string match_id;
    std::uint32_t seq = 0;
};

std::optional<Mark> read_place(std::string_view text) {
    Mark mark{std::string{text.substr(0, id_size)}, 0};
    const char* digits = text.data() + id_size + 1;
    if (std::from_chars(digits, digits + 10, mark.seq).ec != std::errc{}) return std::nullopt;
    while (!mark.match_id.empty() && mark.match_id.back() == ' ') mark.match_id.pop_back();
    if (place_text(mark.match_id, mark.seq) != text) return std::nullopt;
    return mark;
}

}  // namespace

HighWater::HighWater(const std::filesystem::path& file) {
    file_ = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (file_ < 0) return;
    std::array<char, place_size> buffer{};
    for (std::size_t place = 0;; ++place) {
        const auto offset = static_cast<off_t>(place * place_size);
        if (::pread(file_, buffer.data(), place_size, offset) != static_cast<ssize_t>(place_size))
            break;
        const auto mark = read_place(std::string_view{buffer.data(), place_size});
        // A place that cannot be read is left to whoever owned it.
        const std::string key = mark ? mark->match_id : fmt::format("?{}", place);
        places_[key] = place;
        if (mark) marks_[key] = mark->seq;
    }
}

HighWater::~HighWater() {
    if (file_ >= 0) ::close(file_);
}

void HighWater::mark(const std::string& match_id, std::uint32_t seq) noexcept {
    if (file_ < 0 || match_id.size() > id_size) return;
    const auto known = marks_.find(match_id);
    if (known != marks_.end() && known->second >= seq) return;
    write(places_.try_emplace(match_id, places_.size()).first->second, match_id, seq);
}

void HighWater::lower(const std::string& match_id, std::uint32_t seq) noexcept {
    const auto known = marks_.find(match_id);
    if (file_ < 0 || known == marks_.end() || known->second <= seq) return;
    write(places_.at(match_id), match_id, seq);
    // When it fails, a power cut right now makes a loss be told that is none.
    static_cast<void>(::fdatasync(file_));
}

void HighWater::reset(const std::map<std::string, std::uint32_t>& marks) noexcept {
    if (file_ < 0 || ::ftruncate(file_, 0) != 0) return;
    places_.clear();
    marks_.clear();
    for (const auto& [match_id, seq] : marks) mark(match_id, seq);
}

void HighWater::write(std::size_t place, const std::string& match_id, std::uint32_t seq) noexcept {
    const std::string text = place_text(match_id, seq);
    const auto offset = static_cast<off_t>(place * place_size);
    // A failed write leaves an older mark or an unreadable one; both only make a loss less exact.
    if (::pwrite(file_, text.data(), text.size(), offset) == static_cast<ssize_t>(text.size()))
        marks_[match_id] = seq;
}

std::map<std::string, std::uint32_t> HighWater::marks() const {
    return marks_;
}

}  // namespace courthand::client
