// Damaged scripts: whatever happens to a file, reading it gives a script or an error whose place
// lies inside the text. The seed is fixed, so that a failure can be repeated.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>
#include <sstream>

#include "courthand/script/script.h"
#include "script/tokens.h"

namespace courthand {
namespace {

constexpr unsigned seed = 20140913;
constexpr int rounds_per_file = 12;
constexpr int most_changes = 6;

std::vector<std::string> case_texts() {
    std::vector<std::filesystem::path> paths;
    for (const auto& file : std::filesystem::recursive_directory_iterator{COURTHAND_CASES})
        if (file.path().extension() == ".match") paths.push_back(file.path());
    std::sort(paths.begin(), paths.end());
    std::vector<std::string> texts;
    for (const auto& path : paths) {
        std::ostringstream text;
        text << std::ifstream{path}.rdbuf();
        texts.push_back(text.str());
    }
    return texts;
}

class Damage {
  public:
    std::string operator()(std::string text) {
        for (int n = below(most_changes) + 1; n > 0 && !text.empty(); --n) change(text);
        return text;
    }

  private:
    int below(int limit) { return static_cast<int>(random_() % static_cast<unsigned>(limit)); }
    std::size_t place(const std::string& text) { return random_() % text.size(); }

    void change(std::string& text) {
        const std::size_t at = place(text);
        switch (below(6)) {
            case 0:
                text[at] = static_cast<char>(random_() & 0xFFU);
                break;
            case 1:
                text.erase(at, 1);
                break;
            case 2:
                text.insert(at, 1, "\"#\\@\n \t-?AB09"[below(13)]);
                break;
            case 3:
                text.erase(at, static_cast<std::size_t>(below(40)));
                break;
            case 4:
                text.insert(at, text.substr(place(text), 30));
                break;
            default:
                std::swap(text[at], text[place(text)]);
                break;
        }
    }

    std::mt19937 random_{seed};
};

/// Characters of line `number`; one more is the place right after it.
std::size_t characters_of(const std::string& text, std::uint32_t number) {
    std::istringstream in{text};
    std::string line;
    for (std::uint32_t i = 0; i < number; ++i)
        if (!std::getline(in, line)) return 0;
    return script::utf8_length(line).valid ? script::utf8_length(line).characters : line.size();
}

std::size_t lines_of(const std::string& text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) + 1;
}

TEST(DamagedScript, GivesAScriptOrAPlaceInsideTheText) {
    Damage damage;
    std::size_t errors = 0;
    for (const std::string& good : case_texts())
        for (int round = 0; round < rounds_per_file; ++round) {
            const std::string text = damage(good);
            const std::variant<Script, ScriptError> read = read_script(text);
            const auto* const error = std::get_if<ScriptError>(&read);
            if (error == nullptr) {
                const std::string written = write_script(std::get<Script>(read));
                const std::variant<Script, ScriptError> again = read_script(written);
                const auto* const script = std::get_if<Script>(&again);
                ASSERT_NE(script, nullptr) << std::get<ScriptError>(again).message << '\n'
                                           << written;
                EXPECT_TRUE(*script == std::get<Script>(read)) << text << "\nbecame\n" << written;
                continue;
            }
            ++errors;
            EXPECT_GE(error->line, 1U);
            EXPECT_LE(error->line, lines_of(text)) << text;
            EXPECT_GE(error->column, 1U);
            EXPECT_LE(error->column, characters_of(text, error->line) + 1) << text;
            EXPECT_FALSE(error->message.empty());
            EXPECT_FALSE(error->cure.empty());
        }
    EXPECT_GT(errors, 0U);
}

}  // namespace
}  // namespace courthand
