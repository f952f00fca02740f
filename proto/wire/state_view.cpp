#include "wire/state_view.h"

#include <algorithm>

#include "wire/fact_convert.h"

namespace courthand::wire {
namespace {

std::string_view words(Bar bar) noexcept {
    switch (bar) {
        case Bar::none:
            return "";
        case Bar::expelled:
            return "expelled for the set";
        case Bar::disqualified:
            return "disqualified";
        case Bar::injured_out:
            return "left by exceptional substitution";
    }
    return "";
}

v1::Designation::State designation_of(const PlayerRecord& player) noexcept {
    if (player.libero == LiberoRole::replaced) return v1::Designation::STATE_REPLACED;
    if (player.libero_unable != 0) return v1::Designation::STATE_UNABLE;
    if (player.redesignated != 0) return v1::Designation::STATE_REDESIGNATED;
    return v1::Designation::STATE_ACTIVE;
}

void show_people(const TeamRecord& record, std::uint8_t set, v1::TeamCard& card) {
    for (std::size_t i = 0; i < record.count; ++i) {
        const PlayerRecord& player = record.players[i];
        const bool out = barred(player, set);
        if (out) card.add_barred(player.jersey.number());
        if (player.libero == LiberoRole::none) continue;
        v1::Designation& designation = *card.add_designations();
        designation.set_number(player.jersey.number());
        designation.set_state(designation_of(player));
        designation.set_barred(out);
        if (out) designation.set_barred_words(std::string{words(player.bar)});
    }
}

void show_liberos_on(const TeamSet& set, v1::TeamCard& card) {
    for (const SlotRecord& slot : set.slots) {
        if (!acts_as_libero(set, slot.on_court)) continue;
        v1::LiberoOnCourt& on = *card.add_liberos_on();
        on.set_libero(slot.on_court.number());
        if (slot.replaced.worn()) on.set_for_player(slot.replaced.number());
    }
}

void show_team(const MatchState& state, Team team, v1::TeamCard& card) {
    const TeamSet& set = state.set.team[team];
    const TeamRecord& record = state.team[team];
    card.set_sets_won(record.sets_won);
    card.set_line_up_in(set.lineup_in != 0);
    card.set_line_up_checked(set.checked != 0);
    card.clear_on_court();
    card.clear_liberos_on();
    card.clear_designations();
    card.clear_barred();
    card.clear_captain();
    if (set.lineup_in != 0) {
        to_proto(on_court(set), *card.mutable_on_court());
        show_liberos_on(set, card);
    }
    show_people(record, state.set.number, card);
    const auto blank = [](const LiberoBox& box) { return box.mark == LiberoBox::Mark::blank; };
    const auto open = std::count_if(set.boxes.begin(), set.boxes.end(), blank);
    card.set_boxes_open(set.lineup_in != 0 ? static_cast<std::uint32_t>(open) : 0);
    if (set.game_captain.worn()) card.set_captain(set.game_captain.number());
    card.set_substitutions(set.substitutions);
    card.set_time_outs(set.time_outs);
}

}  // namespace

v1::Stage to_proto(Stage stage) noexcept {
    switch (stage) {
        case Stage::before_match:
            return v1::STAGE_BEFORE_MATCH;
        case Stage::before_set:
            return v1::STAGE_BEFORE_SET;
        case Stage::dead_ball:
            return v1::STAGE_DEAD_BALL;
        case Stage::whistled:
            return v1::STAGE_WHISTLED;
        case Stage::in_play:
            return v1::STAGE_IN_PLAY;
        case Stage::set_over:
            return v1::STAGE_SET_OVER;
        case Stage::match_over:
            return v1::STAGE_MATCH_OVER;
    }
    return v1::STAGE_UNSPECIFIED;
}

std::string_view words(Stage stage) noexcept {
    switch (stage) {
        case Stage::before_match:
            return "before the match";
        case Stage::before_set:
            return "before the set";
        case Stage::dead_ball:
            return "dead ball";
        case Stage::whistled:
            return "service authorised";
        case Stage::in_play:
            return "in play";
        case Stage::set_over:
            return "set over";
        case Stage::match_over:
            return "match over";
    }
    return "";
}

v1::Severity to_proto(Severity severity) noexcept {
    switch (severity) {
        case Severity::critical:
            return v1::SEVERITY_CRITICAL;
        case Severity::high:
            return v1::SEVERITY_HIGH;
        case Severity::medium:
            return v1::SEVERITY_MEDIUM;
        case Severity::low:
            return v1::SEVERITY_LOW;
    }
    return v1::SEVERITY_UNSPECIFIED;
}

void show(const MatchState& state, v1::CourtCard& card) {
    const bool tossed = state.tossed != 0;
    card.set_set(state.set.number);
    to_proto(state.set.score, *card.mutable_score());
    card.set_serving(tossed ? to_proto(state.set.serving) : v1::TEAM_LETTER_UNSPECIFIED);
    card.set_left(tossed ? to_proto(state.set.left) : v1::TEAM_LETTER_UNSPECIFIED);
    card.set_stage(to_proto(state.set.stage));
    card.set_stage_words(std::string{words(state.set.stage)});
    show_team(state, Team::A, *card.mutable_a());
    show_team(state, Team::B, *card.mutable_b());
    card.clear_finished_sets();
    for (const SetResult& result : state.results)
        if (result.played != 0) to_proto(result.score, *card.add_finished_sets());
    const bool over = state.set.stage == Stage::match_over;
    card.set_winner(over ? to_proto(state.winner) : v1::TEAM_LETTER_UNSPECIFIED);
    card.set_state_hash(state_hash(state));
}

}  // namespace courthand::wire
