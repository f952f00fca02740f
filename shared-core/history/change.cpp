#include "courthand/history/change.h"

#include <map>
#include <tuple>

#include "courthand/rules/judge.h"

namespace courthand {
namespace {

using Key = std::tuple<EntryNumber, Reason, Team>;

/// Verdicts of a record as they were raised. A later phase of the same verdict replaces nothing:
/// it follows from other entries.
[[nodiscard]] std::map<Key, Verdict> raised_in(const Rules& rules,
                                               std::span<const Record> records) {
    std::map<Key, Verdict> all;
    MatchState state{};
    VerdictList raised;
    for (const Entry& entry : effective(records).entries) {
        apply(rules, state, entry, raised);
        for (const Verdict& v : raised)
            if (v.phase == Phase::armed || v.phase == Phase::open)
                all.emplace(Key{v.entry, v.reason, v.team}, v);
    }
    return all;
}

}  // namespace

std::vector<VerdictChange> verdict_changes(const Rules& rules, std::span<const Record> before,
                                           std::span<const Record> after) {
    const auto old = raised_in(rules, before);
    const auto now = raised_in(rules, after);
    std::map<Key, VerdictChange> changes;
    for (const auto& [key, verdict] : old)
        if (now.find(key) == now.end()) changes[key] = {VerdictChange::Kind::vanished, verdict, {}};
    for (const auto& [key, verdict] : now) {
        const auto was = old.find(key);
        if (was == old.end())
            changes[key] = {VerdictChange::Kind::appeared, {}, verdict};
        else if (!(was->second == verdict))
            changes[key] = {VerdictChange::Kind::changed, was->second, verdict};
    }
    std::vector<VerdictChange> list;
    list.reserve(changes.size());
    for (auto& [key, change] : changes) list.push_back(change);
    return list;
}

}  // namespace courthand
