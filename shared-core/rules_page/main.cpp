// courthand-rules-page [--check FILE] --cases FOLDER
//
// Prints the page of all reasons: text, severity, remedy before and after the service is hit, the
// published rule of each family, and the first case that covers it. With --check it compares the
// page with a file instead, and fails when they differ or when a reason has no case.
#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "courthand/match/state.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/reason.h"
#include "courthand/rules/remedy_words.h"
#include "rules/context.h"

namespace {

using namespace courthand;

std::string read_file(const std::filesystem::path& path) {
    std::ifstream file{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{file}, {}};
}

/// For each reason the first case, by name, that expects it.
std::map<Reason, std::string> covering_cases(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> paths;
    for (const auto& entry : std::filesystem::recursive_directory_iterator{folder})
        if (entry.path().extension() == ".match") paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    std::map<Reason, std::string> covering;
    for (const auto& path : paths) {
        const std::string text = read_file(path);
        for (std::size_t i = 0; i < reason_count; ++i) {
            const auto reason = static_cast<Reason>(i);
            const std::string word{describe(reason).word};
            for (const char* form : {"expect armed ", "expect open ", "expect raised "})
                if (text.find(form + word + " ") != std::string::npos)
                    covering.emplace(reason, std::filesystem::relative(path, folder).string());
        }
    }
    return covering;
}

constexpr std::string_view current = "international-2025";

/// The remedy for a first fault of a team under a profile.
std::string remedy(std::string_view profile, Reason reason, bool after_contact) {
    const Rules& rules = find_profile(profile)->rules;
    MatchState state{};
    Standing fault;
    fault.reason = reason;
    fault.phase = after_contact ? Phase::open : Phase::armed;
    fault.in_rally = after_contact ? 1 : 0;
    state.set.stage = after_contact ? Stage::in_play : Stage::dead_ball;
    // Of a first fault: no points lie behind it, no places are to be restored.
    const Remedy whole = rules::remedy_of(rules, state, fault);
    return remedy_words({whole.action, whole.team}, fault.team, {"the team", "the opponent"});
}

const char* word_of(Severity severity) {
    switch (severity) {
        case Severity::critical:
            return "critical";
        case Severity::high:
            return "high";
        case Severity::medium:
            return "medium";
        case Severity::low:
            return "low";
    }
    return "";
}

const char* word_of(Actor actor) {
    switch (actor) {
        case Actor::table:
            return "table";
        case Actor::second_referee:
            return "second referee";
        case Actor::first_referee:
            return "first referee";
    }
    return "";
}

std::string references(const ReasonRow& row) {
    constexpr std::array<const char*, family_count> names{"International", "US domestic",
                                                          "US high school", "US college women"};
    std::string text;
    for (std::size_t f = 0; f < family_count; ++f)
        if (!row.reference[f].empty())
            text += fmt::format("{}{}: {}", text.empty() ? "" : "<br>", names[f], row.reference[f]);
    return text;
}

bool applies(std::string_view profile, Reason reason) {
    const auto family = static_cast<std::size_t>(find_profile(profile)->rules.family);
    return !describe(reason).reference[family].empty();
}

/// Rows for a reason: the profiles with another remedy than the current edition, alike together.
std::string differing_rows(Reason reason) {
    std::map<std::pair<std::string, std::string>, std::string> alike;
    const std::pair usual{remedy(current, reason, false), remedy(current, reason, true)};
    for (const std::string& profile : profile_ids()) {
        const std::pair own{remedy(profile, reason, false), remedy(profile, reason, true)};
        if (own == usual || !applies(profile, reason)) continue;
        std::string& names = alike[own];
        names += fmt::format("{}`{}`", names.empty() ? "" : ", ", profile);
    }
    std::string text;
    for (const auto& [own, names] : alike)
        text += fmt::format("| `{}` | {} | {} | {} |\n", describe(reason).word, names, own.first,
                            own.second);
    return text;
}

std::string differences() {
    std::string text =
        "\n## Where profiles differ in the remedy\n\n"
        "| reason | profiles | before | after |\n|---|---|---|---|\n";
    for (std::size_t i = 0; i < reason_count; ++i) text += differing_rows(static_cast<Reason>(i));
    return text;
}

/// A parameter of a profile; every profile has all of them.
const ProfileValue& value_of(const Profile& profile, std::string_view key) {
    return *std::find_if(profile.values.begin(), profile.values.end(),
                         [&](const ProfileValue& v) { return v.key == key; });
}

/// Which book each profile follows, and how much of it was not seen in print.
std::string profiles() {
    std::string text =
        "\n## Profiles\n\n"
        "A rule number above is that of the edition it names; a profile of another edition follows "
        "its own book. `courthand-replay --profile-diff A B` prints what differs between two, each "
        "value with its source.\n\n"
        "| profile | book | an illegal replacement counts from | a fault found late cancels | "
        "parameters | from memory | common practice |\n|---|---|---|---|---|---|---|\n";
    for (const std::string& id : profile_ids()) {
        const Profile& profile = *find_profile(id);
        const auto resting_on = [&](Evidence evidence) {
            return std::count_if(profile.values.begin(), profile.values.end(),
                                 [&](const ProfileValue& v) { return v.evidence == evidence; });
        };
        text += fmt::format("| `{}` | {} | {} | {} | {} | {} | {} |\n", id,
                            value_of(profile, "family").source,
                            value_of(profile, "libero.illegal-replacement-opens").value,
                            value_of(profile, "fault.cancels").value, profile.values.size(),
                            resting_on(Evidence::memory), resting_on(Evidence::practice));
    }
    return text;
}

/// On what it rests that the rally the opponent has won is the point of a fault of service.
struct OwnText {
    std::string_view word;  ///< the reason's
    std::string_view says;
    std::string_view source;
};

/// Each by its own text: what is printed for one of them is not taken over for another.
constexpr std::array own_texts{
    OwnText{"wrong-server", "one point only, whatever the result of the rally was",
            "FIVB Official Volleyball Rules 2021-2024, rule 7.7.1.1"},
    OwnText{
        "positional-fault",
        "a fault in the rally that is played: it costs that rally, and a rally is one point; it "
        "ends with the rally that the opponent has won",
        "FIVB Official Volleyball Rules 2021-2024, rules 7.5.4, 6.1.2.1 and 6.1.3"},
    OwnText{
        "libero-may-not-serve",
        "the service is the fault and not the replacement, which was legal, so that it costs the "
        "rally and has no consequences of an illegal substitution; no text says it of a rally "
        "that was played to its end",
        "FIVB Official Volleyball Rules 2021-2024, rules 19.3.1.3 and 6.1.3; for the rally that "
        "was played: memory"},
    OwnText{"libero-second-serving-position",
            "in the US domestic text a wrong server, as the row of `wrong-server`; the US school "
            "and college profiles "
            "read every fault so",
            "US national federation domestic rules, libero-serving text of about 2006-2011, rule "
            "7.7.1; high school and college: memory"},
};

const OwnText* own_text(std::string_view word) {
    const auto* const found = std::find_if(own_texts.begin(), own_texts.end(),
                                           [&](const OwnText& text) { return text.word == word; });
    return found == own_texts.end() ? nullptr : found;
}

bool of_service(const ReasonRow& row) {
    return row.life == Life::service;
}

std::string own_text_rows() {
    std::string text;
    for (const ReasonRow& row : reason_table)
        if (const OwnText* const own = own_text(row.word))
            text += fmt::format("| `{}` | {} | {} |\n", row.word, own->says, own->source);
    return text;
}

/// Two readings of one remedy, and what each reason's and each profile's rests on.
std::string lost_rallies() {
    std::string text =
        "\n## When the opponent has won the rally already\n\n"
        "Of a fault of service the opponent's own point is the one, each by its own text:\n\n"
        "| reason | why the won rally is its point | rests on |\n|---|---|---|\n" +
        own_text_rows() +
        "\nFor an illegal substitution the opponent keeps the points it won and is given point and "
        "service besides, and so it is for what has the consequences of one; `of-any-fault` reads "
        "it as the wrong service everywhere.\n\n"
        "| profile | the won rally is the point | rests on |\n|---|---|---|\n";
    for (const std::string& id : profile_ids()) {
        const ProfileValue& value = value_of(*find_profile(id), "fault.lost-rally-is-the-point");
        text += fmt::format("| `{}` | {} | {} |\n", id, value.value, value.source);
    }
    return text;
}

std::string page(const std::map<Reason, std::string>& cases) {
    std::string text =
        "# Reasons of the rules core\n\n"
        "Written by `courthand-rules-page` from the table that the judge uses; do not edit.\n\n"
        "A verdict names one of these reasons. *Before* is what the rules prescribe for a team's "
        "first such fault while the ball is dead, *after* once the service has been hit with it, "
        "both under the profile `international-2025`; a second table shows where other profiles "
        "differ. *Who acts* is who sees to it first, by common practice. \"memory\" and "
        "\"common practice, no source\" mark references that were not seen in print. The last "
        "column is the first script in `tests/cases` that expects the reason.\n\n"
        "| reason | what it says | severity | who acts | before | after | rule | case |\n"
        "|---|---|---|---|---|---|---|---|\n";
    for (std::size_t i = 0; i < reason_count; ++i) {
        const auto reason = static_cast<Reason>(i);
        const ReasonRow& row = describe(reason);
        const auto found = cases.find(reason);
        text += fmt::format("| `{}` | {} | {} | {} | {} | {} | {} | {} |\n", row.word, row.text,
                            word_of(row.severity), word_of(row.actor),
                            remedy(current, reason, false), remedy(current, reason, true),
                            references(row), found == cases.end() ? "none" : found->second);
    }
    return text + differences() + lost_rallies() + profiles();
}

int check(const std::string& text, const std::filesystem::path& file,
          const std::map<Reason, std::string>& cases) {
    int wrong = 0;
    for (std::size_t i = 0; i < reason_count; ++i)
        if (cases.find(static_cast<Reason>(i)) == cases.end()) {
            std::cerr << "no case expects " << describe(static_cast<Reason>(i)).word << '\n';
            wrong = 1;
        }
    for (const ReasonRow& row : reason_table)
        if (of_service(row) != (own_text(row.word) != nullptr)) {
            std::cerr << "on what it rests that " << row.word
                      << " is one point with the rally the opponent won: a row of own_texts "
                      << (of_service(row) ? "is missing\n" : "is of no fault of service\n");
            wrong = 1;
        }
    if (read_file(file) != text) {
        std::cerr << file.string()
                  << " is not current: run courthand-rules-page --cases tests/cases"
                  << " > shared-core/RULES.md\n";
        wrong = 1;
    }
    return wrong;
}

}  // namespace

int main(int count, char** words_given) {
    const std::vector<std::string> args(words_given + 1, words_given + count);
    std::filesystem::path file;
    std::filesystem::path folder;
    for (std::size_t i = 0; i + 1 < args.size(); i += 2) {
        if (args[i] == "--check") file = args[i + 1];
        if (args[i] == "--cases") folder = args[i + 1];
    }
    if (!std::filesystem::is_directory(folder)) {
        std::cerr << "usage: courthand-rules-page [--check FILE] --cases FOLDER\n";
        return 2;
    }
    const auto cases = covering_cases(folder);
    const std::string text = page(cases);
    if (!file.empty()) return check(text, file, cases);
    std::cout << text;
    return 0;
}
