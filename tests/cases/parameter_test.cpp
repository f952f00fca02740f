// Every parameter of a profile is acted on by somebody: either some case here turns out differently
// when its value is another one, or the table of parameters says which person or clock acts on it.
// And the table knows which verdicts rest on which value: what first turns out differently in a
// case, when one value is changed, must be named there.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <tuple>

#include "case_folder.h"
#include "courthand/match/state.h"
#include "courthand/replay/replay.h"
#include "courthand/rules/parameter.h"

namespace courthand {

/// What the tests of a parameter are called when one fails.
void PrintTo(const ParameterRow& row, std::ostream* out);
void PrintTo(const ParameterRow& row, std::ostream* out) {
    *out << row.key;
}

namespace {

/// What a verdict says, for a comparison under two profiles.
using Said = std::tuple<Reason, Team, Phase, Action, std::uint8_t>;

std::set<Said> said(const ScriptReplay& replay) {
    std::set<Said> all;
    for (const VerdictList& list : {replay.raised(), replay.standing()})
        for (const Verdict& v : list)
            all.emplace(v.reason, v.team, v.phase, v.remedy.action, v.remedy.cancel);
    return all;
}

/// How a script first turns out differently under other rules.
struct Difference {
    bool any = false;
    std::set<std::pair<Reason, Action>>
        verdicts;  ///< that differ first; empty: only the state does
};

bool same_play(const SetState& one, const SetState& other) {
    return one.score == other.score && one.serving == other.serving && one.number == other.number &&
           one.stage == other.stage;
}

Difference compare(const Rules& rules, const Rules& changed, const Script& script) {
    ScriptReplay one{rules, script};
    ScriptReplay other{changed, script};
    Difference found;
    while (one.next() && other.next()) {
        if (one.at_expectation()) continue;
        found.any = found.any || !(one.state() == other.state());
        const std::set<Said> here = said(one);
        const std::set<Said> there = said(other);
        if (here == there) {
            // From here on the course of play differs, and verdicts that follow from it.
            if (!same_play(one.state().set, other.state().set)) break;
            continue;
        }
        std::set<Said> differing;
        std::set_symmetric_difference(here.begin(), here.end(), there.begin(), there.end(),
                                      std::inserter(differing, differing.begin()));
        for (const Said& s : differing) found.verdicts.emplace(std::get<0>(s), std::get<3>(s));
        found.any = true;
        break;
    }
    return found;
}

/// All cases that can be read, with their profile.
struct Case {
    std::string name;
    Script script;
    const Profile* profile = nullptr;
};

const std::vector<Case>& all_cases() {
    static const std::vector<Case> cases = [] {
        std::vector<Case> list;
        for (const auto& path : case_files()) {
            auto read = read_script(contents(path));
            if (auto* const script = std::get_if<Script>(&read)) {
                const Profile* const profile = find_profile(script->profile);
                list.push_back({case_name(path), std::move(*script), profile});
            }
        }
        return list;
    }();
    return cases;
}

/// Where no case can show it first: no built-in profile has the other value
/// (tests/unit/core/house_rules_test.cpp plays it), or a first service already differs.
bool shown_elsewhere(std::string_view key, Reason reason) {
    return key == "fault.unregistered-finished-set" ||
           (key == "libero.serving-positions" && reason == Reason::libero_second_serving_position);
}

/// What first differs in the cases when one parameter has another value.
struct Effects {
    std::size_t cases = 0;
    std::map<std::pair<Reason, Action>, std::string> verdicts;  ///< with a case that shows it
};

Effects effects_of(std::string_view key) {
    Effects effects;
    for (const Case& c : all_cases())
        for (const std::string& value : other_values(*c.profile, key)) {
            const Rules changed = with_value(c.profile->rules, key, value);
            const Difference found = compare(c.profile->rules, changed, c.script);
            effects.cases += found.any ? 1U : 0U;
            for (const auto& verdict : found.verdicts)
                effects.verdicts.emplace(verdict, fmt::format("{} with {}", c.name, value));
        }
    return effects;
}

class JudgedParameter : public testing::TestWithParam<ParameterRow> {};

TEST_P(JudgedParameter, IsReadAndNamesTheVerdictsThatRestOnIt) {
    const ParameterRow row = GetParam();
    const Effects effects = effects_of(row.key);
    EXPECT_GT(effects.cases, 0U) << row.key << " is read by nobody: no case differs with another "
                                 << "value; say in rules/parameter_table.cpp who acts on it";
    std::set<Reason> shown;
    for (const auto& [verdict, name] : effects.verdicts) {
        const auto [reason, action] = verdict;
        shown.insert(reason);
        const bool named =
            std::find(row.reasons.begin(), row.reasons.end(), reason) != row.reasons.end() ||
            std::find(row.actions.begin(), row.actions.end(), action) != row.actions.end();
        EXPECT_TRUE(named) << describe(reason).word << " rests on " << row.key << ": " << name;
    }
    for (const Reason reason : row.reasons)
        EXPECT_TRUE(shown.count(reason) != 0 || shown_elsewhere(row.key, reason))
            << "no case shows that " << describe(reason).word << " rests on " << row.key;
}

std::vector<ParameterRow> judged() {
    std::vector<ParameterRow> rows = parameter_rows();
    rows.erase(std::remove_if(rows.begin(), rows.end(),
                              [](const ParameterRow& r) { return r.acted_by != ActedBy::judge; }),
               rows.end());
    return rows;
}

INSTANTIATE_TEST_SUITE_P(Parameters, JudgedParameter, testing::ValuesIn(judged()),
                         [](const testing::TestParamInfo<ParameterRow>& row) {
                             std::string name{row.param.key};
                             std::replace_if(
                                 name.begin(), name.end(),
                                 [](char c) { return c == '.' || c == '-'; }, '_');
                             return name;
                         });

}  // namespace
}  // namespace courthand
