// A cable that is cut: the connection stands, nothing comes and nothing goes, and nobody says so.
#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "tests/integration/client/cable.h"
#include "tests/integration/client/venue_kit.h"

namespace courthand::client {
namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

/// What is asked of an idle watch, and of one that sends.
constexpr std::chrono::seconds noticed_within{15};

class CutCable : public testing::Test {
  protected:
    void SetUp() override {
        folder_ = venue_.enrol_table("table-1", 1);
        table_ = open_table(folder_, cable_.address());
        ASSERT_TRUE(table_);
        ASSERT_TRUE(eventually([this] { return !(id_ = table_->next_match()).empty(); }));
        auto opened = table_->open_match(id_);
        ASSERT_TRUE(std::holds_alternative<std::unique_ptr<JournaledMatch>>(opened));
        match_ = std::move(std::get<0>(opened));
        play_steps(*match_, 11, 12);
        ASSERT_TRUE(eventually([this] { return table_->all_sent() && online(); }));
    }
    [[nodiscard]] bool online() const {
        return table_->status(id_).link == SyncStatus::Link::online;
    }
    /// How long it takes until the table no longer says that it is connected.
    [[nodiscard]] Clock::duration noticed() const {
        const auto since = Clock::now();
        while (online() && Clock::now() - since < 2 * noticed_within)
            std::this_thread::sleep_for(20ms);
        return Clock::now() - since;
    }
    void expect_all_arrives() {
        EXPECT_TRUE(eventually([this] { return table_->all_sent() && online(); }))
            << table_->status(id_).last_error;
        EXPECT_EQ(venue_.record(folder_, id_), bytes_of_journal(table_->journal(), id_));
    }

    Venue venue_;
    Cable cable_{venue_.host().port()};
    std::filesystem::path folder_;
    std::unique_ptr<TableStation> table_;
    std::string id_;
    std::unique_ptr<JournaledMatch> match_;
};

TEST_F(CutCable, IsNoticedByATableThatSendsNothing) {
    cable_.cut();
    EXPECT_LE(noticed(), noticed_within);
    cable_.mend();
    expect_all_arrives();
}

TEST_F(CutCable, LosesNothingOfATableThatPlaysOn) {
    cable_.cut();
    play_steps(*match_, 12, 6);
    EXPECT_LE(noticed(), noticed_within);
    const auto begun = Clock::now();
    play_steps(*match_, 13, 6);
    EXPECT_LT(Clock::now() - begun, 10s) << "no touch waits for the network";
    EXPECT_FALSE(table_->all_sent());
    cable_.mend();
    expect_all_arrives();
}

}  // namespace
}  // namespace courthand::client
