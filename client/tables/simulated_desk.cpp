#include "client/tables/simulated_desk.h"

#include <algorithm>
#include <chrono>
#include <future>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "client/app/enrolled_seat.h"
#include "courthand/event/pool_table.h"
#include "courthand/event_script/event_script.h"
#include "venue/desk_client.h"
#include "venue/event_client.h"
#include "venue/match_id.h"
#include "venue/table_results.h"

namespace courthand::client {

namespace {

using namespace std::chrono_literals;

/// The watch brings a fact at once; after this the desk looks as usual.
constexpr auto brought_within = 2s;

/// The same result was said before: if it is not there now, a person has reopened it or it had no
/// effect. Only a record that has gone on is a reason to say it anew.
[[nodiscard]] bool said_before(const event::TournamentState& state,
                               const event::ResultConfirmed& result) {
    return std::any_of(state.facts.begin(), state.facts.end(), [&](const event::Fact& fact) {
        const auto* const said = std::get_if<event::ResultConfirmed>(&fact);
        return said != nullptr && said->match == result.match && said->record == result.record &&
               said->head == result.head;
    });
}

void say_results(const event::TournamentState& state, event::DivisionIndex division,
                 const venue::DeskBook& book, std::vector<event::Fact>& said) {
    const venue::TableResults tables{book};
    const std::size_t count = state.divisions[division].matches.size();
    for (std::size_t i = 0; i < count; ++i) {
        const event::MatchRef match{division, static_cast<tournament::MatchIndex>(i)};
        if (!tables.to_confirm(state, match)) continue;
        auto result = *tables.confirmation(state, match);
        if (!said_before(state, result)) said.push_back(std::move(result));
    }
}

void say_lots(const event::TournamentState& state, event::DivisionIndex division, sim::Dice& dice,
              std::vector<event::Fact>& said) {
    const event::Division& here = state.divisions[division];
    for (std::size_t pool = 0; pool < here.pools.size(); ++pool) {
        const auto level =
            event::undecided(state, division, static_cast<tournament::PoolIndex>(pool));
        if (level.empty()) continue;
        event::DecisionMade lot;
        lot.division = here.rules.division;
        lot.pool = here.pools[pool].name;
        lot.by = standings::Decider::lot;
        for (const standings::TeamIndex team : level.front().teams)
            lot.teams.push_back(state.teams[here.pools[pool].teams[team]].name);
        for (std::size_t left = lot.teams.size(); left > 1; --left)
            std::swap(lot.teams[left - 1], lot.teams[dice.below(left)]);
        said.push_back(std::move(lot));
    }
}

/// What both sources told last; written by their threads.
class Latest {
  public:
    void take(const venue::EventBook& book) {
        const std::scoped_lock lock{mutex_};
        event_ = book;
    }
    void take(const venue::DeskBook& book) {
        const std::scoped_lock lock{mutex_};
        desk_ = book;
    }
    [[nodiscard]] std::pair<venue::EventBook, venue::DeskBook> both() const {
        const std::scoped_lock lock{mutex_};
        return {event_, desk_};
    }

  private:
    mutable std::mutex mutex_;
    venue::EventBook event_;
    venue::DeskBook desk_;
};

class Desk {
  public:
    Desk(const SimulatedDeskOptions& options, const std::atomic<bool>& stop,
         const std::function<void(const std::string&)>& say)
        : options_{options}, stop_{stop}, say_{say}, dice_{options.seed} {}

    std::string run() {
        SeatOptions place;
        place.seat = Seat::desk;
        place.folder = options_.folder;
        place.server = options_.server;
        const auto seat = enrolled_seat(place);
        if (const auto* wrong = std::get_if<std::string>(&seat)) return *wrong;
        const auto channel = open_channel(std::get<EnrolledSeat>(seat));
        venue::DeskClient desk{channel};
        venue::EventClient event{channel, "simulated desk"};
        desk.start({[this](const venue::DeskBook& book) { latest_.take(book); }, {}});
        event.start({[this](const venue::EventBook& book) { latest_.take(book); }, {}});
        while (!stop_)
            if (!look(event)) wait(std::chrono::duration<double>{options_.pause});
        event.stop();
        desk.stop();
        return {};
    }

  private:
    void wait(std::chrono::duration<double> time) const {
        // In small steps, so that a stop is heard.
        const auto end = std::chrono::steady_clock::now() + time;
        while (!stop_ && std::chrono::steady_clock::now() < end) std::this_thread::sleep_for(50ms);
    }

    /// Says one thing, as a person would: what the first one changes may answer the next. False
    /// when there was nothing, when it was not kept, or when it had no effect: then it waits, as
    /// saying more at once would fill the record.
    bool look(venue::EventClient& event) {
        const auto [known, desk] = latest_.both();
        if (!known.whole) return false;
        const auto said = next_said(*known.state, desk, dice_);
        if (said.empty()) return false;
        venue::EventAct act;
        act.ids = {venue::new_match_id()};
        act.facts = {{said.front(), {}}};
        act.seen = known.state->last();
        const auto answered = std::make_shared<std::promise<venue::ActOutcome>>();
        auto answer = answered->get_future();
        event.act(act,
                  [answered](const venue::ActOutcome& outcome) { answered->set_value(outcome); });
        while (answer.wait_for(50ms) != std::future_status::ready)
            if (stop_) return false;
        const venue::ActOutcome outcome = answer.get();
        tell(act, outcome);
        return outcome.fate == venue::ActOutcome::Fate::kept && sees_more_than(act.seen) &&
               outcome.findings.empty();
    }

    /// Waits until the watch has brought what was kept.
    bool sees_more_than(event::FactNumber seen) const {
        const auto end = std::chrono::steady_clock::now() + brought_within;
        while (!stop_ && latest_.both().first.state->last() <= seen) {
            if (std::chrono::steady_clock::now() > end) return false;
            std::this_thread::sleep_for(5ms);
        }
        return true;
    }

    void tell(const venue::EventAct& act, const venue::ActOutcome& outcome) const {
        const std::string line = event::event_line(act.facts.front());
        if (outcome.fate == venue::ActOutcome::Fate::failed)
            say_(fmt::format("desk: {}: {}", line, outcome.problem));
        else if (outcome.fate == venue::ActOutcome::Fate::kept)
            say_(fmt::format("desk: {}", line));
    }

    const SimulatedDeskOptions& options_;
    const std::atomic<bool>& stop_;
    const std::function<void(const std::string&)>& say_;
    sim::Dice dice_;
    Latest latest_;
};

}  // namespace

std::vector<event::Fact> next_said(const event::TournamentState& state, const venue::DeskBook& book,
                                   sim::Dice& dice) {
    std::vector<event::Fact> said;
    for (event::DivisionIndex division = 0; division < state.division_count(); ++division)
        say_results(state, division, book, said);
    for (event::DivisionIndex division = 0; division < state.division_count(); ++division)
        say_lots(state, division, dice, said);
    return said;
}

std::string run_simulated_desk(const SimulatedDeskOptions& options, const std::atomic<bool>& stop,
                               const std::function<void(const std::string&)>& say) {
    return Desk{options, stop, say}.run();
}

}  // namespace courthand::client
