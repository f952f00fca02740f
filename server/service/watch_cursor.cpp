#include "server/service/watch_cursor.h"

namespace courthand::server::service {
namespace {

constexpr char form = 1;
constexpr std::size_t position_bytes = 8;
constexpr std::size_t size = 1 + 16 + position_bytes;

}  // namespace

std::string to_bytes(const WatchCursor& cursor) {
    std::string bytes(1, form);
    bytes += server::to_bytes(cursor.generation);
    for (std::size_t i = position_bytes; i-- > 0;)
        bytes.push_back(static_cast<char>(cursor.position >> (8 * i) & 255));
    return bytes;
}

std::optional<WatchCursor> watch_cursor(std::string_view bytes) {
    if (bytes.size() != size || bytes[0] != form) return std::nullopt;
    WatchCursor cursor;
    cursor.generation = *uuid_from_bytes(bytes.substr(1, 16));
    for (const char c : bytes.substr(17))
        cursor.position = cursor.position << 8 | static_cast<unsigned char>(c);
    return cursor;
}

}  // namespace courthand::server::service
