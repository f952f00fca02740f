#include "match_course.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include "courthand/rules/judge.h"

namespace courthand::client::test {

MatchCourse::MatchCourse(const std::string& path) {
    std::ifstream file{path};
    std::stringstream text;
    text << file.rdbuf();
    auto read = read_script(text.str());
    if (const auto* wrong = std::get_if<ScriptError>(&read))
        throw std::runtime_error{fmt::format("{}:{}:{}: {} {}", path, wrong->line, wrong->column,
                                             wrong->message, wrong->cure)};
    script_ = std::get<Script>(std::move(read));
    profile_ = find_profile(script_.profile);
    if (profile_ == nullptr) throw std::runtime_error{"no profile " + script_.profile};
    MatchState state{};
    for (const ScriptLine& line : script_.lines) {
        const auto* record = std::get_if<Record>(&line.content);
        if (record == nullptr) continue;
        const auto* fact = std::get_if<Fact>(record);
        if (fact == nullptr)
            throw std::runtime_error{
                fmt::format("{}:{}: a correction cannot be played by hand", path, line.line)};
        const auto number = static_cast<EntryNumber>(steps_.size() + 1);
        const Judged judged = judge(profile_->rules, state, Entry{number, *fact});
        const bool raises =
            std::any_of(judged.verdicts.begin(), judged.verdicts.end(), [](const Verdict& verdict) {
                return verdict.phase == Phase::armed || verdict.phase == Phase::open;
            });
        steps_.push_back({line.line, *fact, line.text, state, judged.state, raises});
        state = judged.state;
        if (const auto* roster = std::get_if<Roster>(fact)) rosters_[roster->team] = *roster;
    }
}

std::uint64_t MatchCourse::hash() const {
    const std::vector<Record> all = records(script_);
    return state_hash(fold(profile_->rules, effective(all).entries));
}

}  // namespace courthand::client::test
