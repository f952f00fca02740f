// A tournament's record on stores in memory, for tests of the desk.
#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "server/desk/desk_store.h"
#include "server/desk/match_planning.h"
#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "server/tournament/match_opener.h"
#include "server/tournament/memory_fact_store.h"
#include "server/tournament/record_keeper.h"
#include "tests/testkit/harbour_teams.h"

namespace courthand::server::desk::testing {

using server::testing::harbour_teams;

/// Goes away when a plan is to be made.
class PlanlessStore : public MemoryMatchStore {
  public:
    Result<MatchPlan> create_match(const MatchPlan& plan) override {
        if (away) return Status::failed(StatusCode::unavailable, "the database is away");
        if (auto first = std::exchange(first_creates, nullptr)) first();
        return MemoryMatchStore::create_match(plan);
    }
    Result<MatchPlan> change_match(const MatchPlan& plan) override {
        if (auto first = std::exchange(first_changes, nullptr)) first();
        return MemoryMatchStore::change_match(plan);
    }
    Result<MatchPlan> change_unbegun(const MatchPlan& plan) override {
        if (all_begin) return Status::failed(StatusCode::conflict, "the match has begun");
        if (auto first = std::exchange(first_changes, nullptr)) first();
        return MemoryMatchStore::change_unbegun(plan);
    }
    Result<std::vector<StoredMatch>> matches(TournamentId tournament) override {
        ++readings;
        return MemoryMatchStore::matches(tournament);
    }
    std::function<void()> first_creates;  ///< done once before a plan is made
    std::function<void()> first_changes;  ///< done once before a plan is changed
    std::atomic<int> readings = 0;        ///< so often all matches were read
    bool all_begin = false;               ///< a match begins whenever it is to be changed
    bool away = false;
};

/// Goes away after so many acts.
class CutFactStore : public tournament::MemoryFactStore {
  public:
    using MemoryFactStore::MemoryFactStore;
    Result<tournament::FactAppend> append(TournamentId tournament, const tournament::FactHead& seen,
                                          std::span<const tournament::KeptFact> facts,
                                          std::span<const tournament::RecordEnd> ends) override {
        if (auto before = std::exchange(before_next_append, nullptr)) before();
        if (acts_left == 0) return Status::failed(StatusCode::unavailable, "the database is away");
        if (acts_left > 0) --acts_left;
        return MemoryFactStore::append(tournament, seen, facts, ends);
    }
    std::function<void()> before_next_append;  ///< another server comes first, once
    int acts_left = -1;                        ///< less than 0: all that come
};

class OnRecord : public ::testing::Test {
  protected:
    OnRecord() {
        tournament_ =
            value_or_throw(matches.create_tournament(TournamentId{new_uuid()}, "Harbour Cup")).id;
        record = std::make_unique<tournament::RecordKeeper>(tournament_, facts);
        desk = std::make_unique<DeskStore>(*record);
    }

    [[nodiscard]] Planning planning() { return {*record, matches, speaker}; }
    /// What the desk says, each with nothing beside it; it must take effect.
    void say(std::vector<event::Fact> said) {
        tournament::Act act;
        act.device = speaker.device;
        act.author = speaker.author;
        act.seen = record->state()->last();
        act.whole = true;
        for (event::Fact& fact : said)
            act.facts.push_back({tournament::FactId{new_uuid()}, {std::move(fact), ""}});
        const auto outcome = value_or_throw(record->act(act));
        ASSERT_EQ(outcome.fate, tournament::Outcome::Fate::kept);
    }
    std::vector<Team> keep(const std::vector<Team>& teams,
                           const std::string& reason = "a new list came") {
        return value_or_throw(desk->keep_teams(speaker, teams, reason));
    }
    [[nodiscard]] const event::TournamentState& state() { return *record->state(); }
    /// The plan of the match of this name.
    [[nodiscard]] MatchPlan plan(const std::string& match) {
        MatchId id;
        id.value.bytes = state().match(*state().find_match(match)).record.bytes;
        return value_or_throw(matches.match({tournament_, id})).plan;
    }
    void look() {
        tournament::MatchOpener opener{tournament_, *record, matches};
        const Status status = opener.look();
        ASSERT_TRUE(status.ok()) << status.text();
    }

    PlanlessStore matches;
    CutFactStore facts{matches};
    TournamentId tournament_;
    tournament::Speaker speaker{DeviceId{new_uuid()}, "desk 1"};
    std::unique_ptr<tournament::RecordKeeper> record;
    std::unique_ptr<DeskStore> desk;
};

}  // namespace courthand::server::desk::testing
