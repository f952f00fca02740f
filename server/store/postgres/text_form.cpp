#include "server/store/postgres/text_form.h"

#include <cstring>

#include "server/store/postgres/store_failure.h"

namespace courthand::server::postgres {
namespace {

constexpr char digits[] = "0123456789abcdef";

int hex_value(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    return -1;
}

[[noreturn]] void unreadable(const pqxx::field& field) {
    throw StoreFailure{Status::failed(StatusCode::internal,
                                      std::string{"column "} + field.name() + " cannot be read")};
}

}  // namespace

std::string bytea(std::string_view bytes) {
    std::string text = "\\x";
    text.reserve(2 + bytes.size() * 2);
    for (const char c : bytes) {
        const auto byte = static_cast<unsigned char>(c);
        text.push_back(digits[byte >> 4]);
        text.push_back(digits[byte & 15]);
    }
    return text;
}

std::string bytea(const Hash& hash) {
    return bytea({reinterpret_cast<const char*>(hash.data()), hash.size()});
}

std::string bytes_of(const pqxx::field& field) {
    const std::string_view text{field.c_str(), field.size()};
    if (text.size() % 2 != 0 || !text.starts_with("\\x")) unreadable(field);
    std::string bytes;
    bytes.reserve(text.size() / 2);
    for (std::size_t i = 2; i < text.size(); i += 2) {
        const int high = hex_value(text[i]);
        const int low = hex_value(text[i + 1]);
        if (high < 0 || low < 0) unreadable(field);
        bytes.push_back(static_cast<char>(high << 4 | low));
    }
    return bytes;
}

Hash hash_of_field(const pqxx::field& field) {
    const std::string bytes = bytes_of(field);
    Hash hash{};
    if (bytes.size() != hash.size()) unreadable(field);
    std::memcpy(hash.data(), bytes.data(), hash.size());
    return hash;
}

std::int64_t microseconds(ServerTime time) {
    return std::chrono::duration_cast<std::chrono::microseconds>(time.time_since_epoch()).count();
}

ServerTime moment(const pqxx::field& field) {
    return ServerTime{std::chrono::microseconds{field.as<std::int64_t>()}};
}

std::optional<std::int64_t> microseconds(const std::optional<ServerTime>& time) {
    if (!time) return std::nullopt;
    return microseconds(*time);
}

Uuid uuid_of(const pqxx::field& field) {
    if (field.is_null()) return {};
    const auto uuid = uuid_from_text({field.c_str(), field.size()});
    if (!uuid) unreadable(field);
    return *uuid;
}

void ArrayText::next() {
    if (text_.size() > 1) text_.push_back(',');
}

void ArrayText::add(std::string_view element) {
    next();
    text_.push_back('"');
    for (const char c : element) {
        if (c == '"' || c == '\\') text_.push_back('\\');
        text_.push_back(c);
    }
    text_.push_back('"');
}

void ArrayText::add_number(std::uint64_t number) {
    next();
    text_ += std::to_string(number);
}

void ArrayText::add_null() {
    next();
    text_ += "null";
}

}  // namespace courthand::server::postgres
