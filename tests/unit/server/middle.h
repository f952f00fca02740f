// The middle of a server on a store in memory: keeper, hub, and a follower that is moved by hand.
#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "server/feed/follower.h"
#include "server/service/match_message.h"
#include "server/service/watch_session.h"
#include "server/store/memory_match_store.h"
#include "server/testing/or_throw.h"
#include "server/testing/test_record.h"

namespace courthand::server::service {

using testing::TestRecord;

/// What the observers of the keeper were told.
class Told final : public MatchObserver {
  public:
    void on_match_changed(const MatchChanged& change) override {
        causes.push_back(change.cause);
        const bool read = change.cause == MatchChanged::Cause::rebuilt && change.match.record;
        if (read && change.match.head.last > 0) ++folded;
        raised += change.raised.size();
    }
    void on_branch_stored(const BranchStored& stored) override {
        branches.push_back(stored.branch);
    }
    void on_notice(const FeedItem& item) override { notices.push_back(item.kind); }
    void on_begun_anew() override { folded = rested = 0; }
    void on_rests(MatchId) override { ++rested; }
    void on_rebuilt() override { ++rebuilt; }

    std::vector<MatchChanged::Cause> causes;
    std::vector<std::uint32_t> branches;
    std::vector<FeedItem::Kind> notices;
    std::size_t raised = 0;
    int rebuilt = 0;
    int folded = 0;  ///< matches with entries that were folded at the last start
    int rested = 0;
};

/// The middle of a server: store, keeper, hub, and a follower that is moved by hand.
class Middle {
  public:
    explicit Middle(MemoryMatchStore& from, TournamentId of)
        : store{from},
          tournament{of},
          follower{of, {store, keeper, presence, hub, &waking}, [](const Status&) {}} {
        keeper.add_observer(told);
        throw_if_failed(follower.rebuild());
    }
    void follow() { throw_if_failed(follower.catch_up()); }
    WatchSession watch(Watched watched, std::string cursor = {},
                       std::optional<DeviceId> table = {}) {
        return {{watched, std::move(cursor), table}, {tournament, keeper, hub}};
    }

    MemoryMatchStore& store;
    TournamentId tournament;
    MatchKeeper keeper;
    Presence presence;
    Hub hub;
    Told told;
    Waking waking{store, keeper};
    Follower follower;
};

/// A tournament with matches that tables write.
class MiddleTest : public ::testing::Test {
  protected:
    MiddleTest() {
        tournament_ = value_or_throw(store_.create_tournament(TournamentId{new_uuid()}, "Cup")).id;
    }
    TestRecord new_record(std::uint32_t court = 1) {
        TestRecord record{testing::new_match_id(), device_};
        auto plan = opened_match(testing::test_match(record.match(), court),
                                 MatchId{Uuid{record.match().bytes()}}, tournament_);
        (void)value_or_throw(store_.create_match(value_or_throw(std::move(plan))));
        return record;
    }
    void push(const TestRecord& record, std::uint32_t first, std::uint32_t last) {
        std::vector<AppendItem> items;
        for (std::uint32_t n = first; n <= last; ++n)
            items.push_back(value_or_throw(append_item(
                record.bytes()[n - 1], MatchId{Uuid{record.match().bytes()}}, GrantId{})));
        for (const auto& result : value_or_throw(store_.append(tournament_, items)))
            ASSERT_NE(result.fate, Fate::invalid) << result.message;
    }
    /// Everything the session sends until it waits.
    std::vector<v1::WatchResponse> drain(WatchSession& session) {
        std::vector<v1::WatchResponse> all;
        while (true) {
            switch (session.next(all)) {
                case WatchSession::Next::messages:
                    break;
                case WatchSession::Next::wait:
                    return all;
                case WatchSession::Next::read_store:
                    throw_if_failed(session.read_store(store_));
                    break;
            }
        }
    }
    static std::vector<std::string> entries(const std::vector<v1::WatchResponse>& responses) {
        std::vector<std::string> all;
        for (const auto& response : responses) {
            for (const auto& e : response.snapshot().entries()) all.push_back(e.data());
            if (response.entries().branch() != 0) continue;
            for (const auto& e : response.entries().entries()) all.push_back(e.data());
        }
        return all;
    }
    static MatchId id_of(const TestRecord& record) { return MatchId{Uuid{record.match().bytes()}}; }

    MemoryMatchStore store_;
    TournamentId tournament_;
    DeviceId device_{new_uuid()};
};

}  // namespace courthand::server::service
