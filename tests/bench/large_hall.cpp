#include "tests/bench/large_hall.h"

#include <stdexcept>
#include <string>
#include <utility>

#include "courthand/event/fold.h"
#include "wire/uuid.h"

#include <fmt/format.h>

namespace courthand::bench {
namespace {

using event::LocalTime;
using event::TournamentState;

/// Results that the desk has confirmed; then a match on each court.
constexpr std::size_t confirmed = 330;
constexpr LocalTime morning{29'930'400};
constexpr venue::Moment now{1'795'860'000'000};
constexpr std::size_t head_bytes = 32;

struct Size {
    const char* code;
    int teams;
    std::uint8_t pools;
    bool bracket;
    std::size_t matches;
};
constexpr Size sizes[] = {{"D1", 64, 8, true, shown_matches},
                          {"D2", 32, 8, false, (hall_matches - shown_matches) / 2},
                          {"D3", 32, 8, false, (hall_matches - shown_matches) / 2}};

event::RecordId record_of(std::size_t match) {
    event::RecordId id;
    id.bytes = {0x01, 0x92, 0xf0, 0xa1, 0, 0, 0x70, 0, 0x80};
    id.bytes[14] = static_cast<std::uint8_t>(match >> 8);
    id.bytes[15] = static_cast<std::uint8_t>(match);
    return id;
}

venue::Id text_of(const event::RecordId& record) {
    return wire::Uuid{record.bytes}.to_text();
}

class Day {
  public:
    LargeHall made() {
        open();
        for (const Size& size : sizes) add_division(size);
        play();
        list();
        if (!state_.findings.empty()) throw std::logic_error{state_.findings.front().fault.message};
        if (state_.match_names.size() != hall_matches || hall_.playing.size() != hall_courts)
            throw std::logic_error{fmt::format("{} matches, {} courts in play",
                                               state_.match_names.size(), hall_.playing.size())};
        return std::move(hall_);
    }

  private:
    void say(event::Fact fact) {
        fold_in(state_, fact);
        hall_.facts.push_back({std::move(fact), {}});
    }

    void open() {
        say(event::TournamentOpened{"Harbour Cup", {20'785}, {20'786}, "Europe/London"});
        for (std::uint16_t court = 1; court <= hall_courts; ++court)
            say(event::CourtOpened{court, "", morning, {morning.minutes + 600}, {}});
    }

    void add_division(const Size& size) {
        event::DivisionOpened division;
        division.division = size.code;
        division.profile = "international-2025";
        division.chain = "international-2017";
        say(division);
        for (int t = 1; t <= size.teams; ++t) {
            const std::string name = fmt::format("Harbour team {} {}", size.code, t);
            say(event::TeamEntered{name, size.code, fmt::format("Club {}", 1 + t % 40)});
            say(event::RosterFrozen{name, {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}});
        }
        event::DrawMade draw;
        draw.division = size.code;
        draw.pools = size.pools;
        draw.prefix = fmt::format("{}-", size.code);
        say(draw);
        if (size.bracket) {
            event::BracketMade bracket;
            bracket.division = size.code;
            bracket.kind = event::BracketKind::double_;
            bracket.prefix = "X";
            bracket.from_place = 1;
            bracket.to_place = static_cast<std::uint8_t>(size.teams / size.pools);
            say(bracket);
        }
        using Kind = event::Source::Kind;
        for (int n = 1; state_.divisions.back().graph.matches.size() < size.matches; ++n)
            say(event::MatchAdded{
                fmt::format("{}-Y{}", size.code, n),
                size.code,
                {Kind::winner, fmt::format("{}-A{}", size.code, 1 + n % 6), 0, {}},
                {Kind::loser, fmt::format("{}-B{}", size.code, 1 + n % 6), 0, {}},
                {}});
    }

    /// Matches with both their sides, in turn: results first, then one on each court.
    void play() {
        for (bool more = true; more;) {
            more = false;
            for (const auto& [name, ref] : std::map{state_.match_names}) {
                if (state_.match(ref).record.given() || !state_.side(ref, 0).is_team() ||
                    !state_.side(ref, 1).is_team() || begun_ == confirmed + hall_courts)
                    continue;
                begin(name, ref);
                more = true;
            }
        }
    }

    void begin(const std::string& name, event::MatchRef ref) {
        const std::size_t number = begun_++;
        const auto court = static_cast<std::uint16_t>(1 + number % hall_courts);
        const auto record = record_of(number + 1);
        const auto turn = static_cast<std::int32_t>(number / hall_courts);
        say(event::MatchPlaced{name, court, {morning.minutes + 45 * turn}, {}, false});
        say(event::RecordOpened{name, record});
        venue::ResultListed result;
        result.match_id = text_of(record);
        result.head_hash.assign(head_bytes, '\x5a');
        const auto low = static_cast<std::uint8_t>(number % 23);
        if (number < confirmed) {
            event::ResultConfirmed fact;
            fact.match = name;
            fact.record = record;
            fact.head.bytes.fill(0x5a);
            fact.sets = {{25, low}, {low, 25}, {25, 20}, {25, 18}};
            say(fact);
            result.sets = {3, 1};
            result.set_scores = {{25, low}, {low, 25}, {25, 20}, {25, 18}};
            result.decided = result.first_won = true;
        } else {
            result.sets = {1, 0};
            result.set_scores = {{25, low}, {7, 5}};
            hall_.playing.push_back(hall_.book.results.size());
            add_court(ref, court, result);
        }
        hall_.book.results.push_back(std::move(result));
    }

    void add_court(event::MatchRef ref, std::uint16_t number, const venue::ResultListed& result) {
        venue::CourtOnBoard court;
        court.court = number;
        court.match_id = result.match_id;
        court.stage = venue::CourtStage::in_play;
        court.set = 2;
        court.score = result.set_scores.back();
        court.finished_sets = {result.set_scores.front()};
        court.teams.a.name = state_.teams[state_.side(ref, 0).team].name;
        court.teams.b.name = state_.teams[state_.side(ref, 1).team].name;
        for (auto* team : {&court.teams.a, &court.teams.b})
            team->line_up_in = team->line_up_checked = true;
        court.staffed = true;
        court.last_seen = now;
        hall_.board.courts.push_back(std::move(court));
    }

    void list() {
        hall_.board.as_of = hall_.book.as_of = now;
        for (const event::Team& team : state_.teams) {
            venue::TeamListed listed;
            listed.id = fmt::format("team-{}", hall_.book.teams.size());
            listed.name = team.name;
            listed.club = team.club;
            for (int number = 1; number <= 12; ++number)
                listed.players.push_back({number, "", number == 1, number == 12});
            hall_.book.teams.push_back(std::move(listed));
        }
        for (const auto& [name, ref] : state_.match_names) list_match(ref);
        for (const auto& card : hall_.board.courts) {
            const std::string device = fmt::format("device-{}", card.court);
            hall_.book.courts.push_back({card.court, "", card.match_id, 3, device});
            hall_.book.devices.push_back({device, fmt::format("Tablet {}", card.court),
                                          venue::Seat::table, card.court, now, false});
        }
    }

    void list_match(event::MatchRef ref) {
        const event::MatchState& match = state_.match(ref);
        venue::MatchPlanned planned;
        planned.number = static_cast<int>(hall_.book.matches.size()) + 1;
        planned.id =
            match.record.given() ? text_of(match.record) : fmt::format("match-{}", planned.number);
        planned.court = match.placement ? match.placement->court : venue::CourtNumber{1};
        planned.first = side(ref, 0);
        planned.second = side(ref, 1);
        planned.first_colour = {0x1F3A5F};
        planned.second_colour = {0xB3261E};
        planned.planned = now;
        planned.status = match.result           ? venue::MatchStatus::signed_off
                         : match.record.given() ? venue::MatchStatus::in_play
                                                : venue::MatchStatus::scheduled;
        hall_.book.matches.push_back(std::move(planned));
    }

    [[nodiscard]] std::string side(event::MatchRef ref, std::size_t which) const {
        const event::Side side = state_.side(ref, which);
        return side.is_team() ? state_.teams[side.team].name : "to be settled";
    }

    LargeHall hall_;
    TournamentState state_;
    std::size_t begun_ = 0;
};

}  // namespace

void LargeHall::rally(std::size_t court) {
    Score& score = book.results[playing[court]].set_scores.back();
    // A set that ended would change more rows than the one.
    score.a = static_cast<std::uint8_t>((score.a + 1) % 20);
    board.courts[court].score = score;
    board.as_of = book.as_of += venue::Moment{1};
}

LargeHall large_hall() {
    return Day{}.made();
}

}  // namespace courthand::bench
