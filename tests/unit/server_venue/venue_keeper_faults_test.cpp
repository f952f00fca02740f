// The board beside a store of alerts that is out of order.
#include <gtest/gtest.h>

#include <atomic>
#include <condition_variable>
#include <mutex>
#include <stdexcept>

#include "match_kit.h"
#include "server/domain/fault_log.h"
#include "server/venue/venue_keeper.h"

namespace courthand::server::venue {
namespace {

using testing::illegal_replacement;
using testing::match_of;
using testing::ready_to_serve;

/// It throws, or it does not answer.
class BrokenStore final : public alerts::AlertStore {
  public:
    Status append(std::span<const alerts::LifeEntry>, std::span<const FeedNotice>) override {
        meet_fault();
        return Status::fine();
    }
    Result<std::vector<alerts::LifeEntry>> load_live() override {
        return std::vector<alerts::LifeEntry>{};
    }
    Result<std::vector<alerts::LifeEntry>> load(std::span<const alerts::AlertId>) override {
        meet_fault();
        return std::vector<alerts::LifeEntry>{};
    }
    void answer_again() {
        stands_still = false;
        stands_still.notify_all();
    }

    std::atomic<bool> throws = false;
    std::atomic<bool> stands_still = false;

  private:
    void meet_fault() {
        if (throws) throw std::runtime_error{"no memory"};
        stands_still.wait(true);
    }
};

class KeeperFaults : public ::testing::Test {
  protected:
    KeeperFaults() {
        listener_ = keeper_.board().listen([this] { changed_.notify_all(); });
        EXPECT_TRUE(keeper_.start().ok());
        keeper_.on_rebuilt();
    }
    ~KeeperFaults() override { set_fault_log({}); }
    void show(std::string_view script, std::uint8_t number = 1) {
        LiveMatch match = match_of(script, number);
        match.plan.key = match.key;
        keeper_.on_match_changed({MatchChanged::Cause::appended, match, 0, 0, {}, 0});
    }
    /// The limit only ends a test that has failed.
    template <class Holds>
    bool comes(Holds holds) {
        std::unique_lock lock{mutex_};
        for (int i = 0; i < 200; ++i) {
            if (holds()) return true;
            changed_.wait_for(lock, std::chrono::milliseconds{50});
        }
        return holds();
    }
    bool has_card(std::uint32_t court) {
        const auto card = keeper_.board().card(court);
        return card && !card->match_id().empty();
    }

    BrokenStore store_;
    std::mutex mutex_;
    std::condition_variable changed_;
    VenueKeeper keeper_{
        TournamentId{},
        store_,
        [] {
            return alerts::Now{std::chrono::system_clock::now(), std::chrono::steady_clock::now()};
        },
        {}};
    std::uint64_t listener_ = 0;
};

TEST_F(KeeperFaults, AStoreThatThrowsEndsNeitherServerNorBoard) {
    std::atomic<int> lines = 0;
    set_fault_log([&](std::string_view, std::string_view) { ++lines; });
    store_.throws = true;
    show(ready_to_serve + illegal_replacement);
    EXPECT_TRUE(comes([this] { return has_card(1); }));
    show(ready_to_serve, 2);
    EXPECT_TRUE(comes([this] { return has_card(2); }));
    EXPECT_TRUE(comes([&] { return lines > 0; }));
    store_.throws = false;
    EXPECT_TRUE(comes([this] { return !keeper_.board().news(std::nullopt).alerts.empty(); }))
        << "what could not be looked up is raised once it can";
    keeper_.stop();
}

TEST_F(KeeperFaults, WhileTheStoreDoesNotAnswerTheCardOfTheMatchIsShown) {
    store_.stands_still = true;
    show(ready_to_serve + illegal_replacement);
    EXPECT_TRUE(comes([this] { return has_card(1); }));
    store_.answer_again();
    EXPECT_TRUE(comes([this] { return !keeper_.board().news(std::nullopt).alerts.empty(); }));
    keeper_.stop();
}

}  // namespace
}  // namespace courthand::server::venue
