// Reads the values that stand in the fields of a fact, one overload for each type, each within the
// bounds of its field.
#pragma once

#include <string_view>
#include <vector>

#include "courthand/event/fact_fields.h"
#include "script/line_reader.h"

namespace courthand::event {

using script::LineReader;

/// `what`, with its article, names what is missing or wrong.
void read_value(LineReader& line, std::string_view what, const Bounds<std::string>& bounds,
                std::string& out);
void read_value(LineReader& line, std::string_view what, const Bounds<Date>& bounds, Date& out);
void read_value(LineReader& line, std::string_view what, const Bounds<LocalTime>& bounds,
                LocalTime& out);
void read_value(LineReader& line, std::string_view what, const Bounds<Source>& bounds, Source& out);
void read_value(LineReader& line, std::string_view what, const Bounds<SetScore>& bounds,
                SetScore& out);
void read_value(LineReader& line, std::string_view what, const Bounds<FormatChoice>& bounds,
                FormatChoice& out);
void read_value(LineReader& line, std::string_view what, const Bounds<Jersey>& bounds, Jersey& out);
void read_value(LineReader& line, std::string_view what, const Bounds<RecordId>& bounds,
                RecordId& out);
void read_value(LineReader& line, std::string_view what, const Bounds<HeadHash>& bounds,
                HeadHash& out);

/// A whole number from `least` to `most`.
[[nodiscard]] std::uint64_t read_number(LineReader& line, std::string_view what,
                                        std::uint64_t least, std::uint64_t most);

/// A word of letters, digits and - . _ + / that is not too long.
[[nodiscard]] std::string read_word(LineReader& line, std::string_view what);

template <Count Value>
void read_value(LineReader& line, std::string_view what, const Bounds<Value>& bounds, Value& out) {
    out = static_cast<Value>(read_number(line, what, bounds.least, bounds.most));
}

template <Choice Value>
void read_value(LineReader& line, std::string_view what, const Bounds<Value>&, Value& out) {
    out = line.choice<Value>(what);
}

/// Words of a list stand together, with commas between.
void read_words(LineReader& line, std::string_view what,
                const Bounds<std::vector<std::string>>& bounds, std::vector<std::string>& out);

/// Whether another item of a list comes next.
[[nodiscard]] bool next_is_source(const LineReader& line) noexcept;
[[nodiscard]] inline bool item_comes(const LineReader& line, const std::string*) {
    return line.next_is_quoted();
}
[[nodiscard]] inline bool item_comes(const LineReader& line, const Source*) {
    return next_is_source(line);
}
template <class Item>
[[nodiscard]] bool item_comes(const LineReader& line, const Item*) {
    return line.next_is_number();
}

template <class Item>
void read_value(LineReader& line, std::string_view what, const Bounds<std::vector<Item>>& bounds,
                std::vector<Item>& out) {
    out.clear();
    if constexpr (std::is_same_v<Item, std::string>)
        if (bounds.item.letters == Letters::word) return read_words(line, what, bounds, out);
    while (!line.failed() && (item_comes(line, static_cast<const Item*>(nullptr)) ||
                              out.size() < bounds.fewest_items)) {
        Item item{};
        read_value(line, what, bounds.item, item);
        out.push_back(std::move(item));
        if (out.size() > bounds.most_items)
            line.fail(
                "more than the " + std::to_string(bounds.most_items) + " that stand in one fact",
                "leave some out, or say them in a fact of their own");
    }
}

}  // namespace courthand::event
