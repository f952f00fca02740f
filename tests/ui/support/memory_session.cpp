#include "memory_session.h"

#include <algorithm>
#include <stdexcept>

#include "courthand/rules/judge.h"

namespace courthand::client::test {

namespace {

const Rules& rules_of(const std::string& profile) {
    const Profile* found = find_profile(profile);
    if (found == nullptr) throw std::invalid_argument{"no profile " + profile};
    return found->rules;
}

Jersey j(int number) {
    return Jersey{static_cast<std::uint8_t>(number)};
}

LiberoBox box(int number) {
    return number == 0 ? LiberoBox{LiberoBox::Mark::none, Jersey::none()}
                       : LiberoBox{LiberoBox::Mark::number, j(number)};
}

}  // namespace

MemorySession::MemorySession(const std::string& profile, MatchSheet sheet)
    : rules_{rules_of(profile)}, sheet_{std::move(sheet)} {}

RecordResult MemorySession::record(std::span<const Record> what, std::string_view text) {
    RecordResult result;
    if (!disk_error.empty()) {
        result.error = disk_error;
        return result;
    }
    last_text_ = text;
    for (const Record& one : what) record(one, result);
    return result;
}

void MemorySession::record(const Record& what, RecordResult& result) {
    records_.push_back(what);
    result.seq = static_cast<std::uint32_t>(records_.size());
    if (const Fact* fact = std::get_if<Fact>(&what)) {
        const Judged judged = judge(rules_, state_, Entry{result.seq, *fact});
        result.verdicts.insert(result.verdicts.end(), judged.verdicts.begin(),
                               judged.verdicts.end());
        refold();
        return;
    }
    const std::vector<Verdict> before = standing();
    refold();
    for (const Verdict& verdict : standing())
        if (std::find(before.begin(), before.end(), verdict) == before.end())
            result.verdicts.push_back(verdict);
}

std::vector<Verdict> MemorySession::standing() const {
    const VerdictList list = courthand::standing(rules_, state_);
    return {list.begin(), list.end()};
}

std::vector<Fact> MemorySession::facts() const {
    std::vector<Fact> facts;
    for (const Entry& entry : effective(records_).entries) facts.push_back(entry.fact);
    return facts;
}

void MemorySession::refold() {
    state_ = fold(rules_, effective(records_).entries);
}

MatchSheet harbour_cup_sheet(const std::string& profile) {
    MatchSheet sheet;
    sheet.match_id = "0193-harbour-cup-17";
    sheet.number = 17;
    sheet.court = 3;
    sheet.names = {"Harbour Lights", "Mill Lane"};
    sheet.colours = {"#1F4E9E", "#B3202C"};
    sheet.profile = profile;
    const auto player = [](int number, bool libero, bool captain) {
        return MatchSheet::Player{j(number), {}, libero, captain};
    };
    for (const int n : {1, 2, 3, 4, 5, 6, 11, 12, 13, 14})
        sheet.players.a.push_back(player(n, false, n == 3));
    sheet.players.a.push_back(player(21, true, false));
    sheet.players.a.push_back(player(22, true, false));
    for (const int n : {31, 32, 33, 34, 35, 36, 37, 38, 39})
        sheet.players.b.push_back(player(n, false, n == 33));
    sheet.players.b.push_back(player(41, true, false));
    return sheet;
}

void open_match(MatchSession& session) {
    if (session.state().opened == 0) session.record(MatchOpened{session.rules().format});
    for (const Team team : {Team::A, Team::B}) {
        Roster roster;
        roster.team = team;
        for (const MatchSheet::Player& player : session.sheet().players[team]) {
            roster.players[roster.count++] = player.number;
            if (player.captain) roster.captain = player.number;
        }
        session.record(roster);
    }
}

void ready_to_serve(MatchSession& session) {
    open_match(session);
    ready_from_toss(session);
}

void ready_from_toss(MatchSession& session) {
    session.record(Toss{Team::A, Team::A});
    session.record(SetStarted{1});
    session.record(LineUp{Team::A, {j(1), j(2), j(3), j(4), j(5), j(6)}, {box(21), box(22)}, j(3)});
    session.record(
        LineUp{Team::B, {j(31), j(32), j(33), j(34), j(35), j(36)}, {box(41), box(0)}, j(33)});
    session.record(LineUpChecked{Team::A});
    session.record(LineUpChecked{Team::B});
}

}  // namespace courthand::client::test
