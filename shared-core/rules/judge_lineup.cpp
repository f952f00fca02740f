// Line-up sheets, libero boxes and who is a libero in this set.
#include "rules/context.h"

namespace courthand::rules {
namespace {

[[nodiscard]] std::size_t named_liberos(const TeamSet& side) noexcept {
    std::size_t n = 0;
    for (const LiberoBox& box : side.boxes)
        if (box.mark == LiberoBox::Mark::number) ++n;
    return n;
}

/// Liberos are fixed for the match, or this sheet still decides whether they are.
enum class Naming : std::uint8_t {
    fixes_match,  ///< the sheet names the liberos of the match
    match_fixed,  ///< they are fixed; the sheet may only repeat them
    for_set,      ///< the sheet names the liberos of this set
};

[[nodiscard]] bool first_sheet(const MatchState& state) noexcept {
    return state.set.number <= 1;
}

[[nodiscard]] Naming naming_of(const Rules& rules, const MatchState& state, Team team) noexcept {
    switch (rules.designation) {
        case DesignationScope::set:
            return Naming::for_set;
        case DesignationScope::match:
            return first_sheet(state) ? Naming::fixes_match : Naming::match_fixed;
        case DesignationScope::match_or_set:
            break;
    }
    const bool two = named_liberos(state.set.team[team]) == libero_boxes;
    if (first_sheet(state)) return two ? Naming::fixes_match : Naming::for_set;
    return state.team[team].choice == DesignationChoice::two_for_match ? Naming::match_fixed
                                                                       : Naming::for_set;
}

struct Sheet {
    Context& c;
    Team team;
    void say(Reason reason, Jersey subject) const noexcept {
        raise(c, {reason, team, {subject, Jersey::none()}});
    }
};

/// Who was replaced as libero is none by being written down as one.
void name_libero(Context& c, Team team, std::size_t box, Jersey jersey) noexcept {
    PlayerRecord* player = find_player(c.record(team), jersey);
    if (player != nullptr && player->libero == LiberoRole::replaced) return;
    c.record(team).designated[box] = jersey;
    c.side(team).liberos[box] = jersey;
    if (player != nullptr) player->libero = LiberoRole::designated;
}

void forget_liberos(Context& c, Team team) noexcept {
    TeamRecord& record = c.record(team);
    for (std::size_t i = 0; i < record.count; ++i)
        if (record.players[i].libero == LiberoRole::designated &&
            record.players[i].redesignated == 0)
            record.players[i].libero = LiberoRole::none;
    record.designated = {};
    c.side(team).liberos = {};
}

/// The number in a box, looked at alone.
void judge_box(const Sheet& sheet, const LiberoBox& box) noexcept {
    if (box.mark != LiberoBox::Mark::number) return;
    const PlayerRecord* player = find(sheet.c.record(sheet.team), box.number);
    if (player == nullptr)
        sheet.say(Reason::lineup_not_on_roster, box.number);
    else if (barred(sheet.c.record(sheet.team), box.number, sheet.c.set().number))
        sheet.say(Reason::player_barred, box.number);
    else if (player->libero == LiberoRole::replaced)
        sheet.say(Reason::redesignated_player_returns, box.number);
}

void judge_fixed_names(const Sheet& sheet) noexcept {
    const TeamRecord& record = sheet.c.record(sheet.team);
    for (const LiberoBox& box : sheet.c.side(sheet.team).boxes) {
        if (box.mark != LiberoBox::Mark::number) continue;
        const bool known = box.number == record.designated[0] || box.number == record.designated[1];
        const PlayerRecord* player = find(record, box.number);
        const bool told_already = player != nullptr && player->libero == LiberoRole::replaced;
        if (!known && !told_already) sheet.say(Reason::designation_changed, box.number);
    }
}

/// Derives from the boxes who may act as libero in this set, and says what is wrong with them.
void judge_liberos(const Sheet& sheet) noexcept {
    Context& c = sheet.c;
    TeamSet& side = c.side(sheet.team);
    TeamRecord& record = c.record(sheet.team);
    for (const LiberoBox& box : side.boxes) judge_box(sheet, box);
    const bool two_owed = c.rules.two_liberos_above != 0 && first_sheet(c.state) &&
                          record.count > c.rules.two_liberos_above;
    if (named_liberos(side) > c.rules.liberos_per_set ||
        (two_owed && named_liberos(side) < libero_boxes))
        sheet.say(Reason::libero_limit, side.boxes[1].number);
    const Naming naming = naming_of(c.rules, c.state, sheet.team);
    if (naming == Naming::match_fixed) {
        judge_fixed_names(sheet);
        side.liberos = record.designated;
        return;
    }
    if (!first_sheet(c.state) && c.rules.designation == DesignationScope::match_or_set &&
        named_liberos(side) == libero_boxes)
        sheet.say(Reason::designation_mixed, side.boxes[1].number);
    forget_liberos(c, sheet.team);
    for (std::size_t i = 0; i < libero_boxes; ++i)
        if (side.boxes[i].mark == LiberoBox::Mark::number)
            name_libero(c, sheet.team, i, side.boxes[i].number);
    if (first_sheet(c.state))
        record.choice = naming == Naming::fixes_match ? DesignationChoice::two_for_match
                                                      : DesignationChoice::one_per_set;
}

void judge_starter(const Sheet& sheet, const LineUp& fact, std::size_t slot) noexcept {
    const TeamRecord& record = sheet.c.record(sheet.team);
    const Jersey starter = fact.order[slot];
    if (!starter.worn()) return;  // a place left empty is looked at when play is to begin
    for (std::size_t s = 0; s < slot; ++s)
        if (fact.order[s] == starter) {
            sheet.say(Reason::lineup_duplicate, starter);
            return;
        }
    const PlayerRecord* player = find(record, starter);
    if (player == nullptr)
        sheet.say(Reason::lineup_not_on_roster, starter);
    else if (barred(record, starter, sheet.c.set().number))
        sheet.say(Reason::player_barred, starter);
    else if (player->libero == LiberoRole::replaced)
        sheet.say(Reason::redesignated_player_returns, starter);
    else if (player->redesignated != 0 && acts_as_libero(sheet.c.side(sheet.team), starter))
        sheet.say(Reason::redesignated_player_other_role, starter);
    else if (acts_as_libero(sheet.c.side(sheet.team), starter))
        sheet.say(Reason::lineup_libero_as_starter, starter);
}

void judge_captain(const Sheet& sheet) noexcept {
    const TeamSet& side = sheet.c.side(sheet.team);
    const Rules& rules = sheet.c.rules;
    const bool of_the_team = side.captain == sheet.c.record(sheet.team).captain;
    const std::uint8_t allowed =
        of_the_team ? rules.libero_team_captain : rules.libero_game_captain;
    if (allowed == 0 && acts_as_libero(side, side.captain))
        sheet.say(Reason::captain_is_libero, side.captain);
}

void enter(Context& c, const LineUp& fact) noexcept {
    TeamSet& side = c.side(fact.team);
    place_starters(c.record(fact.team), side, fact.order);
    side.boxes = fact.liberos;
    side.captain = fact.captain.worn() ? fact.captain : c.record(fact.team).captain;
    side.game_captain = Jersey::none();
    side.lineup_in = 1;
}

}  // namespace

void judge_fact(Context& c, const LineUp& fact) noexcept {
    const SetState& set = c.set();
    if (!set_running(set.stage)) {
        out_of_sequence(c, fact.team);
        return;
    }
    if (set.rallies > 0 || set.stage == Stage::in_play) {
        raise(c, {Reason::lineup_changed, fact.team});
        return;
    }
    if (c.side(fact.team).checked != 0) raise(c, {Reason::lineup_changed, fact.team});
    end_sheet_faults(c, fact.team);
    enter(c, fact);
    const Sheet sheet{c, fact.team};
    judge_liberos(sheet);
    update_captain(c, fact.team);
    for (std::size_t s = 0; s < players_on_court; ++s) judge_starter(sheet, fact, s);
    judge_captain(sheet);
}

void judge_fact(Context& c, const LiberoBoxSettled& fact) noexcept {
    TeamSet& side = c.side(fact.team);
    const bool blank =
        fact.box < libero_boxes && side.boxes[fact.box].mark == LiberoBox::Mark::blank;
    // Once play has begun only a box that was left blank can still be settled.
    if (fact.box >= libero_boxes || side.lineup_in == 0 || (c.set().rallies > 0 && !blank)) {
        out_of_sequence(c, fact.team);
        return;
    }
    side.boxes[fact.box] = fact.entry;
    end_sheet_faults(c, fact.team);
    const Sheet sheet{c, fact.team};
    judge_liberos(sheet);
    LineUp as_it_stands;
    for (std::size_t s = 0; s < players_on_court; ++s)
        as_it_stands.order[s] = side.slots[s].starter;
    for (std::size_t s = 0; s < players_on_court; ++s) judge_starter(sheet, as_it_stands, s);
    judge_captain(sheet);
}

void judge_fact(Context& c, const LineUpChecked& fact) noexcept {
    TeamSet& side = c.side(fact.team);
    if (side.lineup_in == 0 || !set_running(c.set().stage)) {
        out_of_sequence(c, fact.team);
        return;
    }
    side.checked = 1;
}

}  // namespace courthand::rules
