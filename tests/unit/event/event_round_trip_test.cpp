// read(write(script)) is the script, for every kind and every case; damage gives an error in place.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "courthand/event_script/event_replay.h"
#include "courthand/event_script/event_script.h"
#include "draw_event.h"

namespace courthand::event {
namespace {

constexpr unsigned seed = 1895;

EventScript script_of(const std::string& text) {
    const auto read = read_event(text);
    if (const auto* error = std::get_if<ScriptError>(&read)) {
        ADD_FAILURE() << "line " << error->line << ", column " << error->column << ": "
                      << error->message << "; " << error->cure << "\n"
                      << text;
        return {};
    }
    return std::get<EventScript>(read);
}

std::vector<std::string> case_texts() {
    std::vector<std::filesystem::path> paths;
    for (const auto& file : std::filesystem::recursive_directory_iterator{COURTHAND_EVENT_CASES})
        if (file.path().extension() == ".event") paths.push_back(file.path());
    std::sort(paths.begin(), paths.end());
    std::vector<std::string> texts;
    for (const auto& path : paths) {
        std::ostringstream text;
        text << std::ifstream{path, std::ios::binary}.rdbuf();
        texts.push_back(text.str());
    }
    return texts;
}

TEST(EventRoundTrip, EveryKindReadsBackEqual) {
    testing::Dice dice{seed};
    for (int round = 0; round < 400; ++round)
        for (std::size_t kind = 0; kind < kind_count; ++kind) {
            EventScript script;
            script.source = "memory";
            Said said{dice.draw_fact(kind), {}};
            if (dice.coin()) dice.draw(a_name, said.words);
            script.lines.push_back({1, said});
            const std::string text = write_event(script);
            if (text.find('\n', text.find('\n') + 1) > longest_line) continue;
            ASSERT_EQ(script_of(text), script) << text;
        }
}

TEST(EventRoundTrip, EveryCaseReadsBackEqual) {
    const auto texts = case_texts();
    ASSERT_FALSE(texts.empty());
    for (const std::string& text : texts) {
        const EventScript script = script_of(text);
        const std::string written = write_event(script);
        const EventScript again = script_of(written);
        EXPECT_EQ(again, script);
        EXPECT_EQ(write_event(again), written);
    }
}

/// Whatever happens to a file, reading it gives a script or an error whose place is in the text.
TEST(EventRoundTrip, DamageGivesAScriptOrAPlaceInTheText) {
    testing::Dice dice{seed};
    std::size_t errors = 0;
    for (const std::string& good : case_texts())
        for (int round = 0; round < 40; ++round) {
            std::string text = good;
            for (int change = 0; change < 3 && !text.empty(); ++change) {
                const std::size_t at = dice.below(text.size());
                if (dice.coin())
                    text[at] = static_cast<char>(dice.below(256));
                else
                    text.erase(at, dice.below(20));
            }
            const auto read = read_event(text);
            if (const auto* script = std::get_if<EventScript>(&read)) {
                EXPECT_EQ(script_of(write_event(*script)), *script);
                (void)failures(*script);
                continue;
            }
            ++errors;
            const auto& error = std::get<ScriptError>(read);
            const auto lines = std::count(text.begin(), text.end(), '\n') + 1;
            EXPECT_GE(error.line, 1u);
            EXPECT_LE(error.line, static_cast<std::uint32_t>(lines));
            EXPECT_GE(error.column, 1u);
            EXPECT_FALSE(error.message.empty());
            EXPECT_FALSE(error.cure.empty());
        }
    EXPECT_GT(errors, 100u);
}

}  // namespace
}  // namespace courthand::event
