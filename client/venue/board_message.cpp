#include "venue/board_message.h"

#include <algorithm>

#include "wire/fact_convert.h"
#include "wire/read_entry.h"
#include "wire/uuid.h"

namespace courthand::venue {

namespace {

// Enums of the wire are switched on as numbers: a newer peer may send words unknown here.

// Numbers come from another machine: what no shirt can carry is read as "none".
Jersey jersey_of(std::int64_t number) {
    const bool worn = number >= 0 && number <= Jersey::largest;
    return worn ? Jersey{static_cast<std::uint8_t>(number)} : Jersey::none();
}

Score score_of(const v1::Score& score) {
    constexpr std::uint32_t most = 255;
    return {static_cast<std::uint8_t>(std::min(score.a(), most)),
            static_cast<std::uint8_t>(std::min(score.b(), most))};
}

Six six_of(const v1::Six& six) {
    Six places;
    const int count = std::min(six.numbers_size(), static_cast<int>(players_on_court));
    for (int i = 0; i < count; ++i) places[static_cast<std::size_t>(i)] = jersey_of(six.numbers(i));
    return places;
}

std::optional<Team> team_of(v1::TeamLetter letter) {
    if (letter == v1::TEAM_LETTER_A) return Team::A;
    if (letter == v1::TEAM_LETTER_B) return Team::B;
    return std::nullopt;
}

std::optional<Moment> maybe_moment(std::int64_t us) {
    return us == 0 ? std::nullopt : std::optional{moment_of_us(us)};
}

CourtStage stage_of(const v1::CourtCard& card) {
    if (card.match_id().empty()) return CourtStage::free;
    switch (static_cast<int>(card.stage())) {
        case v1::STAGE_BEFORE_SET:
            return CourtStage::line_ups;
        case v1::STAGE_DEAD_BALL:
        case v1::STAGE_WHISTLED:
        case v1::STAGE_IN_PLAY:
            return CourtStage::in_play;
        case v1::STAGE_SET_OVER:
            return CourtStage::set_over;
        case v1::STAGE_MATCH_OVER:
            return CourtStage::match_over;
        default:
            return CourtStage::before_match;
    }
}

Designation designation_of(const v1::Designation& message) {
    Designation designation;
    designation.jersey = jersey_of(message.number());
    designation.barred = message.barred();
    designation.barred_words = message.barred_words();
    switch (static_cast<int>(message.state())) {
        case v1::Designation::STATE_REDESIGNATED:
            designation.state = Designation::State::redesignated;
            break;
        case v1::Designation::STATE_REPLACED:
            designation.state = Designation::State::replaced;
            break;
        case v1::Designation::STATE_UNABLE:
            designation.state = Designation::State::unable;
            break;
        default:
            break;
    }
    return designation;
}

TeamOnBoard team_on_board(const v1::TeamCard& card) {
    TeamOnBoard team;
    team.name = card.name();
    team.colour = colour_of_hex(card.colour());
    team.sets = static_cast<int>(card.sets_won());
    team.line_up_in = card.line_up_in();
    team.line_up_checked = card.line_up_checked();
    team.boxes_open = static_cast<int>(card.boxes_open());
    team.six = six_of(card.on_court());
    for (const auto& on : card.liberos_on()) {
        team.liberos_on.push_back(
            {jersey_of(on.libero()), on.has_for_player() ? jersey_of(on.for_player()) : Jersey{}});
    }
    for (const auto& each : card.designations()) {
        team.designations.push_back(designation_of(each));
    }
    for (const std::uint32_t number : card.barred()) team.barred.push_back(jersey_of(number));
    return team;
}

AlertLife life_of(v1::AlertState state) {
    switch (static_cast<int>(state)) {
        case v1::ALERT_STATE_CLAIMED:
            return AlertLife::claimed;
        case v1::ALERT_STATE_RULED:
            return AlertLife::ruled;
        case v1::ALERT_STATE_CLEARED:
            return AlertLife::cleared;
        case v1::ALERT_STATE_SHELVED:
            return AlertLife::shelved;
        default:
            return AlertLife::open;
    }
}

// A severity that this program does not know is shown as the worst: somebody should look.
Severity severity_of(v1::Severity severity) {
    switch (static_cast<int>(severity)) {
        case v1::SEVERITY_HIGH:
            return Severity::high;
        case v1::SEVERITY_MEDIUM:
            return Severity::medium;
        case v1::SEVERITY_LOW:
            return Severity::low;
        default:
            return Severity::critical;
    }
}

/// An entry of a record as a board shows it: nothing follows it here, so it is not hashed.
struct SeenEntry {
    wire::EntryHeader header;
    std::optional<Record> content;  ///< none: of a kind that this program does not know
};

/// Nothing when the bytes are no entry.
std::optional<SeenEntry> seen_entry(const std::string& bytes) {
    const auto entry = wire::parse_entry(bytes);
    if (!entry) return std::nullopt;
    SeenEntry seen{wire::header_of(*entry), std::nullopt};
    auto record = wire::from_proto(*entry);
    if (auto* readable = std::get_if<Record>(&record)) seen.content = std::move(*readable);
    return seen;
}

EntryConcerned entry_of(std::uint32_t number, const v1::EntryBytes* raw) {
    EntryConcerned concerned{number, std::nullopt};
    if (raw == nullptr) return concerned;
    if (auto seen = seen_entry(raw->data())) concerned.content = std::move(seen->content);
    return concerned;
}

ForkEntry fork_entry_of(const v1::ForkEntry& message) {
    ForkEntry out;
    out.device = message.device_name();
    out.stored = moment_of_us(message.stored_us());
    auto seen = seen_entry(message.entry().data());
    if (!seen) return out;
    out.number = seen->header.seq;
    out.epoch = seen->header.epoch;
    out.made = maybe_moment(seen->header.device_time_us);
    out.content = std::move(seen->content);
    return out;
}

AlertEvidence evidence_of(const v1::Evidence& message) {
    AlertEvidence evidence;
    if (message.has_before()) evidence.before = six_of(message.before());
    if (message.has_after()) evidence.after = six_of(message.after());
    for (int i = 0; i < message.entries_size(); ++i) {
        const auto* const raw = i < message.raw_size() ? &message.raw(i) : nullptr;
        evidence.entries.push_back(entry_of(message.entries(i), raw));
    }
    for (const auto& each : message.last_replacements()) {
        evidence.replacements.push_back({each.seq(), jersey_of(each.in()), jersey_of(each.out()),
                                         score_of(each.score()), static_cast<int>(each.rally())});
    }
    evidence.remedy = message.remedy();
    if (message.has_score_if_ruled()) evidence.score_if_ruled = score_of(message.score_if_ruled());
    evidence.serves_if_ruled = team_of(message.serves_if_ruled());
    evidence.since_rally = static_cast<int>(message.since_rally());
    return evidence;
}

}  // namespace

Id id_of_bytes(const std::string& bytes) {
    const auto id = wire::Uuid::from_bytes(bytes);
    return id && !id->none() ? id->to_text() : Id{};
}

std::string bytes_of_id(const Id& id) {
    const auto uuid = wire::Uuid::from_text(id);
    return uuid ? uuid->to_bytes() : std::string{};
}

Moment moment_of_us(std::int64_t us) {
    return std::chrono::duration_cast<Moment>(std::chrono::microseconds(us));
}

CourtOnBoard court_of(const v1::CourtCard& card) {
    CourtOnBoard court;
    court.court = card.court();
    court.match_id = id_of_bytes(card.match_id());
    court.match_number = static_cast<int>(card.match_number());
    court.match_name = card.match_name();
    court.stage = stage_of(card);
    court.set = static_cast<int>(card.set());
    court.score = score_of(card.score());
    for (const auto& score : card.finished_sets()) court.finished_sets.push_back(score_of(score));
    court.teams = {team_on_board(card.a()), team_on_board(card.b())};
    court.serving = team_of(card.serving());
    court.left = team_of(card.left());
    court.winner = team_of(card.winner());
    court.last_seen = maybe_moment(card.last_seen_us());
    court.staffed = card.table_staffed();
    if (card.has_battery_percent()) {
        court.battery_percent = static_cast<int>(card.battery_percent());
    }
    court.state_hash = card.state_hash();
    return court;
}

Alert alert_of(const v1::Alert& message) {
    Alert alert;
    alert.id = message.alert_id();
    alert.code = message.code();
    alert.severity = severity_of(message.severity());
    alert.court = message.court();
    alert.match_id = id_of_bytes(message.match_id());
    alert.match_number = static_cast<int>(message.match_number());
    alert.match_name = message.match_name();
    alert.set = static_cast<int>(message.set());
    alert.score = score_of(message.score());
    alert.team = team_of(message.team());
    alert.team_name = message.team_name();
    alert.sentence = message.text();
    alert.rule = message.rule_reference();
    alert.since = moment_of_us(message.since_us());
    alert.life = life_of(message.state());
    alert.claimed_by = message.claimed_by();
    alert.seen = message.acknowledged();
    alert.shelved_until = maybe_moment(message.shelved_until_us());
    alert.note = message.note();
    alert.asking_device = id_of_bytes(message.asking_device());
    alert.evidence = evidence_of(message.evidence());
    return alert;
}

Fork fork_of(const v1::ShowForkResponse& answer) {
    Fork fork;
    for (const v1::ForkEntry& entry : answer.record()) fork.record.push_back(fork_entry_of(entry));
    for (const v1::ForkEntry& entry : answer.branch()) fork.branch.push_back(fork_entry_of(entry));
    fork.record_more = static_cast<int>(answer.record_more());
    fork.branch_more = static_cast<int>(answer.branch_more());
    return fork;
}

void apply(const v1::Alert& message, Board& board) {
    Alert alert = alert_of(message);
    auto& alerts = board.alerts;
    const auto same = [&](const Alert& each) { return each.id == alert.id; };
    const auto found = std::find_if(alerts.begin(), alerts.end(), same);
    if (alert.ended()) {
        if (found != alerts.end()) alerts.erase(found);
    } else if (found != alerts.end()) {
        *found = std::move(alert);
    } else {
        alerts.push_back(std::move(alert));
    }
}

namespace {

// Everything there is, each once: nothing need be looked for.
void take_whole(const v1::WatchBoardResponse& news, Board& board) {
    board.courts.clear();
    board.alerts.clear();
    for (const auto& card : news.cards()) board.courts.push_back(court_of(card));
    for (const auto& message : news.alerts()) {
        Alert alert = alert_of(message);
        if (!alert.ended()) board.alerts.push_back(std::move(alert));
    }
}

void take_changes(const v1::WatchBoardResponse& news, Board& board) {
    auto& courts = board.courts;
    for (const auto& card : news.cards()) {
        const auto found = std::find_if(courts.begin(), courts.end(), [&](const auto& each) {
            return each.court == card.court();
        });
        if (found != courts.end())
            *found = court_of(card);
        else
            courts.push_back(court_of(card));
    }
    for (const auto& alert : news.alerts()) apply(alert, board);
}

}  // namespace

void apply(const v1::WatchBoardResponse& news, Board& board) {
    if (news.snapshot())
        take_whole(news, board);
    else
        take_changes(news, board);
    auto& courts = board.courts;
    for (const std::uint32_t removed : news.removed_courts()) {
        courts.erase(std::remove_if(courts.begin(), courts.end(),
                                    [&](const auto& each) { return each.court == removed; }),
                     courts.end());
    }
    std::sort(courts.begin(), courts.end(),
              [](const auto& a, const auto& b) { return a.court < b.court; });
    board.as_of = moment_of_us(news.header().server_time_us());
}

}  // namespace courthand::venue
