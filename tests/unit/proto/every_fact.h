// At least one example of every kind of fact, and of every choice inside a kind.
#pragma once

#include <vector>

#include "courthand/match/fact.h"
#include "courthand/rules/reason.h"

namespace courthand::wire::kit {

inline Jersey n(int number) {
    return Jersey{static_cast<std::uint8_t>(number)};
}

inline LineUp full_sheet(Team team) {
    LineUp sheet;
    sheet.team = team;
    for (std::size_t i = 0; i < players_on_court; ++i) sheet.order[i] = n(static_cast<int>(i) + 1);
    sheet.liberos = {LiberoBox{LiberoBox::Mark::number, n(0)},
                     LiberoBox{LiberoBox::Mark::none, {}}};
    sheet.captain = n(3);
    return sheet;
}

inline Roster full_roster(Team team) {
    Roster roster;
    roster.team = team;
    roster.count = most_players;
    for (std::size_t i = 0; i < most_players; ++i)
        roster.players[i] = n(Jersey::largest - static_cast<int>(i));
    roster.captain = n(Jersey::largest);
    return roster;
}

inline Substitution six_pairs(Team team) {
    Substitution request;
    request.team = team;
    request.count = most_pairs;
    for (std::size_t i = 0; i < most_pairs; ++i)
        request.pairs[i] = {n(static_cast<int>(i) + 11), n(static_cast<int>(i) + 1)};
    return request;
}

inline MatchFormat odd_format() {
    MatchFormat format;
    format.sets = 2;
    format.all_sets_played = 1;
    format.points = 21;
    format.deciding_points = 11;
    format.lead = 1;
    format.cap = 255;
    format.deciding_cap = 17;
    format.start_score = 4;
    format.switch_at = 0;
    return format;
}

/// The kinds that concern one team and nothing else, or a team and one choice.
inline void add_team_facts(std::vector<Fact>& facts, Team team) {
    Roster roster;
    roster.team = team;
    LineUp sheet;
    sheet.team = team;
    Substitution one_pair;
    one_pair.team = team;
    one_pair.count = 1;
    one_pair.pairs[0] = {n(0), n(99)};
    facts.insert(facts.end(), {roster,
                               full_roster(team),
                               Toss{team, Team::A},
                               Toss{Team::B, team},
                               sheet,
                               full_sheet(team),
                               LineUpChecked{team},
                               Serve{team, {}},
                               Serve{team, n(0)},
                               RallyWon{team},
                               LiberoReplacement{team, n(0), n(99)},
                               one_pair,
                               six_pairs(team),
                               TimeOut{team},
                               GameCaptain{team, n(12)},
                               Redesignation{team, n(21), n(4)},
                               ImproperRequest{team},
                               Injury{team, n(8)},
                               Recovery{team, n(8)},
                               PositionalFault{team, {}, {}},
                               PositionalFault{team, n(4), {}},
                               PositionalFault{team, n(4), n(5)},
                               Default{team},
                               Protest{team},
                               Incomplete{team, Incomplete::Scope::set},
                               Incomplete{team, Incomplete::Scope::match},
                               Delay{team, Sanction::warning},
                               Delay{team, Sanction::penalty}});
    for (const std::uint8_t box : {std::uint8_t{0}, std::uint8_t{1}}) {
        using Mark = LiberoBox::Mark;
        facts.push_back(LiberoBoxSettled{team, box, {Mark::blank, {}}});
        facts.push_back(LiberoBoxSettled{team, box, {Mark::none, {}}});
        facts.push_back(LiberoBoxSettled{team, box, {Mark::number, n(22)}});
    }
    for (const Cause cause : {Cause::injury, Cause::illness, Cause::expulsion,
                              Cause::disqualification, Cause::declared}) {
        facts.push_back(ExceptionalSubstitution{team, n(14), n(2), cause});
        facts.push_back(LiberoUnable{team, n(21), cause});
    }
    for (const Sanction sanction :
         {Sanction::warning, Sanction::penalty, Sanction::expulsion, Sanction::disqualification}) {
        facts.push_back(Misconduct{team, {}, sanction});
        facts.push_back(Misconduct{team, n(5), sanction});
    }
    for (std::size_t i = 0; i < reason_count; ++i)
        for (const auto decision : {Ruling::Decision::accept, Ruling::Decision::overrule,
                                    Ruling::Decision::accept_moment_unknown})
            facts.push_back(Ruling{decision, static_cast<Reason>(i), team});
}

inline std::vector<Fact> every_fact() {
    std::vector<Fact> facts{MatchOpened{},
                            MatchOpened{odd_format()},
                            SetStarted{1},
                            SetStarted{5},
                            Whistle{},
                            Replay{},
                            CourtSwitch{},
                            Interval{},
                            Interrupted{},
                            Resumed{Resumed::How::same_court},
                            Resumed{Resumed::How::other_court},
                            Resumed{Resumed::How::over_four_hours},
                            ScoreCorrection{{0, 0}},
                            ScoreCorrection{{255, 24}}};
    for (const Note::Kind kind : {Note::Kind::remark, Note::Kind::signature, Note::Kind::officials})
        facts.push_back(Note{kind});
    add_team_facts(facts, Team::A);
    add_team_facts(facts, Team::B);
    return facts;
}

}  // namespace courthand::wire::kit
