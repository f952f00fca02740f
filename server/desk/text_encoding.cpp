#include "server/desk/text_encoding.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "wire/message_limits.h"

namespace courthand::server::desk {
namespace {

constexpr const char* save_as_utf8 =
    "save the list again as comma-separated values (CSV) and choose the encoding UTF-8";

bool begins(std::string_view file, std::string_view mark) {
    return file.substr(0, mark.size()) == mark;
}

/// What the file is instead of a text in which every byte but a few stands for itself.
std::optional<std::string> other_kind(std::string_view file) {
    using namespace std::string_view_literals;
    if (begins(file, "PK\x03\x04"sv) || begins(file, "\xD0\xCF\x11\xE0"sv))
        return "this is a workbook of a program for tables, not a list in text";
    if (begins(file, "%PDF"sv)) return "this is a printed page (PDF), not a list in text";
    if (begins(file, "\xFF\xFE"sv) || begins(file, "\xFE\xFF"sv))
        return "this file is in the encoding UTF-16";
    // Without a mark: in UTF-16 every other byte of a plain letter is zero.
    if (file.substr(0, 4096).find('\0') != std::string_view::npos)
        return "this file holds zero bytes: it is in the encoding UTF-16, or no text";
    return std::nullopt;
}

bool continues(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

/// What the byte stands for in ISO 8859-1, as UTF-8; nothing for a control character of it.
std::optional<std::string> western(unsigned char byte) {
    if (byte < 0xA0) return std::nullopt;
    return std::string{static_cast<char>(0xC0 | byte >> 6),
                       static_cast<char>(0x80 | (byte & 0x3F))};
}

std::string told(std::string_view line, std::size_t place) {
    const auto before = line.substr(0, place);
    const auto character =
        std::count_if(before.begin(), before.end(), [](char byte) { return !continues(byte); }) + 1;
    const auto byte = static_cast<unsigned char>(line[place]);
    if (byte < 0x20 || byte == 0x7F)
        return fmt::format("character {} of this line is a control character (byte {:02X})",
                           character, byte);
    const std::string as = western(byte)
                               ? fmt::format("; in ISO 8859-1 it would be \"{}\"", *western(byte))
                               : std::string{};
    return fmt::format("character {} of this line (byte {:02X}) is not UTF-8{}", character, byte,
                       as);
}

/// The first byte at which the line cannot be read.
std::optional<std::size_t> first_bad(std::string_view line) {
    if (wire::fits(line, line.size())) return std::nullopt;
    std::size_t good = 0;
    // Character by character: what is whole and fits is passed.
    while (good < line.size()) {
        std::size_t end = good + 1;
        while (end < line.size() && end - good < 4 && continues(line[end])) ++end;
        if (!wire::fits(line.substr(good, end - good), end - good)) return good;
        good = end;
    }
    return good == 0 ? 0 : good - 1;
}

}  // namespace

std::vector<EncodingFault> encoding_faults(std::string_view file) {
    if (const auto kind = other_kind(file)) return {{0, *kind, save_as_utf8}};
    std::vector<EncodingFault> faults;
    std::uint32_t number = 0;
    while (!file.empty()) {
        ++number;
        const std::size_t end = std::min(file.find('\n'), file.size());
        std::string line{file.substr(0, end)};
        std::replace(line.begin(), line.end(), '\r', ' ');
        if (const auto bad = first_bad(line))
            faults.push_back({number, told(line, *bad), save_as_utf8});
        file.remove_prefix(std::min(end + 1, file.size()));
    }
    return faults;
}

}  // namespace courthand::server::desk
