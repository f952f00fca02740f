// A match from a match script, as the server's keeper of matches would hand it to the alerts.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "courthand/match/entry.h"
#include "courthand/rules/judge.h"
#include "courthand/rules/profile.h"
#include "courthand/script/script.h"
#include "server/alerts/match_conditions.h"
#include "server/domain/match_observer.h"
#include "server/testing/ready_match.h"

namespace courthand::server::testing {

/// Back-row player 5 goes off for libero 21, the regular player returns after the rally, and the
/// other libero comes in without a rally in between; the serve is hit.
inline const std::string illegal_replacement =
    "libero A 21 for 5\n"
    "serve\n"
    "rally A\n"
    "libero A 5 for 21\n"
    "libero A 22 for 6\n"
    "serve\n";

inline MatchId match_id(std::uint8_t number) {
    MatchId id;
    id.value.bytes[15] = number;
    return id;
}

inline const PerTeam<std::string> names{"Harbour Lights", "Mill Lane"};

/// A record whose bytes are words: what they say does not matter.
inline std::shared_ptr<const MatchRecord> held(const std::vector<Record>& records,
                                               const Rules& rules) {
    struct Held {
        explicit Held(const Rules& of) : fold{of} {}
        wire::FactFold fold;
        MatchRecord record;
    };
    auto kept = std::make_shared<Held>(rules);
    for (const Record& record : records) kept->fold.add(record);
    kept->record.records = kept->fold.records();
    kept->record.steps = kept->fold.steps();
    kept->record.verdicts = kept->fold.verdicts();
    for (std::size_t i = 1; i <= records.size(); ++i)
        kept->record.bytes.push_back(
            std::make_shared<const std::string>("bytes of entry " + std::to_string(i)));
    return {kept, &kept->record};
}

inline LiveMatch match_of(std::string_view script_text, std::uint8_t number = 1) {
    LiveMatch match;
    const auto read = read_script(script_text);
    if (const auto* error = std::get_if<ScriptError>(&read)) {
        ADD_FAILURE() << "line " << error->line << ": " << error->message;
        return match;
    }
    const auto& script = std::get<Script>(read);
    match.key.match = match_id(number);
    match.plan.key = match.key;
    match.plan.court = number;
    match.plan.number = number;
    match.plan.first.name = script.names.a;
    match.plan.second.name = script.names.b;
    match.profile = find_profile(script.profile);
    match.record = held(records(script), match.profile->rules);
    match.state = fold(match.profile->rules, effective(match.record->records).entries);
    match.standing = standing(match.profile->rules, match.state);
    match.head.last = static_cast<EntryNumber>(match.record->records.size());
    return match;
}

inline std::vector<alerts::Condition> conditions(std::string_view script_text) {
    return alerts::conditions_of(match_of(script_text), names);
}

inline const alerts::Condition* find_code(const std::vector<alerts::Condition>& all,
                                          std::string_view code) {
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const alerts::Condition& one) { return one.code == code; });
    return found == all.end() ? nullptr : &*found;
}

}  // namespace courthand::server::testing
