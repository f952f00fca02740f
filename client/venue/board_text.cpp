#include "venue/board_text.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <ctime>

namespace courthand::venue {

namespace {

std::string_view stage_word(CourtStage stage) {
    switch (stage) {
        case CourtStage::free:
            return "free";
        case CourtStage::before_match:
            return "to come";
        case CourtStage::line_ups:
            return "line-ups";
        case CourtStage::in_play:
            return "in play";
        case CourtStage::set_over:
            return "interval";
        case CourtStage::match_over:
            return "finished";
    }
    return "";
}

std::string_view severity_word(Severity severity) {
    switch (severity) {
        case Severity::critical:
            return "CRITICAL";
        case Severity::high:
            return "high";
        case Severity::medium:
            return "medium";
        case Severity::low:
            return "low";
    }
    return "";
}

std::string age(Moment since, Moment now) {
    const auto seconds = std::max<long long>(
        0, std::chrono::duration_cast<std::chrono::seconds>(now - since).count());
    constexpr long long minute = 60;
    return fmt::format("{}:{:02}", seconds / minute, seconds % minute);
}

std::string team_text(const TeamOnBoard& team, bool serves) {
    // Longer names would push the rest off a terminal of 100 columns.
    std::string text = fmt::format("{:.18}{}", team.name, serves ? " *" : "");
    for (const auto& on : team.liberos_on) {
        text += fmt::format(" (L {} for {})", on.libero.worn() ? on.libero.number() : 0,
                            on.replaces.worn() ? fmt::format("{}", on.replaces.number()) : "?");
    }
    return text;
}

/// Of which match an alert is: its name in the record of the tournament, else its number in the
/// plan.
std::string match_text(const Board& board, const Alert& alert) {
    const bool earlier = board.left_behind(alert);
    if (!alert.match_name.empty())
        return fmt::format("{}{}  ", earlier ? "earlier match " : "", alert.match_name);
    if (alert.match_number == 0) return {};
    return fmt::format("{}match {}  ", earlier ? "earlier " : "", alert.match_number);
}

std::string court_line(const CourtOnBoard& court, Moment now) {
    if (court.match_id.empty()) return fmt::format("court {:>2}  free\n", court.court);
    const auto& [a, b] = court.teams;
    std::string line = fmt::format(
        "court {:>2}  {:<9} set {}  {:>2} : {:<2}  sets {}-{}  {} - {}", court.court,
        stage_word(court.stage), court.set, court.score.a, court.score.b, a.sets, b.sets,
        team_text(a, court.serves(Team::A)), team_text(b, court.serves(Team::B)));
    if (!court.staffed && court.last_seen) line += "  not seen for " + age(*court.last_seen, now);
    return line + "\n";
}

}  // namespace

std::string board_text(const Board& board, const Link& link) {
    const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(board.as_of).count();
    const auto clock = fmt::localtime(static_cast<std::time_t>(seconds));
    std::string text = fmt::format("{:%H:%M:%S}  {}\n", clock,
                                   link.state == LinkState::live ? "live" : link.words);
    for (const auto& court : board.courts) text += court_line(court, board.as_of);
    auto alerts = board.alerts;
    std::sort(alerts.begin(), alerts.end(), [](const Alert& a, const Alert& b) {
        if (a.severity != b.severity) return a.severity < b.severity;
        return a.since < b.since;
    });
    for (const auto& alert : alerts) {
        text += fmt::format(
            "{:<9} {:>6}  court {:>2}  {}{}{}\n", severity_word(alert.severity),
            age(alert.since, board.as_of), alert.court, match_text(board, alert), alert.sentence,
            alert.claimed_by.empty() ? "" : "  (" + alert.claimed_by + " is going)");
    }
    return text;
}

}  // namespace courthand::venue
