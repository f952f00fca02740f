// Events to be drawn, and what other programs read from the paper (poppler).
#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include "server/papers/event_papers.h"
#include "tests/testkit/scratch_folder.h"
#include "tests/unit/event/event_of.h"

namespace courthand::server::papers::kit {

inline const std::string head_hash =
    "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";

inline std::string pdf_of(const event::TournamentState& state) {
    auto drawn = event_papers(state, head_hash);
    EXPECT_TRUE(drawn.ok()) << drawn.status().text();
    return drawn.ok() ? *std::move(drawn) : std::string{};
}

inline event::TournamentState case_of(const std::string& name) {
    std::ifstream in{std::string{COURTHAND_EVENT_CASES} + "/" + name};
    return event::testing::state_of({std::istreambuf_iterator<char>{in}, {}});
}

/// Keeps the paper as a file, also for people who want to look at it, and what `program` prints.
inline std::string printed_by(const std::string& program, const std::string& pdf,
                              const std::string& name) {
    const testkit::ScratchFolder folder;
    const std::filesystem::path file = folder.path() / (name + ".pdf");
    std::ofstream{file, std::ios::binary} << pdf;
    if (const char* artefacts = std::getenv("COURTHAND_ARTEFACTS")) {
        std::filesystem::create_directories(artefacts);
        std::filesystem::copy_file(file, std::filesystem::path{artefacts} / (name + ".pdf"),
                                   std::filesystem::copy_options::overwrite_existing);
    }
    std::FILE* const pipe = popen(fmt::format(fmt::runtime(program), file.string()).c_str(), "r");
    std::string text;
    char buffer[4096];
    while (const std::size_t size = std::fread(buffer, 1, sizeof buffer, pipe))
        text.append(buffer, size);
    EXPECT_EQ(pclose(pipe), 0) << program;
    return text;
}

inline std::string text_of(const std::string& pdf, const std::string& name) {
    return printed_by("pdftotext -layout {} -", pdf, name);
}
inline std::string facts_of(const std::string& pdf, const std::string& name) {
    return printed_by("pdfinfo {}", pdf, name);
}

/// A word where poppler sees it, in points.
struct Word {
    std::size_t sheet = 0;
    double sheet_width = 0;
    double left = 0, top = 0, right = 0, bottom = 0;
    std::string text;

    /// Letters have room above and below in their line, which may lie over that of the next.
    [[nodiscard]] bool covers(const Word& other) const {
        const auto inset = [](const Word& word) { return 0.3 * (word.bottom - word.top); };
        return left + 0.5 < other.right - 0.5 && other.left + 0.5 < right - 0.5 &&
               top + inset(*this) < other.bottom - inset(other) &&
               other.top + inset(other) < bottom - inset(*this);
    }
};

inline std::vector<Word> words_of(const std::string& pdf, const std::string& name) {
    std::istringstream lines{printed_by("pdftotext -bbox {} -", pdf, name)};
    std::vector<Word> words;
    Word word;
    for (std::string line; std::getline(lines, line);) {
        if (std::sscanf(line.c_str(), " <page width=\"%lf\"", &word.sheet_width) == 1) ++word.sheet;
        if (std::sscanf(line.c_str(), " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\">",
                        &word.left, &word.top, &word.right, &word.bottom) != 4)
            continue;
        word.text = line.substr(line.find('>') + 1);
        words.push_back(word);
    }
    return words;
}

/// A bracket of `teams`, played by the seeds as far as `played` matches.
inline std::string bracket_of(int teams, const std::string& kind, int played) {
    std::string script =
        "tournament \"Harbour Cup\" from 2026-11-28 to 2026-11-28 zone Europe/London\n"
        "division U16 profile international-2021 chain international-2017 called \"Under 16\" "
        "format best-of 3\n";
    for (int t = 1; t <= teams; ++t) script += fmt::format("team \"Pier {}\" in U16\n", t);
    script += fmt::format("bracket U16 {} prefix M\n", kind);
    for (int m = 1; m <= played; ++m)
        script += fmt::format("result M{} paper {}\n", m,
                              m % 3 == 0 ? "25-20 23-25 15-12" : "25-20 25-22");
    return script;
}

}  // namespace courthand::server::papers::kit
