#include "server/venue/alert_message.h"

#include "wire/fact_convert.h"
#include "wire/state_view.h"

namespace courthand::server::venue {

namespace {

using alerts::Condition;
using alerts::Evidence;

v1::AlertState to_message(alerts::State state) {
    switch (state) {
        case alerts::State::open:
            return v1::ALERT_STATE_OPEN;
        case alerts::State::claimed:
            return v1::ALERT_STATE_CLAIMED;
        case alerts::State::ruled:
            return v1::ALERT_STATE_RULED;
        case alerts::State::cleared:
            return v1::ALERT_STATE_CLEARED;
        case alerts::State::shelved:
            return v1::ALERT_STATE_SHELVED;
    }
    return v1::ALERT_STATE_UNSPECIFIED;
}

void fill(const Evidence& evidence, v1::Evidence& out) {
    if (evidence.before) wire::to_proto(*evidence.before, *out.mutable_before());
    if (evidence.after) wire::to_proto(*evidence.after, *out.mutable_after());
    for (const EntryNumber number : evidence.entries) out.add_entries(number);
    for (const std::string& bytes : evidence.raw) out.add_raw()->set_data(bytes);
    for (const alerts::ReplacementMade& made : evidence.last_replacements) {
        v1::Replacement& replacement = *out.add_last_replacements();
        replacement.set_seq(made.entry);
        replacement.set_in(made.in.worn() ? made.in.number() : 0U);
        replacement.set_out(made.out.worn() ? made.out.number() : 0U);
        wire::to_proto(made.score, *replacement.mutable_score());
        replacement.set_rally(made.rally);
    }
    out.set_remedy(evidence.remedy);
    if (evidence.score_if_ruled)
        wire::to_proto(*evidence.score_if_ruled, *out.mutable_score_if_ruled());
    if (evidence.serves_if_ruled)
        out.set_serves_if_ruled(wire::to_proto(*evidence.serves_if_ruled));
    out.set_since_rally(evidence.since_rally);
}

void fill(const Condition& condition, v1::Alert& out) {
    out.set_alert_id(condition.id);
    out.set_code(condition.code);
    out.set_severity(wire::to_proto(condition.severity));
    out.set_court(condition.court);
    if (!condition.match.nil()) out.set_match_id(to_bytes(condition.match.value));
    out.set_match_number(condition.match_number);
    out.set_match_name(condition.match_name);
    out.set_set(condition.set);
    wire::to_proto(condition.score, *out.mutable_score());
    if (condition.team) out.set_team(wire::to_proto(*condition.team));
    out.set_team_name(condition.team_name);
    out.set_text(condition.text);
    out.set_rule_reference(condition.reference);
    if (!condition.asking.nil()) out.set_asking_device(to_bytes(condition.asking.value));
    if (condition.evidence != Evidence{}) fill(condition.evidence, *out.mutable_evidence());
}

std::optional<Team> team_of(v1::TeamLetter letter) {
    if (letter == v1::TEAM_LETTER_A) return Team::A;
    if (letter == v1::TEAM_LETTER_B) return Team::B;
    return std::nullopt;
}

Jersey jersey_of(std::int64_t number) {
    return number >= 0 && number <= Jersey::largest ? Jersey{static_cast<std::uint8_t>(number)}
                                                    : Jersey::none();
}

Six six_of(const v1::Six& message) {
    Six six{};
    for (int i = 0; i < message.numbers_size() && i < static_cast<int>(six.size()); ++i)
        six[static_cast<std::size_t>(i)] = jersey_of(message.numbers(i));
    return six;
}

Score score_of(const v1::Score& message) {
    return {static_cast<std::uint8_t>(message.a()), static_cast<std::uint8_t>(message.b())};
}

Evidence evidence_of(const v1::Evidence& message) {
    Evidence evidence;
    if (message.has_before()) evidence.before = six_of(message.before());
    if (message.has_after()) evidence.after = six_of(message.after());
    evidence.entries.assign(message.entries().begin(), message.entries().end());
    for (const v1::EntryBytes& bytes : message.raw()) evidence.raw.push_back(bytes.data());
    for (const v1::Replacement& made : message.last_replacements())
        evidence.last_replacements.push_back({made.seq(), jersey_of(made.in()),
                                              jersey_of(made.out()), score_of(made.score()),
                                              static_cast<std::uint16_t>(made.rally())});
    evidence.remedy = message.remedy();
    if (message.has_score_if_ruled()) evidence.score_if_ruled = score_of(message.score_if_ruled());
    evidence.serves_if_ruled = team_of(message.serves_if_ruled());
    evidence.since_rally = static_cast<std::uint16_t>(message.since_rally());
    return evidence;
}

}  // namespace

std::int64_t microseconds(std::chrono::system_clock::time_point time) {
    return std::chrono::duration_cast<std::chrono::microseconds>(time.time_since_epoch()).count();
}

std::chrono::system_clock::time_point moment(std::int64_t count) {
    return std::chrono::system_clock::time_point{
        std::chrono::duration_cast<std::chrono::system_clock::duration>(
            std::chrono::microseconds{count})};
}

v1::Alert to_message(const alerts::Alert& alert) {
    v1::Alert out;
    fill(alert.condition, out);
    out.set_since_us(microseconds(alert.since));
    out.set_state(to_message(alert.state));
    out.set_claimed_by(alert.claimed_by);
    out.set_acknowledged(alert.acknowledged);
    out.set_note(alert.note);
    if (alert.shelved_until) out.set_shelved_until_us(microseconds(*alert.shelved_until));
    if (alert.accepted) out.set_accepted(*alert.accepted);
    return out;
}

std::optional<Condition> condition_of(const v1::Alert& message, const std::string& kind_word) {
    const auto kind = alerts::kind_of(kind_word);
    if (!kind) return std::nullopt;
    Condition condition;
    condition.id = message.alert_id();
    condition.kind = *kind;
    condition.code = message.code();
    condition.severity = static_cast<Severity>(message.severity());
    condition.court = message.court();
    if (const auto match = uuid_from_bytes(message.match_id())) condition.match.value = *match;
    condition.match_number = message.match_number();
    condition.match_name = message.match_name();
    condition.set = static_cast<std::uint8_t>(message.set());
    condition.score = score_of(message.score());
    condition.team = team_of(message.team());
    condition.team_name = message.team_name();
    condition.text = message.text();
    condition.reference = message.rule_reference();
    if (const auto asking = uuid_from_bytes(message.asking_device()))
        condition.asking.value = *asking;
    if (message.has_evidence()) condition.evidence = evidence_of(message.evidence());
    return condition;
}

}  // namespace courthand::server::venue
