// The sync engine against a server in memory that cuts, forgets, fences and refuses at will.
//
// Goal: whatever happens on the way, the server ends with exactly the journal's bytes in order,
// and the journal knows it. No gRPC is linked, so this also runs under the thread sanitizer.
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <map>
#include <mutex>
#include <thread>

#include "client/session/journaled_match.h"
#include "client/sync/sync_engine.h"
#include "tests/sim/match_player.h"
#include "tests/unit/client/journal_kit.h"
#include "wire/chain.h"
#include "wire/uuid.h"

namespace courthand::client {
namespace {

using namespace std::chrono_literals;

/// A server in memory. Thread-safe.
class MemoryServer final : public Courier {
  public:
    CallResult<v1::PushResponse> push(const v1::PushRequest& request) override {
        const std::scoped_lock lock{mutex_};
        ++pushes;
        if (cut_before()) return CallError{CallError::Kind::unreachable, "cut on the way there"};
        if (!refusal.empty()) return CallError{CallError::Kind::refused, refusal};
        v1::PushResponse response;
        auto& record = records_[request.match_id()];
        for (const auto& entry : request.entries()) take(entry.data(), record, response);
        response.set_head_seq(static_cast<std::uint32_t>(record.size()));
        if (cut_before()) return CallError{CallError::Kind::unreachable, "cut on the way back"};
        return response;
    }
    CallResult<v1::FetchMatchResponse> fetch(const v1::FetchMatchRequest& request) override {
        const std::scoped_lock lock{mutex_};
        if (cut_before()) return CallError{CallError::Kind::unreachable, "cut"};
        v1::FetchMatchResponse response = on_court_;
        if (request.which_case() == v1::FetchMatchRequest::kMatchId)
            response.mutable_match()->set_match_id(request.match_id());
        const auto& record = records_[response.match().match_id()];
        for (std::size_t i = request.after_seq();
             i < record.size() && i < request.after_seq() + 50U; ++i)
            response.add_entries()->set_data(record[i]);
        response.set_head_seq(static_cast<std::uint32_t>(record.size()));
        return response;
    }
    CallResult<v1::GrantWriterResponse> grant(const v1::GrantWriterRequest&) override {
        const std::scoped_lock lock{mutex_};
        v1::GrantWriterResponse response;
        response.set_outcome(v1::GrantWriterResponse::OUTCOME_GRANTED);
        on_court_.mutable_writer()->set_number(1);
        on_court_.mutable_writer()->set_grant_id(std::string(16, 'g'));
        on_court_.mutable_writer()->set_device_id(device);
        *response.mutable_writer() = on_court_.writer();
        return response;
    }
    void watch(const v1::WatchRequest& request, WatchListener listener) override {
        v1::WatchResponse first;
        {
            const std::scoped_lock lock{mutex_};
            listener_ = listener;
            cursors_.push_back(request.cursor());
            first.mutable_snapshot()->set_snapshot_complete(true);
            first.set_cursor("start");
        }
        listener.step(first);
    }
    void stop_watch() override {
        const std::scoped_lock lock{mutex_};
        listener_ = {};
    }
    void cancel() override {}

    void put_on_court(const v1::FetchMatchResponse& match) {
        const std::scoped_lock lock{mutex_};
        on_court_ = match;
    }
    void tell(const v1::WatchResponse& step) {
        WatchListener listener;
        {
            const std::scoped_lock lock{mutex_};
            listener = listener_;
        }
        if (listener.step) listener.step(step);
    }
    void end_watch() {
        WatchListener listener;
        {
            const std::scoped_lock lock{mutex_};
            listener = std::exchange(listener_, {});
        }
        if (listener.ended) listener.ended({CallError::Kind::unreachable, "the watch was cut"});
    }
    std::vector<std::string> record(const std::string& match_id) {
        const std::scoped_lock lock{mutex_};
        return records_[match_id];
    }
    void forget_after(const std::string& match_id, std::size_t count) {
        const std::scoped_lock lock{mutex_};
        records_[match_id].resize(count);
    }
    void set_cut(unsigned per_mille) {
        const std::scoped_lock lock{mutex_};
        cut_per_mille_ = per_mille;
    }
    void set_refusal(const std::string& words) {
        const std::scoped_lock lock{mutex_};
        refusal = words;
    }
    void set_fenced(bool on) {
        const std::scoped_lock lock{mutex_};
        fenced_ = on;
    }
    void set_lossy(bool on) {
        const std::scoped_lock lock{mutex_};
        lossy_ = on;
    }

    std::string device;
    std::string refusal;
    std::atomic<int> pushes{0};
    std::vector<std::string> cursors() {
        const std::scoped_lock lock{mutex_};
        return cursors_;
    }

  private:
    bool cut_before() { return dice_.chance(cut_per_mille_); }

    void take(const std::string& bytes, std::vector<std::string>& record,
              v1::PushResponse& response) {
        v1::PushResult& result = *response.add_results();
        const auto entry = wire::parse_entry(bytes);
        if (!entry) return result.set_outcome(v1::PushResult::OUTCOME_INVALID);
        result.set_seq(entry->seq());
        if (fenced_) return result.set_outcome(v1::PushResult::OUTCOME_STORED_ON_BRANCH);
        if (entry->seq() <= record.size())
            return result.set_outcome(record[entry->seq() - 1] == bytes
                                          ? v1::PushResult::OUTCOME_ALREADY_HAD
                                          : v1::PushResult::OUTCOME_STORED_ON_BRANCH);
        // A server put back from a backup forgets what it had said it has.
        if (lossy_ && dice_.chance(5)) record.resize(record.size() / 2);
        if (entry->seq() != record.size() + 1)
            return result.set_outcome(v1::PushResult::OUTCOME_GAP);
        record.push_back(bytes);
        result.set_outcome(v1::PushResult::OUTCOME_APPENDED);
    }

    std::mutex mutex_;
    sim::Dice dice_{42};
    unsigned cut_per_mille_ = 0;
    bool fenced_ = false;
    bool lossy_ = false;
    v1::FetchMatchResponse on_court_;
    std::map<std::string, std::vector<std::string>> records_;
    WatchListener listener_;
    std::vector<std::string> cursors_;
};

class SyncEngineTest : public testing::Test {
  protected:
    void SetUp() override {
        journal_ = open_journal(folder_.path());
        device_.id = "01900000-0000-7000-a000-000000000004";
        device_.enrolled = true;
        device_.court = 4;
        device_.tournament_id = "01900000-0000-7000-b000-000000000001";
        server_.device = wire::Uuid::from_text(device_.id)->to_bytes();
        options_.back_off = {1ms, 5ms};
        options_.look_again = 20ms;
    }

    /// A match as the desk put it on the court.
    std::string put_on_court(std::uint32_t number = 12) {
        Device stranger = device_;
        const StoredMatch match =
            open_here(stranger, 4, "international-2025", {"Quayside", "Saltmarsh"});
        v1::FetchMatchResponse answer;
        EXPECT_TRUE(answer.ParseFromString(match.sheet));
        answer.mutable_match()->set_number(number);
        answer.clear_writer();
        server_.put_on_court(answer);
        return match.match_id;
    }

    std::string start_own_match() {
        const StoredMatch match =
            open_here(device_, 4, "international-2025", {"Quayside", "Saltmarsh"});
        EXPECT_FALSE(journal_->store({match}, {}));
        return match.match_id;
    }

    std::unique_ptr<JournaledMatch> open_match(const std::string& id, SyncEngine* engine) {
        SessionHooks hooks;
        if (engine != nullptr) hooks.written = [engine] { engine->wake(); };
        auto opened = JournaledMatch::open(*journal_, device_, id, hooks);
        if (const auto* wrong = std::get_if<std::string>(&opened)) ADD_FAILURE() << *wrong;
        return std::move(std::get<0>(opened));
    }

    static void play(JournaledMatch& match, std::uint64_t seed, int steps) {
        sim::MatchPlayer player{seed};
        for (int i = 0; i < steps; ++i) {
            const auto step = player.next(match.rules(), match.state());
            if (!step) return;
            const auto result =
                step->fact ? match.record(*step->fact, step->words) : match.strike_last();
            ASSERT_FALSE(result.error);
        }
    }

    /// Waits for a condition that must come true; a bound so large that only a hang meets it.
    template <class Condition>
    static bool wait_for(Condition condition) {
        for (int i = 0; i < 30000; ++i) {
            if (condition()) return true;
            std::this_thread::sleep_for(1ms);
        }
        return false;
    }

    [[nodiscard]] bool same_record(const std::string& match_id) {
        std::vector<std::string> bytes;
        for (const JournalEntry& entry : journal_->entries(match_id)) bytes.push_back(entry.bytes);
        return bytes == server_.record(wire::Uuid::from_text(match_id)->to_bytes());
    }

    ScratchFolder folder_;
    std::unique_ptr<Journal> journal_;
    Device device_;
    MemoryServer server_;
    SyncEngine::Options options_;
};

TEST_F(SyncEngineTest, EverythingArrivesThroughCutsOnBothWays) {
    const std::string id = start_own_match();
    server_.set_cut(400);
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    const auto match = open_match(id, &engine);
    play(*match, 5, 400);
    EXPECT_TRUE(wait_for([&] { return journal_->waiting_count() == 0; }));
    engine.stop();
    EXPECT_TRUE(same_record(id));
}

TEST_F(SyncEngineTest, AMatchPlayedWithNoServerArrivesLater) {
    const std::string id = start_own_match();
    {
        const auto match = open_match(id, nullptr);
        play(*match, 6, 2000);
        EXPECT_EQ(match->state().set.stage, Stage::match_over);
    }
    EXPECT_GT(journal_->waiting_count(), 200U);
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    EXPECT_TRUE(wait_for([&] { return journal_->waiting_count() == 0; }));
    engine.stop();
    EXPECT_TRUE(same_record(id));
}

TEST_F(SyncEngineTest, AServerThatForgotGetsTheRestAgain) {
    const std::string id = start_own_match();
    const auto match = open_match(id, nullptr);
    server_.set_lossy(true);
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    sim::MatchPlayer player{9};
    for (int i = 0; i < 300; ++i) {
        const auto step = player.next(match->rules(), match->state());
        ASSERT_TRUE(step);
        ASSERT_FALSE((step->fact ? match->record(*step->fact) : match->strike_last()).error);
        engine.wake();
    }
    server_.set_lossy(false);
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "end").error);
    engine.wake();
    EXPECT_TRUE(wait_for([&] { return journal_->waiting_count() == 0 && same_record(id); }));
    engine.stop();
}

TEST_F(SyncEngineTest, AMatchOnTheCourtComesWithTheRightToWriteIt) {
    const std::string id = put_on_court();
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    ASSERT_TRUE(wait_for([&] { return engine.court_match() == id; }));
    const auto read = read_sheet(*journal_->match(id));
    const auto& sheet = std::get<StoredSheet>(read);
    EXPECT_EQ(sheet.sheet.number, 12U);
    EXPECT_EQ(sheet.writer.epoch, 1U);
    EXPECT_EQ(sheet.writer.grant_id, std::string(16, 'g'));
    const auto match = open_match(id, &engine);
    play(*match, 2, 60);
    EXPECT_TRUE(wait_for([&] { return journal_->waiting_count() == 0; }));
    EXPECT_TRUE(same_record(id));
    // The desk puts another match on the court while this one is played.
    const std::string next = put_on_court(13);
    v1::WatchResponse change;
    change.mutable_change();
    change.set_cursor("c7");
    server_.tell(change);
    EXPECT_TRUE(wait_for([&] { return engine.court_match() == next; }));
    EXPECT_EQ(journal_->setting(watch_cursor_setting), "c7");
    engine.stop();
}

// A journal that lost its end gets it back, and the open session takes it in.
TEST_F(SyncEngineTest, WhatTheServerHoldsMoreComesBack) {
    const std::string id = put_on_court();
    const ScratchFolder before;
    std::uint64_t hash = 0;
    {
        const auto earlier = open_journal(before.path());
        SyncEngine engine{*earlier, server_, device_, options_};
        engine.start();
        ASSERT_TRUE(wait_for([&] { return engine.court_match() == id; }));
        auto opened = JournaledMatch::open(*earlier, device_, id, {});
        auto& match = *std::get<0>(opened);
        play(match, 4, 230);
        hash = state_hash(match.state());
        engine.wake();
        ASSERT_TRUE(wait_for([&] { return earlier->waiting_count() == 0; }));
        engine.stop();
        // The first entries are all that a damaged journal kept.
        ASSERT_FALSE(journal_->store({*earlier->match(id)}, {}));
        const auto entries = earlier->entries(id);
        for (std::size_t i = 0; i < 40; ++i) ASSERT_FALSE(journal_->append(entries[i]));
    }
    const auto match = open_match(id, nullptr);
    EXPECT_EQ(match->records().size(), 40U);
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    ASSERT_TRUE(wait_for([&] { return same_record(id); }));
    EXPECT_TRUE(match->poll());
    EXPECT_EQ(state_hash(match->state()), hash);
    ASSERT_FALSE(match->record(Fact{Note{Note::Kind::remark}}, "goes on").error);
    engine.wake();
    EXPECT_TRUE(wait_for([&] { return journal_->waiting_count() == 0; }));
    EXPECT_TRUE(same_record(id));
    engine.stop();
}

TEST_F(SyncEngineTest, TheWatchGoesOnFromItsCursor) {
    put_on_court();
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    ASSERT_TRUE(wait_for([&] { return !journal_->setting(watch_cursor_setting).empty(); }));
    v1::WatchResponse bookmark;
    bookmark.mutable_bookmark();
    bookmark.set_cursor("c99");
    server_.tell(bookmark);
    ASSERT_TRUE(wait_for([&] { return journal_->setting(watch_cursor_setting) == "c99"; }));
    server_.end_watch();
    ASSERT_TRUE(wait_for([&] { return server_.cursors().size() >= 2; }));
    engine.stop();
    EXPECT_EQ(server_.cursors()[0], "");
    EXPECT_EQ(server_.cursors()[1], "c99");
}

TEST_F(SyncEngineTest, EntriesBesideTheRecordAreTold) {
    const std::string id = start_own_match();
    server_.set_fenced(true);
    const auto match = open_match(id, nullptr);
    play(*match, 3, 20);
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    ASSERT_TRUE(wait_for([&] { return journal_->waiting_count() == 0; }));
    ASSERT_TRUE(wait_for([&] { return engine.status(id).link == SyncStatus::Link::online; }));
    EXPECT_NE(engine.status(id).last_error.find("beside the record"), std::string::npos);
    engine.stop();
    EXPECT_EQ(journal_->count(id, EntryStanding::on_branch), match->records().size());
}

TEST_F(SyncEngineTest, ARefusalIsShownAndNothingIsLost) {
    const std::string id = start_own_match();
    server_.set_refusal("This program is newer than the server: update the server.");
    const auto match = open_match(id, nullptr);
    play(*match, 3, 20);
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    ASSERT_TRUE(wait_for([&] {
        return engine.status(id).last_error.find("newer than the server") != std::string::npos;
    }));
    EXPECT_EQ(engine.status(id).waiting, match->records().size());
    server_.set_refusal("");
    EXPECT_TRUE(wait_for([&] { return journal_->waiting_count() == 0; }));
    engine.stop();
    EXPECT_TRUE(same_record(id));
}

TEST_F(SyncEngineTest, APracticeMatchIsNeverSent) {
    Device stranger = device_;
    stranger.enrolled = false;
    const StoredMatch practice = open_here(stranger, 4, "international-2025", {"A", "B"});
    ASSERT_FALSE(journal_->store({practice}, {}));
    const auto match = open_match(practice.match_id, nullptr);
    play(*match, 3, 20);
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    ASSERT_TRUE(wait_for(
        [&] { return engine.status(practice.match_id).link == SyncStatus::Link::online; }));
    engine.stop();
    EXPECT_EQ(server_.pushes, 0);
}

TEST_F(SyncEngineTest, ARulingReachesTheSession) {
    const std::string id = start_own_match();
    SyncEngine engine{*journal_, server_, device_, options_};
    engine.start();
    ASSERT_TRUE(wait_for([&] { return !server_.cursors().empty(); }));
    v1::WatchResponse step;
    step.mutable_ruling()->set_alert_id("a1");
    step.mutable_ruling()->set_match_id(wire::Uuid::from_text(id)->to_bytes());
    step.set_cursor("c3");
    server_.tell(step);
    EXPECT_TRUE(wait_for([&] { return journal_->settings(ruling_prefix).size() == 1; }));
    EXPECT_EQ(journal_->setting(watch_cursor_setting), "c3");
    engine.stop();
}

}  // namespace
}  // namespace courthand::client
