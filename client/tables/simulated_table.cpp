#include "client/tables/simulated_table.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <memory>
#include <thread>

#include <fmt/format.h>

#include "client/session/match_words.h"
#include "client/tables/table_station.h"
#include "courthand/match/signatures.h"
#include "courthand/sim/match_player.h"

namespace courthand::client {
namespace {

using namespace std::chrono_literals;

/// Invented clubs of the Harbour Cup, for matches that a table opens by itself.
constexpr std::array<const char*, 8> clubs{"Harbour Lights", "Mill Lane",  "Quayside",
                                           "Saltmarsh",      "North Pier", "Lantern Hill",
                                           "Tidewater",      "Ropewalk"};
/// How long to wait for the server to name a match before the table opens one.
constexpr auto wait_for_match = 5s;
constexpr auto retry_after = 200ms;
/// Six on court, two liberos and a few to change.
constexpr std::size_t fewest_to_play = 10;

class Table {
  public:
    Table(const SimulatedTableOptions& options, const std::atomic<bool>& stop,
          const std::function<void(const std::string&)>& say)
        : options_{options}, stop_{stop}, say_{say}, dice_{options.seed} {}

    std::string run() {
        auto opened = TableStation::open({options_.folder, options_.server, 0, {}, {}});
        if (auto* wrong = std::get_if<std::string>(&opened)) return *wrong;
        station_ = std::move(std::get<0>(opened));
        if (const std::string words = station_->recovery_words(); !words.empty()) say_(words);
        while (!finished()) {
            const std::string id = choose_match();
            if (id.empty()) continue;
            auto match = station_->open_match(id);
            if (auto* wrong = std::get_if<std::string>(&match)) return *wrong;
            play(*std::get<0>(match));
        }
        return send_the_rest();
    }

  private:
    [[nodiscard]] bool finished() const {
        return stop_ || (options_.rallies != 0 && rallies_ >= options_.rallies);
    }

    void wait(std::chrono::duration<double> time) const {
        // In small steps, so that a stop is heard.
        const auto end = std::chrono::steady_clock::now() + time;
        while (!stop_) {
            const auto left = end - std::chrono::steady_clock::now();
            if (left <= 0s) return;
            std::this_thread::sleep_for(std::min<std::chrono::duration<double>>(left, 0.1s));
        }
    }

    std::string choose_match() {
        const auto start = std::chrono::steady_clock::now();
        while (!finished()) {
            if (std::string id = station_->next_match(); !id.empty()) return id;
            const bool waited = std::chrono::steady_clock::now() - start > wait_for_match;
            if (!options_.waits_for_desk && (waited || !station_->syncs())) return open_own();
            station_->look_at_court();
            wait(retry_after);
        }
        return {};
    }

    std::string open_own() {
        const std::size_t first = dice_.below(clubs.size());
        const std::size_t second = (first + 1 + dice_.below(clubs.size() - 1)) % clubs.size();
        auto opened = station_->open_own_match(options_.profile, {clubs[first], clubs[second]});
        if (const auto* error = std::get_if<JournalError>(&opened)) {
            say_(error->message);
            wait(1s);
            return {};
        }
        return std::get<std::string>(opened);
    }

    void play(JournaledMatch& match) {
        const MatchSheet& sheet = match.sheet();
        say_(fmt::format("court {}: {}", station_->court(), match_words(sheet)));
        sim::MatchPlayer player{options_.seed + match.records().size() * 7919 +
                                std::hash<std::string>{}(sheet.match_id)};
        std::uint8_t set = match.state().set.number;
        while (!finished()) {
            match.poll();
            // Another device goes on with it; this table looks for its next one.
            if (match.writing().who == Writing::Who::elsewhere) return;
            const auto step = player.next(match.rules(), match.state());
            if (!step) {
                if (options_.signs) sign(match);
                return tell_result(match);
            }
            if (!take(match, *step)) continue;
            if (match.state().set.number != set) {
                if (set > 0) tell_set(match, set);
                set = match.state().set.number;
            }
        }
    }

    /// The desk's list, when it sent one that can be played with.
    static void use_list_of_desk(const MatchSheet& sheet, Fact& fact) {
        auto* roster = std::get_if<Roster>(&fact);
        if (roster == nullptr || sheet.players[roster->team].size() < fewest_to_play) return;
        const Team team = roster->team;
        *roster = Roster{};
        roster->team = team;
        for (const MatchSheet::Player& player : sheet.players[team]) {
            roster->players[roster->count++] = player.number;
            if (player.captain) roster->captain = player.number;
        }
        if (!roster->captain.worn()) roster->captain = roster->players[0];
    }

    bool take(JournaledMatch& match, sim::Step step) {
        if (step.fact) use_list_of_desk(match.sheet(), *step.fact);
        const RecordResult result =
            step.fact ? match.record(*step.fact, step.words) : match.strike_last();
        if (result.error) {
            say_(*result.error);
            wait(1s);
            return false;
        }
        const bool rally = step.fact && std::holds_alternative<RallyWon>(*step.fact);
        if (rally) ++rallies_;
        if (options_.pace > 0) wait(std::chrono::duration<double>{options_.pace / 2});
        return true;
    }

    /// Those who have not signed yet: the table may have been stopped among them.
    void sign(JournaledMatch& match) {
        const SignerSet given = signed_result(match.state(), Signatures{match.written()});
        for (const Signer signer : record_signers)
            if (!given.has(signer) && !take(match, {Signature{signer}, {}})) return;
    }

    void tell_set(const JournaledMatch& match, std::uint8_t set) {
        const Score score = match.state().results[set - 1U].score;
        say_(fmt::format("court {}: {} set {} {}:{}", station_->court(),
                         match_called(match.sheet()), set, score.a, score.b));
    }

    void tell_result(JournaledMatch& match) {
        tell_set(match, match.state().set.number);
        const MatchState& state = match.state();
        say_(fmt::format("court {}: {} won by {} {}:{}", station_->court(),
                         match_called(match.sheet()), match.sheet().names[state.winner],
                         std::max(state.team.a.sets_won, state.team.b.sets_won),
                         std::min(state.team.a.sets_won, state.team.b.sets_won)));
        // The server names the next match only when it has the end of this one.
        const auto start = std::chrono::steady_clock::now();
        while (!finished() && !station_->all_sent() &&
               std::chrono::steady_clock::now() - start < wait_for_match)
            wait(retry_after);
        station_->look_at_court();
        wait(std::chrono::duration<double>{options_.pace});
    }

    std::string send_the_rest() {
        if (options_.rallies == 0 || !station_->syncs()) return {};
        while (!stop_ && !station_->all_sent()) wait(retry_after);
        return {};
    }

    const SimulatedTableOptions& options_;
    const std::atomic<bool>& stop_;
    const std::function<void(const std::string&)>& say_;
    sim::Dice dice_;
    std::unique_ptr<TableStation> station_;
    std::uint64_t rallies_ = 0;
};

}  // namespace

std::string run_simulated_table(const SimulatedTableOptions& options, const std::atomic<bool>& stop,
                                const std::function<void(const std::string&)>& say) {
    return Table{options, stop, say}.run();
}

}  // namespace courthand::client
