#include <map>
#include <mutex>
#include <utility>
#include <variant>

#include "courthand/rules/profile.h"
#include "rules/embedded_profiles.h"

namespace courthand {
namespace {

/// Built-in profiles, each read when it is first asked for. A program that uses one should not wait
/// for all. Entries are never removed, so that pointers to them stay good.
class Library {
  public:
    const Profile* find(std::string_view id) {
        const std::scoped_lock lock{mutex_};
        const auto known = read_.find(id);
        if (known != read_.end()) return &known->second;
        const std::string text = profile_text(id);
        if (text.empty()) return nullptr;
        auto read = read_profile(text, &profile_text);
        // A built-in file that cannot be read is a bug of the build, caught by the profile tests.
        auto& profile = std::get<Profile>(read);
        return &read_.emplace(std::string{id}, std::move(profile)).first->second;
    }

  private:
    std::mutex mutex_;
    std::map<std::string, Profile, std::less<>> read_;
};

}  // namespace

std::vector<std::string> profile_ids() {
    std::vector<std::string> ids;
    for (const rules::EmbeddedProfile& file : rules::embedded_profiles()) ids.emplace_back(file.id);
    return ids;
}

std::string profile_text(std::string_view id) {
    for (const rules::EmbeddedProfile& file : rules::embedded_profiles())
        if (file.id == id) return std::string{file.text};
    return {};
}

const Profile* find_profile(std::string_view id) {
    static Library library;
    return library.find(id);
}

}  // namespace courthand
