#include "server/desk/fitted_teams.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "courthand/event/bounds.h"

namespace courthand::server::desk {

namespace {

/// A text without control characters and of `most` bytes; no letter is cut in two.
std::string shortened(std::string text, std::size_t most) {
    for (char& c : text)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
    if (text.size() <= most) return text;
    constexpr unsigned char continued = 0x80;
    while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xC0U) == continued) --most;
    text.resize(most);
    return text;
}

class Fitting {
  public:
    FittedTeams of(const std::vector<Team>& teams) {
        // The first of a name keeps it; a name that was made up never takes one that was given.
        for (const Team& team : teams) given_.insert(shortened(team.name, event::most_name_bytes));
        for (const Team& team : teams) {
            if (fitted_.teams.size() == event::most_teams) {
                keep_back(team, "left in the tables: the record holds no more teams");
                continue;
            }
            add(team);
        }
        return std::move(fitted_);
    }

  private:
    void keep_back(const Team& team, const std::string& why) {
        if (fitted_.kept_back.empty() || fitted_.kept_back.back() != team.id)
            fitted_.kept_back.push_back(team.id);
        fitted_.notes.push_back(fmt::format("team {}: {}", team.name, why));
    }

    void fit(const Team& team, std::string& text, std::size_t most, const char* what) {
        std::string fits = shortened(text, most);
        if (fits == text) return;
        keep_back(team, fmt::format("{} is shortened", what));
        text = std::move(fits);
    }

    void add(Team team) {
        const Team before = team;
        fit(before, team.name, event::most_name_bytes, "its name");
        fit(before, team.club, event::most_name_bytes, "its club");
        if (!team.colour.empty() && !event::is_colour(team.colour)) {
            keep_back(before, fmt::format("\"{}\" is no colour", team.colour));
            team.colour.clear();
        }
        if (team.players.size() > event::most_on_roster) {
            keep_back(before, fmt::format("{} players, of which the first {} are listed",
                                          team.players.size(), event::most_on_roster));
            team.players.resize(event::most_on_roster);
        }
        for (ListedPlayer& player : team.players)
            if (player.name) fit(before, *player.name, event::most_name_bytes, "a player's name");
        name_once(before, team);
        fitted_.teams.push_back(std::move(team));
    }

    void name_once(const Team& before, Team& team) {
        if (taken_.insert(team.name).second) return;
        const std::string club = team.club.empty() ? "2" : team.club;
        std::string name =
            shortened(fmt::format("{} ({})", team.name, club), event::most_name_bytes);
        for (int n = 2; given_.contains(name) || taken_.contains(name); ++n) {
            const std::string suffix = fmt::format(" {}", n);
            name = shortened(fmt::format("{} ({})", team.name, club),
                             event::most_name_bytes - suffix.size()) +
                   suffix;
        }
        taken_.insert(name);
        fitted_.renamed.push_back(
            {team.id,
             shortened(
                 fmt::format("{} of {} is called {} from now on: names are given once.",
                             before.name, before.club.empty() ? "no club" : before.club, name),
                 event::most_reason_bytes)});
        fitted_.notes.push_back(fitted_.renamed.back().words);
        team.name = std::move(name);
    }

    FittedTeams fitted_;
    std::set<std::string> given_;
    std::set<std::string> taken_;
};

}  // namespace

std::string fitted_name(std::string name) {
    return shortened(std::move(name), event::most_name_bytes);
}

FittedTeams fitted(const std::vector<Team>& teams) {
    return Fitting{}.of(teams);
}

}  // namespace courthand::server::desk
