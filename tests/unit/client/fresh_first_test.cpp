// What is new goes out at once, whatever else the engine has to do or cannot do.
#include "tests/unit/client/sync_engine_kit.h"

namespace courthand::client {
namespace {

using FreshFirst = SyncEngineTest;

// All records of a long day are compared after a restore, with pauses: nothing else went out.
TEST_F(FreshFirst, AnEntryDoesNotWaitUntilAllRecordsAreCompared) {
    server_.set_header("generation-one--", "1.0");
    for (int i = 0; i < 5; ++i) play(*open_match(start_own_match(), nullptr), 3, 4);
    {
        SyncEngine engine{*journal_, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(eventually([&] { return !journal_->setting(compared_setting).empty(); }));
        ASSERT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
        engine.stop();
    }
    server_.set_header("generation-two--", "1.0");
    options_.between_compared = 1h;
    const std::string id = start_own_match();
    const int fetches = server_.fetches;
    SyncEngine& engine = start_engine();
    ASSERT_TRUE(eventually([&] { return server_.fetches - fetches >= 2; })) << "the pass has begun";
    play(*open_match(id, &engine), 3, 4);
    EXPECT_TRUE(eventually([&] { return journal_->waiting_count() == 0; }));
    engine.stop();
}

/// What a person sees of the link, one after the other.
class WatchRefused : public SyncEngineTest {
  protected:
    void SetUp() override {
        SyncEngineTest::SetUp();
        options_.back_off = {1ms, 64ms};
        id_ = put_on_court();
        server_.refuse_watch("this device may not watch this court");
        engine_ = std::make_unique<SyncEngine>(*journal_, server_, device_, options_);
        engine_->start([this] {
            const SyncStatus status = engine_->status(id_);
            const std::scoped_lock lock{mutex_};
            if (links_.empty() || links_.back() != status.link) links_.push_back(status.link);
        });
    }
    void TearDown() override { engine_->stop(); }
    [[nodiscard]] std::vector<SyncStatus::Link> links() {
        const std::scoped_lock lock{mutex_};
        return links_;
    }

    std::string id_;
    std::mutex mutex_;
    std::vector<SyncStatus::Link> links_;
};

// It was begun anew five to eight times a second.
TEST_F(WatchRefused, IsTriedMoreAndMoreSeldom) {
    const auto begun = std::chrono::steady_clock::now();
    ASSERT_TRUE(eventually([&] { return server_.cursors().size() >= 12; }));
    // The second comes soon; then it is at least half of 1 + 2 + 4 + ... + 64 + 3 x 64 ms.
    EXPECT_GE(std::chrono::steady_clock::now() - begun, 150ms);
}

TEST_F(WatchRefused, IsNotShownAsOnlineInBetween) {
    ASSERT_TRUE(eventually([&] { return server_.cursors().size() >= 8; }));
    for (const SyncStatus::Link link : links()) EXPECT_NE(link, SyncStatus::Link::online);
    EXPECT_NE(engine_->status(id_).last_error.find("may not watch"), std::string::npos);
    server_.refuse_watch("");
    EXPECT_TRUE(eventually([&] { return engine_->status(id_).link == SyncStatus::Link::online; }));
    EXPECT_TRUE(eventually([&] { return engine_->status(id_).last_error.empty(); }));
}

TEST_F(WatchRefused, HoldsNoEntryUp) {
    ASSERT_TRUE(eventually([&] { return server_.cursors().size() >= 3; }));
    const std::string own = start_own_match();
    play(*open_match(own, engine_.get()), 3, 4);
    EXPECT_TRUE(eventually([&] { return same_record(own) && journal_->waiting_count() == 0; }));
}

}  // namespace
}  // namespace courthand::client
