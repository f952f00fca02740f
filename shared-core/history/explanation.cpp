#include "courthand/history/explanation.h"

#include <algorithm>
#include <array>

#include "courthand/rules/judge.h"

namespace courthand {
namespace {

/// One service that was recorded with a number, and what the record expected.
struct Observation {
    EntryNumber entry;
    Jersey server;
    std::array<Jersey, players_on_court> by_slot;
    std::size_t next_slot;    ///< slot whose turn it is to serve
    std::uint16_t side_outs;  ///< rotations of the team so far in the set
};

class Observer {
  public:
    Observer(const Rules& rules, Team team) : rules_{rules}, team_{team} {}

    void take(const Entry& entry) {
        const std::uint8_t set_before = state_.set.number;
        const Rotation rotation_before = state_.set.team[team_].rotation;
        note_service(entry);
        VerdictList raised;
        apply(rules_, state_, entry, raised);
        if (state_.set.number != set_before) {
            seen_.clear();
            side_outs_ = 0;
        } else if (!(state_.set.team[team_].rotation == rotation_before)) {
            ++side_outs_;
        }
    }

    [[nodiscard]] const std::vector<Observation>& seen() const { return seen_; }

  private:
    void note_service(const Entry& entry) {
        const auto* serve = std::get_if<Serve>(&entry.fact);
        const bool ours = serve != nullptr && serve->server.worn() && serve->team == team_ &&
                          state_.set.serving == team_;
        if (!ours) return;
        const TeamSet& side = state_.set.team[team_];
        Observation o{
            entry.number, serve->server, {}, index(side.rotation.slot_at(Position::I)), side_outs_};
        for (std::size_t s = 0; s < players_on_court; ++s) o.by_slot[s] = side.slots[s].on_court;
        seen_.push_back(o);
    }

    const Rules& rules_;
    Team team_;
    MatchState state_{};
    std::vector<Observation> seen_;
    std::uint16_t side_outs_ = 0;
};

using Seen = std::span<const Observation>;

/// Counts the services that fit a prediction.
template <class Predict>
[[nodiscard]] std::uint16_t fitting(Seen seen, Predict predict) {
    std::uint16_t n = 0;
    for (const Observation& o : seen)
        if (predict(o) == o.server) ++n;
    return n;
}

[[nodiscard]] Jersey as_recorded(const Observation& o) {
    return o.by_slot[o.next_slot];
}

[[nodiscard]] const Observation& first_contradiction(Seen seen) {
    return *std::find_if(seen.begin(), seen.end(),
                         [](const Observation& o) { return as_recorded(o) != o.server; });
}

void explain_by_sheet(Seen seen, std::vector<Explanation>& out) {
    const EntryNumber since = seen.front().entry;
    const auto mirrored = [](const Observation& o) {
        return o.by_slot[(players_on_court - o.next_slot) % players_on_court];
    };
    out.push_back(
        {Explanation::Kind::lineup_mirrored, true, 0, {}, {}, since, fitting(seen, mirrored), 0});
    for (std::uint8_t k = 1; k < players_on_court; ++k) {
        const auto shifted = [k](const Observation& o) {
            return o.by_slot[(o.next_slot + k) % players_on_court];
        };
        out.push_back(
            {Explanation::Kind::lineup_shifted, true, k, {}, {}, since, fitting(seen, shifted), 0});
    }
    for (std::size_t a = 0; a < players_on_court; ++a)
        for (std::size_t b = a + 1; b < players_on_court; ++b) {
            const auto exchanged = [a, b](const Observation& o) {
                const std::size_t s = o.next_slot == a ? b : o.next_slot == b ? a : o.next_slot;
                return o.by_slot[s];
            };
            out.push_back({Explanation::Kind::lineup_exchanged, true, 0, seen.front().by_slot[a],
                           seen.front().by_slot[b], since, fitting(seen, exchanged), 0});
        }
}

/// A player who serves although the record has him on the bench.
void explain_by_bench(Seen seen, std::vector<Explanation>& out) {
    const Observation& first = first_contradiction(seen);
    const Jersey in = first.server;
    const Jersey expected = as_recorded(first);
    const bool on_bench =
        std::find(first.by_slot.begin(), first.by_slot.end(), in) == first.by_slot.end();
    if (on_bench) {
        const auto substituted = [&](const Observation& o) {
            const Jersey plain = as_recorded(o);
            return o.entry >= first.entry && plain == expected ? in : plain;
        };
        out.push_back({Explanation::Kind::substitution_missing, true, 0, in, expected, first.entry,
                       fitting(seen, substituted), 0});
    }
    const auto misread = [&](const Observation& o) {
        return o.entry == first.entry ? in : as_recorded(o);
    };
    out.push_back({Explanation::Kind::number_misread, true, 0, in, expected, first.entry,
                   fitting(seen, misread), 0});
}

void explain_by_rotation(Seen seen, std::vector<Explanation>& out) {
    const Observation& first = first_contradiction(seen);
    const auto turned = [&](std::size_t by) {
        return fitting(seen, [&](const Observation& o) {
            const std::size_t slot = o.side_outs >= first.side_outs
                                         ? (o.next_slot + by) % players_on_court
                                         : o.next_slot;
            return o.by_slot[slot];
        });
    };
    const auto behind = static_cast<std::size_t>(players_on_court - 1);
    out.push_back(
        {Explanation::Kind::rotation_missed, false, 1, {}, {}, first.entry, turned(behind), 0});
    out.push_back(
        {Explanation::Kind::rotation_repeated, false, 1, {}, {}, first.entry, turned(1), 0});
}

}  // namespace

std::vector<Explanation> explanations_of_wrong_server(const Rules& rules,
                                                      std::span<const Entry> entries, Team team,
                                                      EntryNumber found_at) {
    Observer observer{rules, team};
    for (const Entry& entry : entries) {
        observer.take(entry);
        if (entry.number == found_at) break;
    }
    const Seen seen{observer.seen()};
    const std::uint16_t plain = fitting(seen, as_recorded);
    if (plain == seen.size()) return {};
    std::vector<Explanation> explanations;
    explain_by_rotation(seen, explanations);
    explain_by_bench(seen, explanations);
    explain_by_sheet(seen, explanations);
    for (Explanation& c : explanations) c.observed = static_cast<std::uint16_t>(seen.size());
    explanations.erase(std::remove_if(explanations.begin(), explanations.end(),
                                      [&](const Explanation& c) { return c.explained <= plain; }),
                       explanations.end());
    std::stable_sort(
        explanations.begin(), explanations.end(),
        [](const Explanation& a, const Explanation& b) { return a.explained > b.explained; });
    return explanations;
}

}  // namespace courthand
