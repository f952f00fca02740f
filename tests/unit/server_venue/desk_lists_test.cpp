// Teams with their lists, and courts, in the tournament's record.
#include <fmt/format.h>

#include <algorithm>

#include "courthand/event/limits.h"
#include "record_kit.h"
#include "server/desk/list_facts.h"

namespace courthand::server::desk {
namespace {

ListedPlayer player(std::uint8_t number, const char* name = nullptr) {
    ListedPlayer made;
    made.number = Jersey{number};
    if (name != nullptr) made.name = name;
    return made;
}

Team team(const std::string& name, std::vector<ListedPlayer> players,
          const std::string& club = "") {
    return {{}, name, club, "", std::move(players), {}};
}

class DeskLists : public testing::OnRecord {
  protected:
    [[nodiscard]] std::uint16_t person(const std::string& team, std::uint8_t number) {
        for (const auto& [person, listed] : state().persons)
            if (listed.team == state().find_team(team) && listed.jersey == Jersey{number})
                return person;
        return 0;
    }
};

TEST_F(DeskLists, AListComesBackAsItWasGiven) {
    Team quayside = team("Quayside", {player(12, "Player Twelve"), player(1), player(7)}, "Quay");
    quayside.colour = "1f3a5f";
    quayside.players[0].captain = true;
    quayside.players[2].libero = true;
    const auto kept = keep({quayside, team("Mill Lane", {player(4)})});
    ASSERT_EQ(kept.size(), 2U);
    EXPECT_FALSE(kept[0].id.nil());
    quayside.id = kept[0].id;
    quayside.division = "open";
    EXPECT_EQ(kept[0], quayside);
    EXPECT_EQ(value_or_throw(desk->team(kept[0].id)), quayside);
    const auto all = value_or_throw(desk->teams());
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(all[0].name, "Mill Lane") << "by name";
    EXPECT_EQ(all[1], quayside);
    EXPECT_EQ(desk->team(TeamId{new_uuid()}).status().code, StatusCode::not_found);
    EXPECT_EQ(state().divisions.size(), 1U) << "one division for all that come without one";

    // Another server finds the same ids and names.
    tournament::RecordKeeper other{tournament_, facts};
    EXPECT_EQ(value_or_throw(DeskStore{other}.teams()), all);
}

TEST_F(DeskLists, CoachesAndOfficialsOfAFileAreSaidOnce) {
    (void)keep({team("Tern Bay", {player(7)})});
    const auto people =
        read_roster_file("team,number,name,role\nTern Bay,,Robin,coach\n,,,official\n");
    ASSERT_EQ(people.people.size(), 2U);
    throw_if_failed(desk->keep_people(tournament::this_server(), people));
    const auto last = state().last();
    throw_if_failed(desk->keep_people(tournament::this_server(), people));
    EXPECT_EQ(state().last(), last);
    std::size_t coaches = 0;
    for (const auto& [number, person] : state().persons)
        coaches += person.role == event::Role::coach && person.team == state().find_team("Tern Bay")
                       ? 1U
                       : 0U;
    EXPECT_EQ(coaches, 1U);
    EXPECT_EQ(state().persons.size(), 3U) << "a player, a coach, an official";
}

TEST_F(DeskLists, ACoachIsOfTheTeamThatTheRecordCallsOtherwise) {
    (void)keep({team("Quayside", {player(1)}, "North")});
    (void)keep({team("Quayside (South)", {player(2)}, "South")});
    const auto file = read_roster_file("team,club,number,name,role\nQuayside,South,,Robin,coach\n");
    ASSERT_TRUE(desk->check_people(file).ok());
    throw_if_failed(desk->keep_people(speaker, file));
    std::size_t coaches = 0;
    for (const auto& [number, person] : state().persons) {
        if (person.role != event::Role::coach) continue;
        ++coaches;
        EXPECT_EQ(person.team, state().find_team("Quayside (South)"));
    }
    EXPECT_EQ(coaches, 1U);
    const auto last = state().last();
    throw_if_failed(desk->keep_people(speaker, file));
    EXPECT_EQ(state().last(), last) << "nothing is said twice";
}

TEST_F(DeskLists, MorePeopleThanTheRecordHoldsAreSaidByTheDryRun) {
    RosterFile file;
    file.people.resize(event::most_persons + 1U);
    EXPECT_EQ(desk->check_people(file).code, StatusCode::exhausted);
    EXPECT_EQ(state().persons.size(), 0U) << "nothing of it is kept";
}

TEST_F(DeskLists, AFileOfCoachesLeavesThePlayersAsTheyAre) {
    const auto kept = keep({team("Tern Bay", {player(7, "Seven"), player(8)})});
    const auto file = read_roster_file("team,number,name,role\nTern Bay,,Robin,coach\n");
    ASSERT_EQ(file.teams.size(), 1U);
    const auto last = state().last();
    EXPECT_EQ(keep(file.teams)[0].players, kept[0].players);
    EXPECT_EQ(state().last(), last) << "nothing of it is new";
    EXPECT_EQ(value_or_throw(desk->team(kept[0].id)).players, kept[0].players);
}

TEST_F(DeskLists, WhatTheRecordHasIsNotSaidTwice) {
    const auto kept = keep(testing::harbour_teams());
    const auto last = state().last();
    EXPECT_EQ(keep(testing::harbour_teams()), kept);
    EXPECT_EQ(state().last(), last);
    auto changed = testing::harbour_teams();
    changed[3].players.pop_back();
    EXPECT_EQ(keep(changed)[3].players.size(), 11U);
    // Who is not listed any more, and the list.
    EXPECT_EQ(state().last(), last + 2);
}

TEST_F(DeskLists, AFrozenListChangesForAReasonOnlyWhichStandsBesideIt) {
    (void)keep({team("Quayside", {player(1), player(2)}), team("Pier", {player(1)})}, "");
    const auto last = state().last();
    const std::vector<Team> changed{team("Quayside", {player(1), player(3)}),
                                    team("Pier", {player(1)})};
    const auto refused = desk->keep_teams(speaker, changed, " ").status();
    EXPECT_EQ(refused.code, StatusCode::invalid);
    EXPECT_NE(refused.message.find("Quayside: its list is frozen"), std::string::npos)
        << refused.message;
    EXPECT_NE(refused.cure.find("reason"), std::string::npos) << refused.cure;
    EXPECT_EQ(desk->check_teams(changed, "").text(), refused.text()) << "a dry run says the same";
    EXPECT_EQ(state().last(), last) << "nothing of the file is kept";

    EXPECT_EQ(keep(changed, "number 2 went home")[0].players[1].number, Jersey{3});
    const auto frozen = state().teams[*state().find_team("Quayside")].roster_frozen;
    EXPECT_EQ(record->words()->at(frozen), "number 2 went home");
    EXPECT_FALSE(record->words()->contains(state().teams[*state().find_team("Pier")].roster_frozen))
        << "it has not changed";
    // The same file again changes nothing and needs no reason.
    (void)keep(changed, "");
}

TEST_F(DeskLists, ThePeopleOfAFrozenListChangeForAReasonOnlyWhichStandsBesideIt) {
    const auto before = team("Quayside", {player(1, "One"), player(2, "Two"), player(3)});
    (void)keep({before}, "");
    const auto changed = [&](std::size_t i, auto change) {
        Team other = before;
        change(other.players[i]);
        return std::vector{other};
    };
    const struct {
        const char* what;
        std::vector<Team> teams;
    } cases[]{{"another name", changed(1, [](ListedPlayer& p) { p.name = "Kim"; })},
              {"another libero", changed(1, [](ListedPlayer& p) { p.libero = true; })},
              {"another captain", changed(0, [](ListedPlayer& p) { p.captain = true; })},
              {"two change their numbers",
               {team("Quayside", {player(1, "Two"), player(2, "One"), player(3)})}}};
    for (const auto& one : cases) {
        const auto last = state().last();
        const auto refused = desk->keep_teams(speaker, one.teams, " ").status();
        EXPECT_EQ(refused.code, StatusCode::invalid) << one.what;
        EXPECT_NE(refused.message.find("Quayside: its list is frozen"), std::string::npos)
            << refused.message;
        EXPECT_NE(refused.cure.find("reason"), std::string::npos) << refused.cure;
        EXPECT_EQ(desk->check_teams(one.teams, "").text(), refused.text())
            << "a dry run says the same";
        ASSERT_EQ(state().last(), last) << one.what << ": nothing of it is kept";
        EXPECT_EQ(keep(one.teams, "the club says so")[0].players, one.teams[0].players) << one.what;
        const auto frozen = state().teams[*state().find_team("Quayside")].roster_frozen;
        EXPECT_GT(frozen, last) << one.what << ": the list is frozen anew";
        EXPECT_EQ(record->words()->at(frozen), "the club says so") << one.what;
        (void)keep({before}, "as it was");
    }
}

TEST_F(DeskLists, ANameForANumberOfAFrozenListNeedsNoReasonAndAListOfNumbersTakesNoneAway) {
    const Team numbers = team("Quayside", {player(1), player(2)});
    (void)keep({numbers}, "");
    const auto frozen = state().teams[*state().find_team("Quayside")].roster_frozen;
    const Team named = team("Quayside", {player(1, "One"), player(2, "Two")});
    EXPECT_EQ(keep({named}, "")[0].players, named.players);
    EXPECT_EQ(state().teams[*state().find_team("Quayside")].roster_frozen, frozen);
    const auto last = state().last();
    EXPECT_EQ(keep({numbers}, "")[0].players, named.players);
    EXPECT_EQ(state().last(), last) << "nothing of it is new";
    Team captained = numbers;
    captained.players[1].captain = true;
    EXPECT_EQ(keep({captained}, "the coach says so")[0].players[1].name, "Two");
}

TEST_F(DeskLists, APersonKeepsTheNumberOfThePersonUnderAnotherJersey) {
    (void)keep({team("Quayside", {player(1, "One"), player(2, "Two"), player(3)})});
    const auto one = person("Quayside", 1);
    const auto two = person("Quayside", 2);
    const auto three = person("Quayside", 3);
    const auto kept =
        keep({team("Quayside", {player(2, "One"), player(4, "Four"), player(3, "Three")})});
    EXPECT_EQ(person("Quayside", 2), one) << "the name says who it is";
    EXPECT_EQ(person("Quayside", 3), three) << "nobody was named before";
    EXPECT_NE(person("Quayside", 4), two) << "somebody else";
    EXPECT_EQ(state().persons.at(two).team, event::no_team);
    ASSERT_EQ(kept[0].players.size(), 3U);
    EXPECT_EQ(kept[0].players[0], player(2, "One"));
    EXPECT_EQ(kept[0].players[1], player(4, "Four"));
    EXPECT_EQ(kept[0].players[2], player(3, "Three"));
    EXPECT_TRUE(state().findings.empty());
}

TEST_F(DeskLists, TwoPlayersSwapTheirNumbers) {
    (void)keep({team("Quayside", {player(1, "One"), player(2, "Two")})});
    const auto kept = keep({team("Quayside", {player(2, "One"), player(1, "Two")})});
    EXPECT_EQ(kept[0].players[0], player(2, "One"));
    EXPECT_EQ(kept[0].players[1], player(1, "Two"));
    EXPECT_EQ(state().persons.size(), 2U);
}

TEST_F(DeskLists, AnErasedNameIsGoneAndTheNumberStays) {
    const auto kept = keep({team("Quayside", {player(1, "One")})});
    const auto listed = state().persons.at(person("Quayside", 1)).listed;
    (void)value_or_throw(record->erase_words(std::vector{listed}));
    EXPECT_EQ(value_or_throw(desk->team(kept[0].id)).players, std::vector{player(1)});
}

TEST_F(DeskLists, TwoTeamsOfOneNameAreToldApartByThePersonWhoImports) {
    (void)keep({team("Quayside", {player(1)}, "North")});
    const auto last = state().last();
    const std::vector<Team> south{team("Mill Lane", {player(1)}), team("Quayside", {}, "South")};
    const auto refused = desk->keep_teams(speaker, south, "").status();
    EXPECT_EQ(refused.code, StatusCode::invalid);
    EXPECT_NE(refused.message.find("Quayside of North"), std::string::npos) << refused.message;
    EXPECT_NE(refused.cure.find("Quayside (South)"), std::string::npos) << refused.cure;
    EXPECT_EQ(desk->check_teams(south, "").text(), refused.text()) << "a dry run says the same";
    EXPECT_EQ(state().last(), last) << "nothing of the file is kept";
    EXPECT_FALSE(
        desk->check_teams(std::vector{team("Pier", {}, "A"), team("Pier", {}, "B")}, "").ok());

    const auto kept = keep({team("Quayside (South)", {player(2)}, "South")});
    // The file of before means the same team.
    EXPECT_EQ(keep({team("Quayside", {player(3)}, "South")})[0].id, kept[0].id);
    EXPECT_EQ(keep({team("Quayside", {player(3)})})[0].club, "North") << "no club is given";
}

TEST_F(DeskLists, AClubAndAColourMayComeLater) {
    Team entered = team("Quayside", {player(1)});
    entered.last_pool = "C";
    const auto kept = keep({entered});
    EXPECT_EQ(state().teams[0].last_pool, "C");
    Team described = team("Quayside", {player(1)}, "Quay");
    described.colour = "2a7f62";
    const auto again = keep({described});
    EXPECT_EQ(again[0].id, kept[0].id);
    EXPECT_EQ(again[0].club, "Quay");
    EXPECT_EQ(again[0].colour, "2a7f62");
    EXPECT_EQ(again[0].last_pool, "C") << "of the first list, as long as no other tells it";
}

TEST_F(DeskLists, ATeamOfSeveralDivisionsSaysWhich) {
    event::DivisionOpened division = usual_division();
    division.division = "U16";
    say({usual_division(), division});
    Team quayside = team("Quayside", {player(1)});
    EXPECT_EQ(desk->check_teams(std::vector{quayside}, "").code, StatusCode::invalid);
    quayside.division = "U18";
    EXPECT_EQ(desk->check_teams(std::vector{quayside}, "").code, StatusCode::invalid);
    quayside.division = "U16";
    EXPECT_EQ(keep({quayside})[0].division, "U16");
    quayside.division.clear();
    EXPECT_EQ(keep({quayside})[0].division, "U16") << "it is entered already";
}

std::vector<Team> many(std::size_t teams, std::uint8_t players) {
    std::vector<Team> made;
    for (std::size_t t = 0; t < teams; ++t) {
        made.push_back(team(fmt::format("Team {:03}", t), {}, "Harbour"));
        for (std::uint8_t p = 0; p < players; ++p) {
            made.back().players.push_back(player(p));
            made.back().players.back().name = fmt::format("Player {} of {}", p, t);
        }
    }
    return made;
}

TEST_F(DeskLists, TheLargestFileIsKeptInSeveralActs) {
    const auto teams = many(most_teams, 14);
    const auto kept = keep(teams);
    ASSERT_EQ(kept.size(), most_teams);
    for (std::size_t t = 0; t < teams.size(); ++t) EXPECT_EQ(kept[t].players, teams[t].players);
    EXPECT_EQ(state().last(), 1 + most_teams * 16);
    EXPECT_TRUE(state().findings.empty());
}

TEST_F(DeskLists, AFileThatIsCutOffSaysWhatIsKeptAndGoesOn) {
    const auto teams = many(150, 14);
    facts.acts_left = 1;
    const auto cut = desk->keep_teams(speaker, teams, "").status();
    EXPECT_EQ(cut.code, StatusCode::unavailable);
    const auto there = value_or_throw(desk->teams());
    EXPECT_NE(cut.message.find(fmt::format("{} of 150 lists are kept", there.size())),
              std::string::npos)
        << cut.message;
    EXPECT_NE(cut.cure.find("again"), std::string::npos);
    for (const Team& team : there) EXPECT_EQ(team.players.size(), 14U) << "no list by halves";
    facts.acts_left = -1;
    EXPECT_EQ(keep(teams).size(), 150U);
    EXPECT_EQ(state().last(), 1 + 150U * 16) << "nothing is said twice";
}

TEST_F(DeskLists, TwoDesksThatImportAtOnceBothEndRight) {
    tournament::RecordKeeper other{tournament_, facts};
    DeskStore at_other{other};
    (void)value_or_throw(at_other.teams());
    // Each gives the first free numbers of persons.
    (void)keep({team("Quayside", {player(1), player(2)})});
    (void)value_or_throw(at_other.keep_teams(speaker, std::vector{team("Pier", {player(1)})}, ""));
    const auto all = value_or_throw(desk->teams());
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(all[0].players.size(), 1U);
    EXPECT_EQ(all[1].players.size(), 2U);
    EXPECT_EQ(state().persons.size(), 3U);
    EXPECT_TRUE(state().findings.empty());
}

TEST_F(DeskLists, WhoSaysTheSameAtOnceAndIsLateInEachPartEndsTheSame) {
    tournament::RecordKeeper other{tournament_, facts};
    constexpr std::uint16_t courts = 2 * tournament::RecordKeeper::most_tries;
    std::vector<tournament::FactId> ids;
    for (int i = 0; i < courts; ++i) ids.push_back(tournament::FactId{new_uuid()});
    // The other writes the first of the next two courts whenever this one is about to write both.
    const auto late = [&](const tournament::KnownRecord& known) {
        tournament::Act act{tournament::this_server().device, "server", 0, known.head.number, {}};
        const std::size_t there = known.state->courts.size();
        for (std::size_t c = there; c < std::min<std::size_t>(there + 2, courts); ++c)
            act.facts.push_back(
                {ids[c],
                 {event::CourtOpened{static_cast<std::uint16_t>(c + 1), "", {}, {}, {}}, {}}});
        auto both = act.facts;
        if (act.facts.size() < 2) return Result{std::move(both)};
        act.facts.pop_back();
        facts.before_next_append = [&other, act] { (void)value_or_throw(other.act(act)); };
        return Result{std::move(both)};
    };
    const auto ended = tournament::say(*record, tournament::this_server(), late);
    ASSERT_TRUE(ended.ok()) << ended.status().text();
    EXPECT_EQ(ended->state->courts.size(), courts);
    EXPECT_EQ(ended->head.number, courts) << "each is said once";
}

TEST_F(DeskLists, CourtsHaveTheNameThatWasGivenLast) {
    ASSERT_TRUE(desk->keep_court(speaker, {4, "Quay"}).ok());
    ASSERT_TRUE(desk->keep_court(speaker, {2, ""}).ok());
    ASSERT_TRUE(desk->keep_court(speaker, {4, ""}).ok());
    const std::vector<Court> expected{{2, ""}, {4, "Quay"}};
    EXPECT_EQ(value_or_throw(desk->courts()), expected);
    ASSERT_TRUE(desk->keep_court(speaker, {4, "Centre"}).ok());
    EXPECT_EQ(value_or_throw(desk->courts()).back().name, "Centre");
    EXPECT_EQ(desk->keep_court(speaker, {0, ""}).code, StatusCode::invalid);
    EXPECT_EQ(desk->keep_court(speaker, {1001, ""}).code, StatusCode::invalid);
}

}  // namespace
}  // namespace courthand::server::desk
