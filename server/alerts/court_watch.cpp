#include "server/alerts/court_watch.h"

#include <algorithm>

namespace courthand::server::alerts {

namespace {

bool set_is_played(Stage stage) {
    return stage == Stage::dead_ball || stage == Stage::whistled || stage == Stage::in_play;
}

// A court is watched from the first set on until its match is over.
bool watched(Stage stage) {
    return set_is_played(stage) || stage == Stage::before_set || stage == Stage::set_over;
}

std::optional<Severity> severity_of(Stage stage, std::chrono::seconds silent) {
    std::optional<Severity> severity;
    for (const SilenceStep& step :
         set_is_played(stage) ? silence_in_play() : silence_between_sets())
        if (silent >= step.silent) severity = step.severity;
    return severity;
}

Condition silent_condition(Kind kind, AlertId id, Severity severity) {
    const Row& row = row_of(kind);
    Condition condition;
    condition.id = std::move(id);
    condition.kind = kind;
    condition.code = row.word;
    condition.severity = severity;
    condition.text = row.text;
    condition.reference = row.reference;
    return condition;
}

}  // namespace

void CourtWatch::heard(std::uint32_t court, const Now& at) {
    Court& known = courts_[court];
    known.presumed_silent = false;
    if (!known.heard || known.heard->steady < at.steady) known.heard = at;
}

void CourtWatch::set_match(std::uint32_t court, std::optional<MatchId> match, Stage stage) {
    Court& known = courts_[court];
    known.match = match;
    known.stage = stage;
}

void CourtWatch::presume_silent(std::uint32_t court) {
    Court& known = courts_[court];
    if (!known.heard) known.presumed_silent = true;
}

std::optional<Now> CourtWatch::last_heard(std::uint32_t court) const {
    const auto known = courts_.find(court);
    return known == courts_.end() ? std::nullopt : known->second.heard;
}

AlertId CourtWatch::id_of(std::uint32_t court) {
    return "court/" + std::to_string(court) + "/" + std::string{row_of(Kind::court_not_seen).word};
}

std::chrono::seconds CourtWatch::silence(const Court& court, const Now& now,
                                         const Now& since_start) {
    if (court.presumed_silent) return silence_in_play().front().silent;
    const Steady heard = std::max(court.heard.value_or(since_start).steady, since_start.steady);
    return std::chrono::duration_cast<std::chrono::seconds>(now.steady - heard);
}

std::vector<Condition> CourtWatch::conditions(const Now& now, const Now& since_start) const {
    std::vector<Condition> silent;
    std::size_t live = 0;
    std::size_t quiet = 0;
    for (const auto& [number, court] : courts_) {
        if (number == 0 || !court.match || !watched(court.stage)) continue;
        ++live;
        const std::chrono::seconds time = silence(court, now, since_start);
        if (time >= silent_together) ++quiet;
        auto severity = severity_of(court.stage, time);
        if (court.presumed_silent && !severity) severity = Severity::low;
        if (!severity) continue;
        Condition condition = silent_condition(Kind::court_not_seen, id_of(number), *severity);
        condition.court = number;
        condition.match = *court.match;
        silent.push_back(std::move(condition));
    }
    const bool together = live > 1 && quiet == live && !silent.empty();
    if (!together) return silent;
    const Row& row = row_of(Kind::no_court_seen);
    return {silent_condition(row.kind, "venue/" + std::string{row.word}, row.severity)};
}

}  // namespace courthand::server::alerts
