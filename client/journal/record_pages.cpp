#include "client/journal/record_pages.h"

#include <optional>

namespace courthand::client {
namespace {

constexpr std::uint8_t table_leaf = 0x0d;
constexpr std::size_t file_header_bytes = 100;
constexpr std::size_t leaf_header_bytes = 8;
/// More columns than any of our tables has.
constexpr std::size_t most_columns = 32;

class Reader {
  public:
    Reader(std::string_view data, std::size_t at) : data_{data}, at_{at} {}

    [[nodiscard]] std::optional<std::uint64_t> big_endian(std::size_t size) {
        if (at_ + size > data_.size()) return std::nullopt;
        std::uint64_t value = 0;
        for (std::size_t i = 0; i < size; ++i) value = value << 8 | byte(at_++);
        return value;
    }
    [[nodiscard]] std::optional<std::uint64_t> varint() {
        std::uint64_t value = 0;
        for (int i = 0; i < 9; ++i) {
            if (at_ >= data_.size()) return std::nullopt;
            const std::uint8_t next = byte(at_++);
            if (i == 8) return value << 8 | next;
            value = value << 7 | (next & 0x7fU);
            if ((next & 0x80U) == 0) return value;
        }
        return value;
    }
    [[nodiscard]] std::optional<std::string> bytes(std::size_t size) {
        if (size > data_.size() - at_) return std::nullopt;
        std::string out{data_.substr(at_, size)};
        at_ += size;
        return out;
    }
    [[nodiscard]] std::size_t at() const { return at_; }

  private:
    [[nodiscard]] std::uint8_t byte(std::size_t at) const {
        return static_cast<std::uint8_t>(data_[at]);
    }
    std::string_view data_;
    std::size_t at_;
};

std::optional<RawValue> integer(Reader& reader, std::size_t size) {
    const auto raw = reader.big_endian(size);
    if (!raw) return std::nullopt;
    const unsigned unused = static_cast<unsigned>(64 - 8 * size);
    return RawValue{static_cast<std::int64_t>(*raw << unused) >> unused};
}

std::optional<RawValue> value_of(Reader& reader, std::uint64_t type) {
    switch (type) {
        case 0:
            return RawValue{Null{}};
        case 1:
        case 2:
        case 3:
        case 4:
            return integer(reader, static_cast<std::size_t>(type));
        case 5:
            return integer(reader, 6);
        case 6:
            return integer(reader, 8);
        case 8:
            return RawValue{std::int64_t{0}};
        case 9:
            return RawValue{std::int64_t{1}};
        default:
            break;
    }
    if (type < 12) return std::nullopt;  // a floating number or reserved: none of ours
    auto bytes = reader.bytes(static_cast<std::size_t>((type - 12) / 2));
    if (!bytes) return std::nullopt;
    return RawValue{std::move(*bytes)};
}

std::optional<RawRow> row_at(std::string_view page, std::size_t offset) {
    Reader cell{page, offset};
    const auto payload = cell.varint();
    const auto row_id = cell.varint();
    if (!payload || !row_id || *payload > page.size() - cell.at()) return std::nullopt;
    const std::string_view record = page.substr(0, cell.at() + static_cast<std::size_t>(*payload));
    Reader types{record, cell.at()};
    const auto header = types.varint();
    if (!header || *header > record.size() - cell.at()) return std::nullopt;
    const std::size_t values_at = cell.at() + static_cast<std::size_t>(*header);
    Reader values{record, values_at};
    RawRow row;
    while (types.at() < values_at && row.size() < most_columns) {
        const auto type = types.varint();
        if (!type) return std::nullopt;
        auto value = value_of(values, *type);
        if (!value) return std::nullopt;
        row.push_back(std::move(*value));
    }
    return row;
}

}  // namespace

void rows_of_page(std::string_view page, bool first,
                  const std::function<void(const RawRow&)>& row) {
    const std::size_t start = first ? file_header_bytes : 0;
    if (page.size() < start + leaf_header_bytes) return;
    if (static_cast<std::uint8_t>(page[start]) != table_leaf) return;
    Reader header{page, start + 3};
    const std::uint64_t cells = header.big_endian(2).value_or(0);
    Reader pointers{page, start + leaf_header_bytes};
    for (std::uint64_t i = 0; i < cells; ++i) {
        const auto pointer = pointers.big_endian(2);
        if (!pointer) return;
        if (*pointer >= page.size()) continue;
        if (const auto found = row_at(page, static_cast<std::size_t>(*pointer))) row(*found);
    }
}

}  // namespace courthand::client
