// Coaches, officials and workers of a list on their way into the record.
#include "server/desk/people_facts.h"

#include <gtest/gtest.h>

#include "courthand/event/fold.h"
#include "server/testing/or_throw.h"

namespace courthand::server::desk {
namespace {

using event::Role;

event::TournamentState state_of(const std::vector<event::Said>& said) {
    event::DivisionOpened division;
    division.division = "U16";
    division.profile = "international-2021";
    division.chain = "international-2017";
    std::vector<event::Fact> facts{
        event::TournamentOpened{"Harbour Cup", {20'785}, {20'786}, "Europe/London"}, division,
        event::TeamEntered{"Tern Bay", "U16", ""}, event::PersonListed{2, Role::official, "", {}}};
    for (const event::Said& one : said) facts.push_back(one.fact);
    return event::fold(facts);
}

std::vector<RosterPerson> people() {
    return read_roster_file(
               "team,number,name,role\n"
               "Tern Bay,,Robin,coach\n"
               ",,Kim,official\n"
               ",,,worker\n"
               ",,,worker\n"
               ",,Kim,official\n"
               ",,Kim,worker\n")
        .people;
}

TEST(PeopleFacts, EachGetsANumberThatNobodyHasAndTheNameBeside) {
    const auto said = value_or_throw(people_facts(state_of({}), {}, people()));
    std::vector<std::string> told;
    for (const event::Said& one : said) {
        const auto& person = std::get<event::PersonListed>(one.fact);
        told.push_back(std::to_string(person.person) + " " + person.team + " " + one.words);
    }
    EXPECT_EQ(told,
              (std::vector<std::string>{"1 Tern Bay Robin", "3  Kim", "4  ", "5  ", "6  Kim"}));
    EXPECT_TRUE(state_of(said).findings.empty());
}

TEST(PeopleFacts, AListThatIsReadAgainSaysNobodyTwice) {
    const auto once = value_or_throw(people_facts(state_of({}), {}, people()));
    NamesByPerson names;
    for (const event::Said& one : once)
        if (!one.words.empty()) names[std::get<event::PersonListed>(one.fact).person] = one.words;
    const auto again = value_or_throw(people_facts(state_of(once), names, people()));
    EXPECT_TRUE(again.empty());
}

TEST(PeopleFacts, BeyondTheNumbersThereAreNothingIsSaid) {
    event::TournamentState full = state_of({});
    for (std::uint32_t number = 1; number < event::most_persons; ++number)
        full.persons[static_cast<std::uint16_t>(number)];
    const auto said = people_facts(full, {}, people());
    ASSERT_FALSE(said.ok());
    EXPECT_EQ(said.status().code, StatusCode::exhausted);
    EXPECT_NE(said.status().message.find("line 3"), std::string::npos) << said.status().message;
}

}  // namespace
}  // namespace courthand::server::desk
