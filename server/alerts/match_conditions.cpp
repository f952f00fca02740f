#include "server/alerts/match_conditions.h"

#include <fmt/format.h>

#include <algorithm>

#include "courthand/rules/parameter.h"
#include "courthand/rules/profile.h"
#include "courthand/rules/prompt.h"
#include "courthand/rules/remedy_words.h"

namespace courthand::server::alerts {

namespace {

using Names = PerTeam<std::string>;

std::string six_words(Jersey jersey) {
    return jersey.worn() ? fmt::format("{}", jersey.number()) : std::string{"?"};
}

Evidence evidence_of(const Course& course, const Verdict* now, const MatchHistory& history,
                     const Names& names) {
    const Verdict& verdict = course.first_open;
    Evidence evidence;
    evidence.before = history.before(key_of(verdict));
    evidence.after = verdict.after;
    evidence.entries = {verdict.entry};
    const auto replacements = course.replacements.all();
    evidence.last_replacements.assign(replacements.begin(), replacements.end());
    evidence.since_rally = verdict.rally;
    if (now && now->remedy.action != Action::none) {
        evidence.remedy = remedy_words(now->remedy, verdict.team, names);
        evidence.score_if_ruled = now->remedy.score;
        evidence.serves_if_ruled = now->remedy.serves;
    }
    return evidence;
}

// The rule, and which values it rests on were not seen in print: whoever rules has to know.
std::string rule_reference(const LiveMatch& match, const ReasonRow& row, Action action) {
    const auto family = static_cast<std::size_t>(match.profile->rules.family);
    std::string reference{row.reference[family]};
    const std::string unproven = unproven_words(*match.profile, row.reason, action);
    if (!unproven.empty()) reference += (reference.empty() ? "" : "; ") + unproven;
    return reference;
}

Condition on_match(const LiveMatch& match, Kind kind, std::string_view code, std::string_view at) {
    Condition condition;
    condition.id = fmt::format("{}/{}/{}", to_text(match.key.match), code, at);
    condition.kind = kind;
    condition.code = code;
    condition.severity = row_of(kind).severity;
    condition.court = match.plan.court;
    condition.match = match.key.match;
    condition.match_number = match.plan.number;
    condition.match_name = match.plan.name;
    condition.set = match.state.set.number;
    condition.score = match.state.set.score;
    return condition;
}

void set_team(Condition& condition, const Names& names, Team team) {
    condition.team = team;
    condition.team_name = names[team];
}

char letter(Team team) {
    return team == Team::A ? 'a' : 'b';
}

const Verdict* standing_verdict(const LiveMatch& match, const VerdictKey& key) {
    const auto* found = std::find_if(match.standing.begin(), match.standing.end(),
                                     [&](const Verdict& v) { return key_of(v) == key; });
    return found == match.standing.end() ? nullptr : found;
}

std::string who(const Verdict& verdict) {
    if (!verdict.players[0].worn()) return {};
    if (!verdict.players[1].worn()) return fmt::format(" (number {})", verdict.players[0].number());
    return fmt::format(" ({} for {})", six_words(verdict.players[0]),
                       six_words(verdict.players[1]));
}

Condition verdict_condition(const LiveMatch& match, const Names& names, const MatchHistory& history,
                            const VerdictKey& key, const Course& course) {
    const Verdict& verdict = course.first_open;
    const ReasonRow& reason = describe(verdict.reason);
    const Row& row = row_of(*kind_of(verdict.reason));
    const Verdict* now = standing_verdict(match, key);
    Condition condition = on_match(match, row.kind, reason.word,
                                   fmt::format("{}{}", verdict.entry, letter(verdict.team)));
    const bool played =
        verdict.set != match.state.set.number || match.state.set.rallies >= verdict.rally;
    condition.severity = played ? row.severity_after_rally : row.severity;
    condition.set = verdict.set;
    condition.score = course.score;
    set_team(condition, names, verdict.team);
    condition.text = std::string{reason.text} + who(verdict);
    condition.reference = rule_reference(match, reason, (now ? *now : verdict).remedy.action);
    condition.evidence = evidence_of(course, now, history, names);
    for (const EntryNumber entry : condition.evidence.entries)
        condition.evidence.raw.push_back(history.raw(entry));
    condition.outcome = course.outcome;
    condition.pressing = verdict.phase == Phase::open && row.once_open == OnceOpen::presses;
    return condition;
}

Condition redesignation_condition(const LiveMatch& match, const Names& names,
                                  const Redesignated& made) {
    Condition condition =
        on_match(match, Kind::redesignation_made, row_of(Kind::redesignation_made).word,
                 fmt::format("{}{}", made.entry, letter(made.fact.team)));
    condition.set = made.set;
    condition.score = made.score;
    set_team(condition, names, made.fact.team);
    condition.text = fmt::format("{}: {} is libero for the rest of the match, {} is out as libero",
                                 row_of(Kind::redesignation_made).text, six_words(made.fact.in),
                                 six_words(made.fact.out));
    condition.reference = row_of(Kind::redesignation_made).reference;
    condition.evidence.entries = {made.entry};
    return condition;
}

// Time is running out before a set and a team's sheet is still missing. What the rules say once
// play has begun without it is a verdict of its own.
void add_missing_lineups(const LiveMatch& match, const Names& names, std::vector<Condition>& out) {
    const SetState& set = match.state.set;
    if (set.stage != Stage::before_set) return;
    const Row& row = row_of(Kind::lineup_missing);
    for (const Prompt& prompt : next_steps(match.profile->rules, match.state)) {
        if (prompt.kind != Prompt::Kind::lineup_missing) continue;
        Condition condition = on_match(match, row.kind, row.word,
                                       fmt::format("set{}{}", set.number, letter(prompt.team)));
        set_team(condition, names, prompt.team);
        condition.text = row.text;
        condition.reference = row.reference;
        condition.raise_after = lineup_due(match.profile->rules, set.number);
        out.push_back(std::move(condition));
    }
}

constexpr std::chrono::seconds minute{60};

std::string place_words(std::uint32_t court, const MatchPlan& plan) {
    const std::string where = court == 0 ? "No court" : fmt::format("Court {}", court);
    return fmt::format("{}, {}", where, match_called(plan));
}

std::string_view cause_words(Cause cause) {
    switch (cause) {
        case Cause::unreadable:
            return "it cannot be read here";
        case Cause::unknown_match:
            return "the match is not known here";
        case Cause::not_its_device:
            return "another device made it and has not signed it";
        case Cause::other_court:
            return "the device is enrolled for another court";
        case Cause::id_used:
            return "its id was used before";
        case Cause::full:
            return "the match has reached a limit";
        case Cause::none:
            break;
    }
    return "the cause is not known";
}

std::string_view cure_words(Cause cause) {
    switch (cause) {
        case Cause::unreadable:
            return "Bring server and table to the same version; the table keeps it";
        case Cause::unknown_match:
            return "Plan the match again or start the server on its database; the table keeps it";
        case Cause::not_its_device:
            return "Connect the device that wrote it; this one keeps it";
        case Cause::other_court:
            return "Put the match on the court of the device, or enrol it anew";
        case Cause::id_used:
        case Cause::full:
        case Cause::none:
            break;
    }
    return "Keep the table's record and ask for help; nothing on the device is lost";
}

bool holds(const LiveMatch& match, const VerdictKey& key, const Course& course) {
    const Kind kind = *kind_of(std::get<Reason>(key));
    if (row_of(kind).clears != Clears::by_itself) return true;
    const Verdict* now = standing_verdict(match, key);
    // The core ends a verdict as soon as what it tells of has been put right.
    return now && shown_on_the_board(*now) && course.outcome == Outcome::stands &&
           now->set == match.state.set.number;
}

}  // namespace

std::string match_called(const MatchPlan& plan) {
    if (!plan.name.empty()) return plan.name;
    return plan.number == 0 ? "match opened at the table" : fmt::format("match {}", plan.number);
}

std::vector<Condition> conditions_of(const LiveMatch& match, const Names& names) {
    MatchHistory history;
    history.follow(match);
    return conditions_of(match, history, names);
}

std::vector<Condition> conditions_of(const LiveMatch& match, const MatchHistory& history,
                                     const Names& names) {
    std::vector<Condition> out;
    if (!match.profile) return out;
    for (const auto& [key, course] : history.verdicts())
        if (holds(match, key, course))
            out.push_back(verdict_condition(match, names, history, key, course));
    for (const Redesignated& made : history.redesignations())
        out.push_back(redesignation_condition(match, names, made));
    add_missing_lineups(match, names, out);
    for (const std::uint32_t branch : match.branches) out.push_back(fork_condition(match, branch));
    if (auto recovered = recovery_condition(match)) out.push_back(*std::move(recovered));
    return out;
}

Condition fork_condition(const LiveMatch& match, std::uint32_t branch) {
    const Row& row = row_of(Kind::record_forked);
    Condition condition = on_match(match, row.kind, row.word, fmt::format("branch{}", branch));
    condition.text =
        branch == 1 ? std::string{row.text} : fmt::format("{} (branch {})", row.text, branch);
    condition.reference = row.reference;
    return condition;
}

std::optional<Condition> recovery_condition(const LiveMatch& match) {
    // A signed sheet has been seen by those who sign it, also where this program is new.
    if (!match.head.recovered || match.closed()) return std::nullopt;
    const Row& row = row_of(Kind::writer_recovered);
    Condition condition =
        on_match(match, row.kind, row.word, fmt::format("epoch{}", match.head.epoch));
    condition.text = fmt::format("{}. {}", place_words(match.plan.court, match.plan), row.text);
    condition.reference = row.reference;
    return condition;
}

std::optional<Condition> take_over_condition(const LiveMatch& match) {
    if (!match.asked) return std::nullopt;
    const Row& row = row_of(Kind::take_over_asked);
    Condition condition = on_match(match, row.kind, row.word, to_text(match.asked->device));
    condition.text = row.text;
    condition.reference = row.reference;
    condition.asking = match.asked->device;
    return condition;
}

std::string take_over_words(const MatchPlan& plan, std::optional<std::chrono::seconds> silence) {
    const std::string last =
        !silence ? "has not been heard since the server started"
        : *silence < minute
            ? "was heard within the last minute"
            : fmt::format("has not been heard for {} min",
                          std::chrono::duration_cast<std::chrono::minutes>(*silence).count());
    return fmt::format("{}: another device asks to go on; the device that writes {}",
                       place_words(plan.court, plan), last);
}

Condition refusal_condition(const Refusals::Refusal& refusal, const MatchPlan& plan) {
    const Row& row = row_of(Kind::entries_refused);
    Condition condition;
    condition.id =
        fmt::format("{}/{}/{}", to_text(refusal.match), row.word, to_text(refusal.device));
    condition.kind = row.kind;
    condition.code = row.word;
    condition.severity = row.severity;
    condition.court = refusal.court != 0 ? refusal.court : plan.court;
    condition.match = refusal.match;
    condition.match_number = plan.number;
    condition.match_name = plan.name;
    condition.text = fmt::format(
        "{}: the server could not take {} of the table: {}. {}", place_words(condition.court, plan),
        refusal.number == 0 ? "entries" : fmt::format("entry {} and what follows", refusal.number),
        cause_words(refusal.cause), cure_words(refusal.cause));
    condition.reference = row.reference;
    if (refusal.number != 0) condition.evidence.entries = {refusal.number};
    return condition;
}

Condition too_many_condition() {
    const Row& row = row_of(Kind::too_many_alerts);
    Condition condition;
    condition.id = fmt::format("venue/{}", row.word);
    condition.kind = row.kind;
    condition.code = row.word;
    condition.severity = row.severity;
    condition.text = row.text;
    condition.reference = row.reference;
    return condition;
}

Condition crowded_condition(std::uint32_t court, std::span<const std::string> matches) {
    const Row& row = row_of(Kind::court_crowded);
    Condition condition;
    condition.id = fmt::format("court/{}/{}", court, row.word);
    condition.kind = row.kind;
    condition.code = row.word;
    condition.severity = row.severity;
    condition.court = court;
    std::string names;
    for (const std::string& match : matches) names += (names.empty() ? "" : ", ") + match;
    condition.text = fmt::format(
        "Court {}: {} are all being played here by their records. Put each on the court it "
        "is played on; this board shows one of them",
        court, names);
    condition.reference = row.reference;
    return condition;
}

std::string scope_of(MatchId match) {
    return "match " + to_text(match);
}

}  // namespace courthand::server::alerts
