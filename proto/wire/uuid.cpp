#include "wire/uuid.h"

#include <openssl/rand.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <utility>

namespace courthand::wire {
namespace {

constexpr std::string_view digits = "0123456789abcdef";
constexpr std::uint64_t tail_mask = (std::uint64_t{1} << 62) - 1;
constexpr std::uint64_t version_7 = 0x70;
constexpr std::uint64_t variant_10 = 0x80;

int hex_value(char c) noexcept {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

constexpr bool hyphen_after(std::size_t byte) noexcept {
    return byte == 3 || byte == 5 || byte == 7 || byte == 9;
}

std::uint8_t low_byte(std::uint64_t value) noexcept {
    return static_cast<std::uint8_t>(value & 0xff);
}

std::uint64_t system_milliseconds() {
    using namespace std::chrono;
    const auto now = duration_cast<milliseconds>(system_clock::now().time_since_epoch()).count();
    return now < 0 ? 0 : static_cast<std::uint64_t>(now);
}

void system_random(std::span<std::uint8_t> out) {
    // Without a random source an id could repeat and an entry could be taken for another: stop.
    if (RAND_bytes(out.data(), static_cast<int>(out.size())) != 1) std::abort();
}

}  // namespace

std::optional<Uuid> Uuid::from_bytes(std::string_view bytes) noexcept {
    if (bytes.size() != size) return std::nullopt;
    Uuid id;
    std::memcpy(id.bytes_.data(), bytes.data(), size);
    return id;
}

std::optional<Uuid> Uuid::from_text(std::string_view text) noexcept {
    if (text.size() != 36) return std::nullopt;
    Uuid id;
    std::size_t at = 0;
    for (std::size_t i = 0; i < size; ++i) {
        const int high = hex_value(text[at]);
        const int low = hex_value(text[at + 1]);
        if (high < 0 || low < 0) return std::nullopt;
        id.bytes_[i] = static_cast<std::uint8_t>(high * 16 + low);
        at += 2;
        if (hyphen_after(i) && text[at++] != '-') return std::nullopt;
    }
    return id;
}

std::string Uuid::to_bytes() const {
    return {reinterpret_cast<const char*>(bytes_.data()), bytes_.size()};
}

std::string Uuid::to_text() const {
    std::string text;
    text.reserve(36);
    for (std::size_t i = 0; i < size; ++i) {
        text += digits[bytes_[i] >> 4];
        text += digits[bytes_[i] & 15];
        if (hyphen_after(i)) text += '-';
    }
    return text;
}

std::uint64_t Uuid::milliseconds() const noexcept {
    std::uint64_t ms = 0;
    for (std::size_t i = 0; i < 6; ++i) ms = ms << 8 | bytes_[i];
    return ms;
}

UuidMaker::UuidMaker(Clock clock, Random random)
    : clock_{std::move(clock)}, random_{std::move(random)} {}

UuidMaker UuidMaker::of_system() {
    return {system_milliseconds, system_random};
}

Uuid UuidMaker::next() {
    const std::uint64_t now = clock_();
    if (!made_any_ || now > last_ms_) {
        std::array<std::uint8_t, 10> fresh{};
        random_(fresh);
        std::uint64_t tail = 0;
        for (std::size_t i = 2; i < fresh.size(); ++i) tail = tail << 8 | fresh[i];
        last_ms_ = now;
        middle_ = static_cast<std::uint16_t>((fresh[0] << 8 | fresh[1]) & 0xfff);
        tail_ = tail & tail_mask;
        made_any_ = true;
    } else {
        // The clock has not moved on: count the 74 random bits up, and borrow a millisecond from
        // the future when they run over.
        tail_ = (tail_ + 1) & tail_mask;
        if (tail_ == 0) {
            middle_ = static_cast<std::uint16_t>((middle_ + 1) & 0xfff);
            if (middle_ == 0) ++last_ms_;
        }
    }
    std::array<std::uint8_t, Uuid::size> bytes{};
    for (std::size_t i = 0; i < 6; ++i) bytes[i] = low_byte(last_ms_ >> (40 - 8 * i));
    bytes[6] = low_byte(version_7 | middle_ >> 8);
    bytes[7] = low_byte(middle_);
    for (std::size_t i = 0; i < 8; ++i) bytes[8 + i] = low_byte(tail_ >> (56 - 8 * i));
    bytes[8] = low_byte(variant_10 | (bytes[8] & 0x3f));
    return Uuid{bytes};
}

std::size_t UuidHash::operator()(const Uuid& id) const noexcept {
    // The last eight bytes are random already.
    std::uint64_t tail = 0;
    std::memcpy(&tail, id.bytes().data() + 8, sizeof tail);
    return static_cast<std::size_t>(tail);
}

}  // namespace courthand::wire
