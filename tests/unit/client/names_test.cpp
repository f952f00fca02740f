// Names of players at a table: where they stand, and that they go when the desk takes them off a
// list, from every byte of the device's files.
#include "held_checkpoint.h"
#include "sync_engine_kit.h"

namespace courthand::client {
namespace {

constexpr const char* name = "Robin Quaysworth";

class NamesAtATable : public SyncEngineTest {
  protected:
    /// The desk's list of the first team: `count` players, with or without their names.
    static void list(v1::FetchMatchResponse& answer, bool with_names, std::uint32_t count = 12) {
        v1::Team& team = *answer.mutable_first_roster();
        team.set_name("Quayside");
        team.clear_players();
        for (std::uint32_t number = 1; number <= count; ++number) {
            v1::RosterPlayer& player = *team.add_players();
            player.set_number(number);
            if (with_names) player.set_name(name);
        }
    }
    v1::FetchMatchResponse match_of_court(std::uint32_t number) {
        const StoredMatch match =
            open_here(device_, 4, "international-2025", {"Quayside", "Saltmarsh"});
        v1::FetchMatchResponse answer;
        EXPECT_TRUE(answer.ParseFromString(match.sheet));
        answer.mutable_match()->set_number(number);
        answer.clear_writer();
        return answer;
    }
    static std::string id_of(const v1::FetchMatchResponse& answer) {
        return wire::Uuid::from_bytes(answer.match().match_id())->to_text();
    }
    void tell_change() {
        v1::WatchResponse step;
        step.mutable_change();
        step.set_cursor("changed");
        server_.tell(step);
    }
    bool on_the_device() const { return is_on_the_device(folder_.path(), name); }
    bool has_sheet(const v1::FetchMatchResponse& answer) const {
        const auto kept = journal_->match(id_of(answer));
        return kept && kept->sheet.find(name) != std::string::npos;
    }
};

TEST_F(NamesAtATable, StandInTheSheetAndInNoEntry) {
    v1::FetchMatchResponse answer = match_of_court(12);
    list(answer, true);
    server_.put_on_court(answer);
    SyncEngine& engine = start_watching();
    ASSERT_TRUE(eventually([&] { return has_sheet(answer); }));
    const auto match = open_match(id_of(answer), &engine);
    EXPECT_EQ(match->sheet().players[Team::A].front().name, name);
    Roster roster;
    roster.team = Team::A;
    roster.count = 12;
    for (std::uint8_t i = 0; i < 12; ++i)
        roster.players[i] = Jersey{static_cast<std::uint8_t>(i + 1)};
    EXPECT_FALSE(match->record(Fact{roster}, {}).error);
    ASSERT_TRUE(eventually([&] { return !server_.record(answer.match().match_id()).empty(); }));
    for (const JournalEntry& entry : journal_->entries(id_of(answer)))
        EXPECT_EQ(entry.bytes.find("Robin"), std::string::npos);
}

TEST_F(NamesAtATable, GoFromEveryFileWhenTheDeskTakesThemOff) {
    v1::FetchMatchResponse answer = match_of_court(12);
    list(answer, true);
    server_.put_on_court(answer);
    start_watching();
    ASSERT_TRUE(eventually([&] { return has_sheet(answer); }));
    ASSERT_TRUE(on_the_device());
    list(answer, false);
    server_.put_on_court(answer);
    tell_change();
    EXPECT_TRUE(eventually([&] { return !on_the_device(); }));
    EXPECT_TRUE(journal_->match(id_of(answer)));
}

TEST_F(NamesAtATable, GoAlsoWhenNothingIsToldOfIt) {
    v1::FetchMatchResponse answer = match_of_court(12);
    list(answer, true);
    server_.put_on_court(answer);
    options_.fetch_again = 50ms;
    start_watching();
    ASSERT_TRUE(eventually([&] { return has_sheet(answer); }));
    list(answer, false);
    server_.put_on_court(answer);
    EXPECT_TRUE(eventually([&] { return !on_the_device(); }));
}

TEST_F(NamesAtATable, OfAMatchThatTheCourtHasNoMoreGo) {
    v1::FetchMatchResponse first = match_of_court(12);
    list(first, true, 24);
    server_.put_on_court(first);
    SyncEngine& engine = start_watching();
    ASSERT_TRUE(eventually([&] { return has_sheet(first); }));
    play(*open_match(id_of(first), &engine), 7, 40);
    const v1::FetchMatchResponse second = match_of_court(13);
    server_.put_on_court(second);
    tell_change();
    ASSERT_TRUE(eventually([&] { return journal_->match(id_of(second)).has_value(); }));
    EXPECT_TRUE(eventually([&] { return !on_the_device(); }));
    // The match itself and its record are as they were.
    EXPECT_EQ(open_match(id_of(first), nullptr)->sheet().players[Team::A].size(), 24U);
    EXPECT_TRUE(eventually([&] { return same_record(id_of(first)); }));
}

/// A device that was off while the name was erased: at its next contact.
TEST_F(NamesAtATable, GoAtTheNextContactOfADeviceThatWasOff) {
    v1::FetchMatchResponse answer = match_of_court(12);
    list(answer, true);
    server_.put_on_court(answer);
    start_watching();
    ASSERT_TRUE(eventually([&] { return has_sheet(answer); }));
    engine_.reset();
    journal_.reset();
    list(answer, false);
    server_.put_on_court(answer);
    ASSERT_TRUE(on_the_device());
    journal_ = open_journal(folder_.path());
    start_engine();
    EXPECT_TRUE(eventually([&] { return !on_the_device(); }));
}

/// The names are off the sheets since, so that no later contact takes any off.
TEST_F(NamesAtATable, ThatCouldNotBeWipedGoAtTheNextContact) {
    v1::FetchMatchResponse answer = match_of_court(12);
    list(answer, true);
    const std::string with_names = answer.SerializeAsString();
    list(answer, false);
    journal_.reset();
    HeldCheckpoint held{folder_.path()};
    ASSERT_FALSE(held.journal->store({{id_of(answer), with_names}}, {}));
    held.hold();
    ASSERT_TRUE(
        held.journal->store_wiping({{id_of(answer), answer.SerializeAsString()}}, {}).has_value());
    held.let_go();
    ASSERT_TRUE(on_the_device());
    journal_ = std::move(held.journal);
    server_.put_on_court(answer);
    start_watching();
    EXPECT_TRUE(eventually([&] { return !on_the_device(); }));
}

}  // namespace
}  // namespace courthand::client
