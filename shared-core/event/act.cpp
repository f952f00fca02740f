#include "courthand/event/act.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <string>
#include <tuple>
#include <variant>

#include "courthand/event/fact_fields.h"
#include "courthand/event/fold.h"

namespace courthand::event {
namespace {

/// The same to a person: the findings speak of other numbers where other facts came between.
[[nodiscard]] bool same(const Meaning& one, const Meaning& other) {
    const auto alike = [](const Finding& x, const Finding& y) {
        return x.problem == y.problem && x.fault == y.fault;
    };
    return one.effects == other.effects &&
           std::equal(one.findings.begin(), one.findings.end(), other.findings.begin(),
                      other.findings.end(), alike);
}

[[nodiscard]] bool share_one(const std::vector<std::string>& these,
                             const std::vector<std::string>& those) {
    return std::any_of(these.begin(), these.end(), [&](const std::string& one) {
        return std::find(those.begin(), those.end(), one) != those.end();
    });
}

/// Two facts of one kind about one thing: the second would write over the first. A note writes over
/// nothing.
[[nodiscard]] bool about_the_same(const Fact& one, const Fact& other) {
    if (one.index() != other.index() || std::holds_alternative<NoteWritten>(one)) return false;
    if (std::holds_alternative<ConfirmerNamed>(one)) return true;
    return std::visit(
        [&](const auto& fact) {
            using Kind = std::decay_t<decltype(fact)>;
            // The first field of a row says what the fact is about.
            const auto subject = std::get<0>(described<Kind>.fields).member;
            return fact.*subject == std::get<Kind>(other).*subject;
        },
        one);
}

/// Signatures confirm as long as the event says so: of who confirms nothing must have been said
/// since.
[[nodiscard]] bool takes_away(const Fact& came, const Fact& said) {
    const auto* const result = std::get_if<ResultConfirmed>(&said);
    return std::holds_alternative<ConfirmerNamed>(came) && result != nullptr &&
           result->from == ResultFrom::signed_record;
}

[[nodiscard]] TournamentState with(TournamentState state, std::span<const Fact> said) {
    for (const Fact& fact : said) fold_in(state, fact);
    return state;
}

[[nodiscard]] std::string name_of(const TournamentState& state, TeamIndex team) {
    return team == no_team ? std::string{} : state.teams[team].name;
}

/// The pools with their teams, a line each and by names: indices are others in another state.
[[nodiscard]] std::set<std::string> pools_of(const TournamentState& state) {
    std::set<std::string> lines;
    for (const Division& division : state.divisions)
        for (const PoolState& pool : division.pools) {
            std::string line = fmt::format("{} pool {}:", division.rules.division, pool.name);
            for (const TeamIndex team : pool.teams) line += "/" + name_of(state, team);
            lines.insert(std::move(line));
        }
    return lines;
}

/// What the act makes that was not there, pools and matches with their first sides: the effects,
/// which are of what there was, do not tell it.
[[nodiscard]] std::vector<std::string> made(const TournamentState& before,
                                            std::span<const Fact> said) {
    const TournamentState after = with(before, said);
    const std::set<std::string> had = pools_of(before);
    const std::set<std::string> has = pools_of(after);
    std::vector<std::string> lines;
    std::set_difference(has.begin(), has.end(), had.begin(), had.end(), std::back_inserter(lines));
    for (const auto& [name, ref] : after.match_names)
        if (!before.find_match(name))
            lines.push_back(fmt::format("match {}: {}/{}", name,
                                        name_of(after, after.side(ref, 0).team),
                                        name_of(after, after.side(ref, 1).team)));
    return lines;
}

}  // namespace

Meaning meaning_of(const TournamentState& state, std::span<const Fact> said) {
    const TournamentState after = with(state, said);
    Meaning found;
    std::copy_if(after.findings.begin(), after.findings.end(), std::back_inserter(found.findings),
                 [&](const Finding& finding) { return finding.fact > state.last(); });
    found.effects = difference(state, after);
    return found;
}

bool overtaken(const TournamentState& then, const TournamentState& now, std::span<const Fact> said,
               const Meaning& means) {
    for (const Fact& came : std::span{now.facts}.subspan(then.last()))
        for (const Fact& fact : said)
            if (about_the_same(fact, came) || takes_away(came, fact)) return true;
    const Effects changed = difference(then, now);
    return share_one(changed.matches, means.effects.matches) ||
           share_one(changed.places, means.effects.places) ||
           !same(meaning_of(then, said), means) || made(then, said) != made(now, said);
}

}  // namespace courthand::event
