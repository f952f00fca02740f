#include <fmt/format.h>

#include "courthand/rules/parameter.h"
#include "replay/report.h"

namespace courthand::replay {
namespace {

const ProfileValue* find_value(const Profile& profile, std::string_view key) {
    for (const ProfileValue& value : profile.values)
        if (value.key == key) return &value;
    return nullptr;
}

std::string side(const Profile& profile, const ProfileValue* value) {
    if (value == nullptr) return fmt::format("  {:<24} not given\n", profile.id);
    return fmt::format("  {:<24} {}   ({}: {})\n", profile.id, value->value,
                       evidence_word(value->evidence), value->source);
}

}  // namespace

std::string profile_difference(const Profile& x, const Profile& y) {
    std::string out;
    std::size_t count = 0;
    const auto compare = [&](const std::string& key) {
        const ProfileValue* const in_x = find_value(x, key);
        const ProfileValue* const in_y = find_value(y, key);
        if (in_x != nullptr && in_y != nullptr && in_x->value == in_y->value) return;
        out += key + '\n' + side(x, in_x) + side(y, in_y);
        ++count;
    };
    for (const ProfileValue& value : x.values) compare(value.key);
    for (const ProfileValue& value : y.values)
        if (find_value(x, value.key) == nullptr) compare(value.key);
    return out + fmt::format("{} parameters differ\n", count);
}

}  // namespace courthand::replay
