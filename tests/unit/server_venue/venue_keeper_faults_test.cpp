// The board beside a store of alerts that is out of order.
#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>

#include "keeper_kit.h"
#include "match_kit.h"
#include "server/domain/fault_log.h"
#include "server/venue/venue_keeper.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::venue {
namespace {

using testing::illegal_replacement;
using testing::match_of;
using testing::ready_to_serve;
using testkit::eventually;

/// It throws, or it does not answer.
class BrokenStore final : public alerts::AlertStore {
  public:
    Status append(std::span<const alerts::LifeEntry>, std::span<const FeedNotice>) override {
        ++appends;
        meet_fault();
        if (unconfirmed) return Status::failed(StatusCode::in_doubt, "not confirmed");
        return Status::fine();
    }
    Result<std::vector<alerts::LifeEntry>> load_live() override {
        return std::vector<alerts::LifeEntry>{};
    }
    Result<std::vector<alerts::LifeEntry>> load(std::span<const alerts::AlertId> ids) override {
        ++loads;
        meet_fault();
        if (away) return Status::failed(StatusCode::unavailable, "away");
        for (const alerts::AlertId& id : ids)
            if (throws_for_first && id.find(to_text(testing::match_id(1))) != std::string::npos)
                throw std::runtime_error{"no memory"};
        return std::vector<alerts::LifeEntry>{};
    }
    void answer_again() {
        stands_still = false;
        stands_still.notify_all();
    }

    std::atomic<bool> throws = false;
    std::atomic<bool> stands_still = false;
    std::atomic<bool> unconfirmed = false;
    std::atomic<bool> away = false;
    std::atomic<bool> throws_for_first = false;  ///< for alerts of match 1
    std::atomic<int> appends = 0;
    std::atomic<int> loads = 0;

  private:
    void meet_fault() {
        if (throws) throw std::runtime_error{"no memory"};
        stands_still.wait(true);
    }
};

class KeeperFaults : public ::testing::Test {
  protected:
    KeeperFaults() {
        EXPECT_TRUE(keeper_.start().ok());
        keeper_.on_rebuilt();
    }
    ~KeeperFaults() override { set_fault_log({}); }
    void show(std::string_view script, std::uint8_t number = 1) {
        LiveMatch match = match_of(script, number);
        match.plan.key = match.key;
        keeper_.on_match_changed({MatchChanged::Cause::appended, match, 0, 0, {}, 0});
    }
    /// So many more rounds are over.
    ::testing::AssertionResult rounds_pass(int count) {
        const int until = beats_ + count;
        return eventually([&] { return beats_ >= until; });
    }
    /// The alerts of that match on the board.
    std::vector<v1::Alert> alerts_of(std::uint8_t number) {
        std::vector<v1::Alert> found;
        for (const v1::Alert& alert : keeper_.board().news(std::nullopt).alerts)
            if (alert.alert_id().find(to_text(testing::match_id(number))) != std::string::npos)
                found.push_back(alert);
        return found;
    }
    /// Another server has done something about these alerts.
    void tell_of_acts(const std::vector<v1::Alert>& alerts) {
        for (const v1::Alert& alert : alerts) {
            FeedItem item;
            item.kind = FeedItem::Kind::venue;
            item.bytes = std::make_shared<const std::string>("7 " + alert.alert_id());
            keeper_.on_notice(item);
        }
    }
    bool has_card(std::uint32_t court) {
        const auto card = keeper_.board().card(court);
        return card && !card->match_id().empty();
    }

    BrokenStore store_;
    testkit::HandClock clock_;
    std::atomic<int> beats_ = 0;
    VenueKeeper keeper_{TournamentId{}, store_, [this] { return now_of(clock_); },
                        [this] {
                            ++beats_;
                            return std::vector<Refusals::Refusal>{};
                        }};
};

TEST_F(KeeperFaults, AStoreThatThrowsEndsNeitherServerNorBoard) {
    std::atomic<int> lines = 0;
    set_fault_log([&](std::string_view, std::string_view) { ++lines; });
    store_.throws = true;
    show(ready_to_serve + illegal_replacement);
    EXPECT_TRUE(eventually([this] { return has_card(1); }));
    show(ready_to_serve, 2);
    EXPECT_TRUE(eventually([this] { return has_card(2); }));
    EXPECT_TRUE(eventually([&] { return lines > 0; }));
    store_.throws = false;
    EXPECT_TRUE(eventually([this] { return !keeper_.board().news(std::nullopt).alerts.empty(); }))
        << "what could not be looked up is raised once it can";
    keeper_.stop();
}

TEST_F(KeeperFaults, WhileTheStoreDoesNotAnswerTheCardOfTheMatchIsShown) {
    store_.stands_still = true;
    show(ready_to_serve + illegal_replacement);
    EXPECT_TRUE(eventually([this] { return has_card(1); }));
    store_.answer_again();
    EXPECT_TRUE(eventually([this] { return !keeper_.board().news(std::nullopt).alerts.empty(); }));
    keeper_.stop();
}

// Each write waits as long as it may, and the round waits with it.
TEST_F(KeeperFaults, AfterAWriteThatIsNotConfirmedThereIsRoomForOthers) {
    store_.unconfirmed = true;
    show(ready_to_serve + illegal_replacement);
    ASSERT_TRUE(eventually([this] { return store_.appends > 0; }));
    ASSERT_TRUE(rounds_pass(4));
    EXPECT_EQ(store_.appends, 1);
    clock_.pass(VenueWatch::keeps_again_after);
    EXPECT_TRUE(eventually([this] { return store_.appends > 1; }));
    keeper_.stop();
}

TEST_F(KeeperFaults, AnAlertThatCannotBeReadHoldsUpNoOther) {
    set_fault_log([](std::string_view, std::string_view) {});
    store_.throws_for_first = true;
    show(ready_to_serve + illegal_replacement, 1);
    show(ready_to_serve + illegal_replacement, 2);
    EXPECT_TRUE(eventually([this] { return !alerts_of(2).empty(); }));
    EXPECT_TRUE(alerts_of(1).empty());
    store_.throws_for_first = false;
    EXPECT_TRUE(eventually([this] { return !alerts_of(1).empty(); }));
    // Nor does an act at another server that cannot be read.
    store_.throws_for_first = true;
    tell_of_acts(alerts_of(1));
    ASSERT_TRUE(rounds_pass(2));
    show(ready_to_serve + illegal_replacement, 3);
    EXPECT_TRUE(eventually([this] { return !alerts_of(3).empty(); }));
    keeper_.stop();
}

// It was waited for once for each act of another server.
TEST_F(KeeperFaults, AStoreThatDoesNotAnswerIsAskedOnceARound) {
    for (std::uint8_t number = 1; number <= 3; ++number)
        show(ready_to_serve + illegal_replacement, number);
    ASSERT_TRUE(eventually([this] { return !alerts_of(1).empty() && !alerts_of(3).empty(); }));
    ASSERT_TRUE(eventually([this] { return !alerts_of(2).empty(); }));
    store_.away = true;
    const int loads = store_.loads;
    const int beats = beats_;
    for (std::uint8_t number = 1; number <= 3; ++number) tell_of_acts(alerts_of(number));
    ASSERT_TRUE(rounds_pass(8));
    // A round begins also with news, at most once for each of them.
    EXPECT_LE(store_.loads - loads, beats_ - beats + 4);
    keeper_.stop();
}

}  // namespace
}  // namespace courthand::server::venue
