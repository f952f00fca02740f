#include "server/domain/ids.h"

#include <algorithm>
#include <chrono>
#include <cstring>
#include <random>

namespace courthand::server {
namespace {

constexpr char digits[] = "0123456789abcdef";

int hex_value(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

bool hyphen_at(std::size_t i) {
    return i == 8 || i == 13 || i == 18 || i == 23;
}

}  // namespace

std::string to_text(const Uuid& uuid) {
    std::string text;
    text.reserve(36);
    for (const std::uint8_t byte : uuid.bytes) {
        if (hyphen_at(text.size())) text.push_back('-');
        text.push_back(digits[byte >> 4]);
        text.push_back(digits[byte & 15]);
    }
    return text;
}

std::optional<Uuid> uuid_from_text(std::string_view text) {
    const bool hyphens = text.size() == 36;
    if (!hyphens && text.size() != 32) return std::nullopt;
    Uuid uuid;
    std::size_t nibble = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (hyphens && hyphen_at(i)) {
            if (text[i] != '-') return std::nullopt;
            continue;
        }
        const int value = hex_value(text[i]);
        if (value < 0) return std::nullopt;
        auto& byte = uuid.bytes[nibble / 2];
        byte = static_cast<std::uint8_t>((byte << 4) | value);
        ++nibble;
    }
    return uuid;
}

std::optional<Uuid> uuid_from_bytes(std::string_view bytes) {
    Uuid uuid;
    if (bytes.size() != uuid.bytes.size()) return std::nullopt;
    std::memcpy(uuid.bytes.data(), bytes.data(), bytes.size());
    return uuid;
}

std::string to_bytes(const Uuid& uuid) {
    return {reinterpret_cast<const char*>(uuid.bytes.data()), uuid.bytes.size()};
}

Uuid new_uuid() {
    thread_local std::random_device random;
    Uuid uuid;
    for (std::size_t i = 0; i < uuid.bytes.size(); i += 4) {
        const std::uint32_t word = random();
        std::memcpy(&uuid.bytes[i], &word, sizeof word);
    }
    const auto now = std::chrono::duration_cast<std::chrono::milliseconds>(
        std::chrono::system_clock::now().time_since_epoch());
    auto ms = static_cast<std::uint64_t>(now.count());
    for (std::size_t i = 6; i-- > 0; ms >>= 8) uuid.bytes[i] = static_cast<std::uint8_t>(ms & 255);
    uuid.bytes[6] = static_cast<std::uint8_t>(0x70 | (uuid.bytes[6] & 15));
    uuid.bytes[8] = static_cast<std::uint8_t>(0x80 | (uuid.bytes[8] & 63));
    return uuid;
}

}  // namespace courthand::server
