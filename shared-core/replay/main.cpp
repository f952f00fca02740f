// courthand-replay: replays a match script and says what the rules make of every line.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <optional>

#include "courthand/event_script/event_program.h"
#include "replay/report.h"

namespace courthand::replay {
namespace {

constexpr int exit_fine = 0;
constexpr int exit_expectation_failed = 1;
constexpr int exit_unreadable = 2;

struct Options {
    std::string file;
    std::string format = "text";
    EntryNumber at = 0;
    std::string profile;
    std::string house_profile;
    bool hash = false;
    std::vector<std::string> difference;
};

int unreadable(const std::string& message) {
    fmt::print(stderr, "{}\n", message);
    return exit_unreadable;
}

/// Reads one byte more than a script may have, so that a huge file is refused and not swallowed.
std::optional<std::string> contents(const std::string& path) {
    std::ifstream in{path, std::ios::binary};
    if (!in) return std::nullopt;
    std::string text(largest_script + 1, '\0');
    in.read(text.data(), static_cast<std::streamsize>(text.size()));
    if (in.bad()) return std::nullopt;
    text.resize(static_cast<std::size_t>(in.gcount()));
    return text;
}

/// The profile that replaces the one of the script, if any was asked for.
struct Chosen {
    std::optional<Profile> profile;
    std::string error;
};

Chosen read_house_profile(const std::string& path) {
    const std::optional<std::string> text = contents(path);
    if (!text) return {{}, fmt::format("{}: cannot be read; check the name and its rights", path)};
    std::variant<Profile, std::vector<ProfileError>> read = read_profile(*text, profile_text);
    if (const auto* const errors = std::get_if<std::vector<ProfileError>>(&read)) {
        std::string message;
        for (const ProfileError& e : *errors)
            message += fmt::format("{}{}:{}: {}; {}", message.empty() ? "" : "\n", path, e.line,
                                   e.message, e.cure);
        return {{}, message};
    }
    return {std::get<Profile>(std::move(read)), {}};
}

Chosen choose_profile(const Options& options) {
    if (!options.house_profile.empty()) return read_house_profile(options.house_profile);
    if (options.profile.empty()) return {};
    if (const Profile* const known = find_profile(options.profile)) return {*known, {}};
    std::string ids;
    for (const std::string& id : profile_ids()) ids += ' ' + id;
    return {{}, fmt::format("'{}' is no known profile; known are:{}", options.profile, ids)};
}

int print_difference(const std::vector<std::string>& ids) {
    for (const std::string& id : ids)
        if (find_profile(id) == nullptr)
            return unreadable(fmt::format("'{}' is no known profile", id));
    fmt::print("{}", profile_difference(*find_profile(ids[0]), *find_profile(ids[1])));
    return exit_fine;
}

/// Prints what was asked for while the script runs, and the failed expectations at the end.
int run(const Options& options, const Profile& profile, const Script& script) {
    const bool json = options.format == "json";
    std::vector<Failure> failed;
    ScriptReplay replay{profile.rules, script};
    const auto report = [&] {
        return json ? json_report(replay, profile) : text_report(replay, script, profile);
    };
    while (!(options.at != 0 && replay.entry() > options.at) && replay.next()) {
        if (options.at != 0 && replay.entry() > options.at) break;
        if (!replay.found().empty())
            failed.push_back({replay.line().line,
                              script_line(std::get<Expectation>(replay.line().content)),
                              replay.found()});
        const bool shown = options.at == 0 || replay.entry() == options.at;
        if (shown && !options.hash) fmt::print("{}", report());
    }
    if (options.hash)
        fmt::print("{:016x}\n", state_hash(replay.state()));
    else if (options.at == 0)
        fmt::print("{}", json ? json_summary(replay.state(), failed.size())
                              : text_summary(replay.state(), failed.size()));
    for (const Failure& f : failed)
        fmt::print(stderr, "{}:{}: {}: {}\n", options.file, f.line, f.expected, f.found);
    return failed.empty() ? exit_fine : exit_expectation_failed;
}

int replay_file(const Options& options) {
    const Chosen chosen = choose_profile(options);
    if (!chosen.error.empty()) return unreadable(chosen.error);
    const FindProfile profiles = [&](std::string_view id) {
        return chosen.profile ? &*chosen.profile : find_profile(id);
    };
    const std::optional<std::string> text = contents(options.file);
    if (!text)
        return unreadable(
            fmt::format("{}: cannot be read; check the name and its rights", options.file));
    if (event::is_event_file(options.file))
        return event::replay_file(options.file, *text, options.format == "json");
    const std::variant<Script, ScriptError> read = read_script(*text, profiles);
    if (const auto* const e = std::get_if<ScriptError>(&read))
        return unreadable(
            fmt::format("{}:{}:{}: {}; {}", options.file, e->line, e->column, e->message, e->cure));
    const auto& script = std::get<Script>(read);
    return run(options, *profiles(script.profile), script);
}

int start(int argc, char** argv) {
    CLI::App app{
        "Replays a match script: after each line the state, the verdicts and the score.\n"
        "Exit status: 0 all expectations hold, 1 one of them fails, 2 the file cannot be read.\n"
        "The tool advises; referees decide."};
    Options options;
    app.set_version_flag("--version", "courthand-replay " COURTHAND_VERSION);
    app.add_option("file", options.file,
                   "match script (see SCRIPT.md), or event script (NAME.event)");
    app.add_option("--format", options.format, "text or json (one object a line)")
        ->check(CLI::IsMember({"text", "json"}));
    app.add_option("--at", options.at, "show only what stands after entry N, and stop there")
        ->check(CLI::Range(EntryNumber{1}, EntryNumber{most_entries}));
    app.add_option("--profile", options.profile, "judge by this profile instead of the script's");
    app.add_option("--house-profile", options.house_profile, "judge by the profile in this file");
    app.add_flag("--hash", options.hash, "print only the hash of the last state");
    app.add_option("--profile-diff", options.difference,
                   "print the parameters in which two profiles differ, with their sources")
        ->expected(2);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& e) {
        const int code = app.exit(e);
        return code == 0 ? exit_fine : exit_unreadable;
    }
    if (!options.difference.empty()) return print_difference(options.difference);
    if (options.file.empty()) return unreadable("name a match script; --help shows the options");
    return replay_file(options);
}

}  // namespace
}  // namespace courthand::replay

int main(int argc, char** argv) {
    return courthand::replay::start(argc, argv);
}
