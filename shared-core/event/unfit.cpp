#include "courthand/event/unfit.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <variant>

#include "courthand/event/fact_fields.h"

namespace courthand::event {
namespace {

[[nodiscard]] std::string cure(const Bounds<std::string>& bounds) {
    switch (bounds.letters) {
        case Letters::word:
            return fmt::format("write up to {} letters, digits and - . _ + /", bounds.most_bytes);
        case Letters::colour:
            return "write six hexadecimal digits, as in 1f3a5f";
        case Letters::any:
            break;
    }
    return fmt::format("write up to {} bytes, without special keys", bounds.most_bytes);
}
template <Count Value>
[[nodiscard]] std::string cure(const Bounds<Value>& bounds) {
    return fmt::format("write a number from {} to {}", bounds.least, bounds.most);
}
[[nodiscard]] std::string cure(const Bounds<Date>&) {
    return "write a day as in 2026-11-28";
}
[[nodiscard]] std::string cure(const Bounds<LocalTime>&) {
    return "write a moment as in 2026-11-28T09:30";
}
[[nodiscard]] std::string cure(const Bounds<SetScore>&) {
    return fmt::format("write up to {} points for each team", most_points);
}
template <class Value>
[[nodiscard]] std::string cure(const Bounds<Value>&) {
    return "correct it";
}
template <class Item>
[[nodiscard]] std::string cure(const Bounds<std::vector<Item>>& bounds) {
    return fmt::format("give {} to {} of them; of each, {}", bounds.fewest_items, bounds.most_items,
                       cure(bounds.item));
}

[[nodiscard]] std::string plain(std::string_view name) {
    std::string words{name};
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

/// "the time zone is empty": most of what is said above goes on from the name of the field.
[[nodiscard]] std::string sentence(std::string_view field, const std::string& message) {
    for (const std::string_view verb : {"is ", "has ", "names ", "does ", "compares "})
        if (message.starts_with(verb)) return fmt::format("the {} {}", plain(field), message);
    return fmt::format("the {} does not fit: {}", plain(field), message);
}

}  // namespace

std::optional<tournament::Fault> unfit(const Fact& fact) {
    const auto wrong_field = out_of_bounds(fact);
    if (!wrong_field) return std::nullopt;
    return std::visit(
        [&]<class Kind>(const Kind&) {
            tournament::Fault fault{plain(described<Kind>.name),
                                    sentence(wrong_field->field, wrong_field->message),
                                    "correct it"};
            for_each_field<Kind>([&](const auto& field) {
                if (field.name == wrong_field->field) fault.cure = cure(field.bounds);
            });
            return fault;
        },
        fact);
}

}  // namespace courthand::event
