// Facts of a tournament as a desk would say them, at random: teams, pools, brackets, results, and
// now and then something that cannot be or is taken back. The seed is fixed.
#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "courthand/event/fold.h"
#include "draw_event.h"

namespace courthand::event::testing {

class PlayedEvent {
  public:
    explicit PlayedEvent(unsigned seed) : dice_{seed} {}

    /// `count` facts after the opening ones.
    std::vector<Fact> facts(std::size_t count) {
        open();
        for (std::size_t i = 0; i < count; ++i) say(next());
        return said_;
    }

  private:
    void say(Fact fact) {
        fold_in(state_, fact);
        said_.push_back(std::move(fact));
    }

    void open() {
        say(TournamentOpened{"Harbour Cup", {20'785}, {20'786}, "Europe/London"});
        for (const std::string code : {"U16", "U18"}) {
            DivisionOpened division;
            division.division = code;
            division.profile = "international-2021";
            division.chain = "international-2017";
            division.format.own = true;
            division.format.format.sets = 3;
            division.withdrawn = dice_.coin() ? WithdrawnResults::struck : WithdrawnResults::kept;
            say(division);
            const std::size_t teams = 6 + dice_.below(9);
            for (std::size_t t = 1; t <= teams; ++t)
                say(TeamEntered{fmt::format("{} {}", code, t), code, ""});
            say(DrawMade{code, DrawMethod::serpentine, 2, 0, code, {}, {}});
        }
        for (std::uint16_t court = 1; court <= 3; ++court) say(CourtOpened{court, "", {}, {}, {}});
    }

    std::string division() { return dice_.coin() ? "U16" : "U18"; }
    std::string team() {
        if (dice_.below(20) == 0 || state_.teams.empty()) return "nobody";
        return state_.teams[dice_.below(state_.teams.size())].name;
    }
    std::string match() {
        if (state_.match_names.empty() || dice_.below(20) == 0) return "X1";
        auto any = state_.match_names.begin();
        std::advance(any, static_cast<std::ptrdiff_t>(dice_.below(state_.match_names.size())));
        return any->first;
    }
    /// A match that can have a result, or any.
    std::string playable() {
        std::string name;
        for (int i = 0; i < 12; ++i) {
            name = match();
            const auto ref = state_.find_match(name);
            if (ref && state_.side(*ref, 0).is_team() && state_.side(*ref, 1).is_team() &&
                !state_.match(*ref).result)
                break;
        }
        return name;
    }
    std::vector<SetScore> sets() {
        const bool first = dice_.coin();
        const auto set = [&](bool won, std::uint16_t points) {
            const auto low = static_cast<std::uint16_t>(dice_.below(points - 1U));
            return won ? SetScore{points, low} : SetScore{low, points};
        };
        if (dice_.coin()) return {set(first, 25), set(first, 25)};
        return {set(first, 25), set(!first, 25), set(first, 15)};
    }
    Source source() {
        Source out;
        out.kind = dice_.coin() ? Source::Kind::winner : Source::Kind::loser;
        out.of = match();
        if (dice_.below(4) == 0) out = {Source::Kind::place, dice_.coin() ? "A" : "B", 1, {}};
        if (dice_.below(4) == 0) out = {Source::Kind::team, team(), 0, {}};
        if (dice_.below(6) == 0) {
            const Source one{Source::Kind::place, "A", 2, {}};
            out = {dice_.coin() ? Source::Kind::better : Source::Kind::worse,
                   "",
                   0,
                   {one, {Source::Kind::place, "B", 2, {}}}};
        }
        return out;
    }
    Fact bracket() {
        BracketMade fact;
        fact.division = division();
        fact.kind = static_cast<BracketKind>(dice_.below(4));
        fact.prefix = fmt::format("K{}-", said_.size());
        fact.to_place = static_cast<std::uint8_t>(dice_.below(3));
        fact.second_final = dice_.coin();
        fact.third_place = dice_.coin();
        return fact;
    }

    Fact next() {
        switch (dice_.below(24)) {
            case 0:
                return bracket();
            case 1:
                return ResultReopened{match()};
            case 2:
                return TakenBack{static_cast<FactNumber>(1 + dice_.below(said_.size() + 2))};
            case 3:
                return TeamWithdrawn{team()};
            case 4:
                return TeamMoved{team(), dice_.coin() ? "A" : "B", dice_.coin() ? team() : ""};
            case 5:
                return DecisionMade{division(), "A", standings::Decider::lot, {team(), team()}};
            case 6:
                return MatchAdded{
                    fmt::format("F{}", said_.size()), division(), source(), source(), {}};
            case 7:
                return SidesGiven{match(), source(), source()};
            case 8:
                return SeedsGiven{division(), 1, {team(), team()}};
            case 9:
                return MatchPlaced{match(), 1, {29'930'400}, Timing::fixed, true};
            case 10:
                return DutyGiven{match(), source(), "", 0, 0};
            case 11:
                return dice_.draw_fact();
            case 12:
                return MatchAwarded{playable(), static_cast<Award>(dice_.below(4)), team(), {}};
            default:
                return ResultConfirmed{playable(), ResultFrom::paper, sets(), {}, {}};
        }
    }

    Dice dice_;
    TournamentState state_;
    std::vector<Fact> said_;
};

}  // namespace courthand::event::testing
