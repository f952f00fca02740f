#include "server/desk/csv_writer.h"

#include <fmt/format.h>

namespace courthand::server::desk {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr char guard = '\'';

bool computed(char first) {
    return std::string_view{"=+-@\t\r"}.find(first) != std::string_view::npos;
}

/// A text that somebody may have guarded: any number of guards, then what is computed.
bool begins_guarded(std::string_view text) {
    const std::size_t first = text.find_first_not_of(guard);
    return first != 0 && first != std::string_view::npos && computed(text[first]);
}

}  // namespace

std::string guarded(std::string_view text) {
    const bool needs = !text.empty() && (computed(text.front()) || begins_guarded(text));
    return needs ? std::string{guard} + std::string{text} : std::string{text};
}

std::string_view unguarded(std::string_view cell) {
    if (begins_guarded(cell)) cell.remove_prefix(1);
    return cell;
}

CsvWriter::CsvWriter() : bytes_{byte_order_mark} {}

void CsvWriter::separate() {
    if (row_begun_) bytes_ += ',';
    row_begun_ = true;
}

CsvWriter& CsvWriter::text(std::string_view cell) {
    separate();
    const std::string safe = guarded(cell);
    // A blank at either end is kept by quotes.
    const bool quoted = safe.find_first_of(",;\t\"\r\n") != std::string::npos ||
                        safe.starts_with(' ') || safe.ends_with(' ');
    if (!quoted) {
        bytes_ += safe;
        return *this;
    }
    bytes_ += '"';
    for (const char c : safe) {
        if (c == '"') bytes_ += '"';
        bytes_ += c;
    }
    bytes_ += '"';
    return *this;
}

CsvWriter& CsvWriter::number(std::int64_t cell) {
    separate();
    bytes_ += fmt::format("{}", cell);
    return *this;
}

void CsvWriter::end_row() {
    bytes_ += "\r\n";
    row_begun_ = false;
}

}  // namespace courthand::server::desk
