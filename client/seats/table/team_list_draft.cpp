#include "team_list_draft.h"

#include <algorithm>

namespace courthand::client {

namespace {

bool holds(const std::vector<Jersey>& list, Jersey jersey) {
    return std::find(list.begin(), list.end(), jersey) != list.end();
}

}  // namespace

Roster roster_of(Team team, const std::vector<MatchSheet::Player>& players) {
    Roster roster;
    roster.team = team;
    for (const MatchSheet::Player& player : players) {
        if (roster.count == most_players) break;
        roster.players[roster.count++] = player.number;
        if (player.captain) roster.captain = player.number;
    }
    return roster;
}

ListDifference difference(const Roster& desk, const TeamRecord& record) {
    ListDifference difference;
    const auto* desk_end = desk.players.begin() + desk.count;
    for (const auto* number = desk.players.begin(); number != desk_end; ++number)
        if (find(record, *number) == nullptr) difference.only_desk.push_back(*number);
    for (std::size_t i = 0; i < record.count; ++i) {
        const Jersey number = record.players[i].jersey;
        if (std::find(desk.players.begin(), desk_end, number) == desk_end)
            difference.only_record.push_back(number);
    }
    difference.other_captain = desk.captain.worn() && desk.captain != record.captain;
    return difference;
}

void TeamListDraft::write_for(Team team) {
    team_ = team;
    naming_captain_ = false;
    typed_.clear();
    Q_EMIT changed();
}

void TeamListDraft::set_recorded(PerTeam<bool> recorded) {
    if (recorded == recorded_) return;
    recorded_ = recorded;
    Q_EMIT changed();
}

std::vector<Fact> TeamListDraft::facts() const {
    std::vector<Fact> facts;
    for (const Team team : {Team::A, Team::B}) {
        if (recorded_[team] || numbers_[team].empty()) continue;
        Roster roster;
        roster.team = team;
        for (const Jersey number : numbers_[team]) roster.players[roster.count++] = number;
        roster.captain = captain_[team];
        facts.emplace_back(roster);
    }
    return facts;
}

void TeamListDraft::clear() {
    numbers_ = {};
    captain_ = {};
    naming_captain_ = false;
    typed_.clear();
    Q_EMIT changed();
}

QVariantList TeamListDraft::listed() const {
    std::vector<PlayerTile> tiles;
    for (const Jersey number : list()) {
        PlayerTile entry;
        entry.number = number.number();
        entry.captain = number == captain_[team_];
        tiles.push_back(entry);
    }
    return as_list(tiles);
}

QVariantList TeamListDraft::numbers() const {
    std::vector<PlayerTile> all;
    for (int number = 0; number <= Jersey::largest; ++number) {
        PlayerTile entry;
        entry.number = number;
        entry.used = holds(list(), Jersey{static_cast<std::uint8_t>(number)});
        all.push_back(entry);
    }
    return as_list(all);
}

void TeamListDraft::setNamingCaptain(bool on) {
    naming_captain_ = on;
    Q_EMIT changed();
}

bool TeamListDraft::complete() const {
    return (recorded_.a || !numbers_.a.empty()) && (recorded_.b || !numbers_.b.empty());
}

void TeamListDraft::turn(int number) {
    if (number < 0 || number > Jersey::largest) return;
    const Jersey jersey{static_cast<std::uint8_t>(number)};
    std::vector<Jersey>& list = numbers_[team_];
    const auto at = std::lower_bound(list.begin(), list.end(), jersey);
    if (at != list.end() && *at == jersey) {
        list.erase(at);
        if (captain_[team_] == jersey) captain_[team_] = {};
    } else if (!full()) {
        list.insert(at, jersey);
    }
    Q_EMIT changed();
}

void TeamListDraft::touchListed(int number) {
    if (!naming_captain_) return turn(number);
    const Jersey jersey{static_cast<std::uint8_t>(std::clamp(number, 0, int{Jersey::largest}))};
    if (holds(list(), jersey)) captain_[team_] = jersey;
    naming_captain_ = false;
    Q_EMIT changed();
}

void TeamListDraft::acceptTyped() {
    const auto jersey = typed_.take();
    // Typed twice is still written once.
    if (jersey && !holds(list(), *jersey)) turn(jersey->number());
    Q_EMIT changed();
}

}  // namespace courthand::client
