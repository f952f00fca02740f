#include <map>
#include <utility>

#include "courthand/rules/profile.h"
#include "rules/embedded_profiles.h"

namespace courthand {
namespace {

/// Every built-in profile, read once. A built-in file that cannot be read is a bug of the build,
/// found by the first test that names it: it is then simply not there.
const std::map<std::string, Profile, std::less<>>& library() {
    static const std::map<std::string, Profile, std::less<>> profiles = [] {
        std::map<std::string, Profile, std::less<>> all;
        for (const rules::EmbeddedProfile& file : rules::embedded_profiles()) {
            auto read = read_profile(file.text, &profile_text);
            if (auto* profile = std::get_if<Profile>(&read))
                all.emplace(std::string{file.id}, std::move(*profile));
        }
        return all;
    }();
    return profiles;
}

}  // namespace

std::vector<std::string> profile_ids() {
    std::vector<std::string> ids;
    for (const rules::EmbeddedProfile& file : rules::embedded_profiles())
        ids.emplace_back(file.id);
    return ids;
}

std::string profile_text(std::string_view id) {
    for (const rules::EmbeddedProfile& file : rules::embedded_profiles())
        if (file.id == id) return std::string{file.text};
    return {};
}

const Profile* find_profile(std::string_view id) {
    const auto found = library().find(id);
    return found == library().end() ? nullptr : &found->second;
}

}  // namespace courthand
