// How an event script writes the values that stand in the fields of a fact.
#pragma once

#include <string>
#include <vector>

#include "courthand/event/fact_fields.h"

namespace courthand::event {

[[nodiscard]] std::string value_text(const Bounds<std::string>& bounds, const std::string& value);
[[nodiscard]] std::string value_text(const Bounds<Date>& bounds, Date value);
[[nodiscard]] std::string value_text(const Bounds<LocalTime>& bounds, LocalTime value);
[[nodiscard]] std::string value_text(const Bounds<Source>& bounds, const Source& value);
[[nodiscard]] std::string value_text(const Bounds<SetScore>& bounds, SetScore value);
[[nodiscard]] std::string value_text(const Bounds<FormatChoice>& bounds, const FormatChoice& value);
[[nodiscard]] std::string value_text(const Bounds<Jersey>& bounds, Jersey value);
[[nodiscard]] std::string value_text(const Bounds<RecordId>& bounds, const RecordId& value);
[[nodiscard]] std::string value_text(const Bounds<HeadHash>& bounds, const HeadHash& value);

template <Count Value>
[[nodiscard]] std::string value_text(const Bounds<Value>&, Value value) {
    return std::to_string(value);
}
template <Choice Value>
[[nodiscard]] std::string value_text(const Bounds<Value>&, Value value) {
    return std::string{choice_word(value)};
}

template <class Item>
[[nodiscard]] std::string value_text(const Bounds<std::vector<Item>>& bounds,
                                     const std::vector<Item>& items) {
    char between = ' ';
    if constexpr (std::is_same_v<Item, std::string>)
        if (bounds.item.letters == Letters::word) between = ',';
    std::string out;
    for (const Item& item : items) {
        if (!out.empty()) out += between;
        out += value_text(bounds.item, item);
    }
    return out;
}

}  // namespace courthand::event
