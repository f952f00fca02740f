#include "event_file/base64.h"

#include <openssl/evp.h>

#include <algorithm>

namespace courthand::event_file {
namespace {

const unsigned char* octets(std::string_view text) {
    return reinterpret_cast<const unsigned char*>(text.data());
}
unsigned char* octets(std::string& text) {
    return reinterpret_cast<unsigned char*>(text.data());
}

}  // namespace

std::string to_base64(std::string_view bytes) {
    std::string text(4 * ((bytes.size() + 2) / 3) + 1, '\0');
    const int size = EVP_EncodeBlock(octets(text), octets(bytes), static_cast<int>(bytes.size()));
    text.resize(static_cast<std::size_t>(size));
    return text;
}

std::optional<std::string> from_base64(std::string_view text) {
    if (text.size() % 4 != 0) return std::nullopt;
    std::string bytes(text.size() / 4 * 3 + 1, '\0');
    const int size = EVP_DecodeBlock(octets(bytes), octets(text), static_cast<int>(text.size()));
    if (size < 0) return std::nullopt;
    // The library counts the padding as zero bytes.
    const auto padding = static_cast<std::size_t>(std::count(text.begin(), text.end(), '='));
    if (padding > 2) return std::nullopt;
    bytes.resize(static_cast<std::size_t>(size) - padding);
    if (to_base64(bytes) != text) return std::nullopt;
    return bytes;
}

}  // namespace courthand::event_file
