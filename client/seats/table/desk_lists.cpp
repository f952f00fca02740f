#include "desk_lists.h"

#include <QStringList>

namespace courthand::client {

namespace {

QString numbers(const std::vector<Jersey>& jerseys) {
    QStringList words;
    for (const Jersey jersey : jerseys) words << Wording::number(jersey);
    return words.isEmpty() ? DeskLists::tr("none") : words.join(DeskLists::tr(", "));
}

}  // namespace

bool DeskLists::any() const {
    const auto waits = [this](Team team) { return !recorded(team) && !players(team).empty(); };
    return waits(Team::A) || waits(Team::B);
}

bool DeskLists::all() const {
    const auto settled = [this](Team team) { return recorded(team) || !players(team).empty(); };
    return any() && settled(Team::A) && settled(Team::B);
}

std::optional<Team> DeskLists::offered() const {
    for (const Team team : {Team::A, Team::B}) {
        if (players(team).empty() || !recorded(team)) continue;
        const Roster desk = list_of(team);
        if (desk != declined_[team] && difference(desk, look_.state().team[team]).any())
            return team;
    }
    return std::nullopt;
}

ListDifference DeskLists::offered_difference() const {
    const auto team = offered();
    return team ? difference(list_of(*team), look_.state().team[*team]) : ListDifference{};
}

QString DeskLists::offer() const {
    const auto team = offered();
    return team ? tr("The desk has another team list of %1").arg(look_.wording.team(*team))
                : QString();
}

QString DeskLists::onlyDesk() const {
    return numbers(offered_difference().only_desk);
}

QString DeskLists::onlyRecord() const {
    return numbers(offered_difference().only_record);
}

QString DeskLists::captain() const {
    const auto team = offered();
    const QString captain = team ? Wording::number(list_of(*team).captain) : QString();
    return captain.isEmpty() ? tr("not named") : captain;
}

bool DeskLists::onLeft() const {
    const auto team = offered();
    return team && table_.is_left(*team);
}

void DeskLists::takeMissing() {
    std::vector<Fact> facts;
    for (const Team team : {Team::A, Team::B})
        if (!recorded(team) && !players(team).empty()) facts.emplace_back(list_of(team));
    if (!facts.empty()) table_.perform(facts);
}

void DeskLists::takeOffered() {
    const auto team = offered();
    if (!team) return;
    const Roster desk = list_of(*team);
    // Before the first set a list follows a list; later it takes the place of the first one.
    if (look_.state().set.number == 0) {
        table_.perform({desk});
        return;
    }
    for (const Entry& entry : recorder_.entries()) {
        const auto* written = std::get_if<Roster>(&entry.fact);
        if (written == nullptr || written->team != *team) continue;
        const auto* amended = std::get_if<Amend>(&look_.session.written()[entry.number - 1]);
        table_.amend(amended != nullptr ? amended->target : entry.number, desk);
        return;
    }
}

void DeskLists::leaveOffered() {
    const auto team = offered();
    if (!team) return;
    declined_[*team] = list_of(*team);
    table_.show_again();
}

}  // namespace courthand::client
