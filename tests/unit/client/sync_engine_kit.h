// A device with a journal, and the sync engine against a server in memory.
#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <memory>
#include <string>
#include <vector>

#include "client/session/journaled_match.h"
#include "client/sync/sync_engine.h"
#include "courthand/sim/match_player.h"
#include "tests/testkit/eventually.h"
#include "tests/unit/client/journal_kit.h"
#include "tests/unit/client/memory_server.h"
#include "wire/uuid.h"

namespace courthand::client {

using namespace std::chrono_literals;
using testkit::eventually;

class SyncEngineTest : public testing::Test {
  protected:
    void SetUp() override {
        journal_ = open_journal(folder_.path());
        device_ = table_of_court_four();
        server_.device = wire::Uuid::from_text(device_.id)->to_bytes();
        options_.back_off = {1ms, 5ms};
        options_.look_again = 20ms;
        options_.cursor_rest = 0ms;
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

    /// The engine of this device, running; one that ran before has stopped.
    SyncEngine& start_engine() {
        engine_.reset();
        engine_ = std::make_unique<SyncEngine>(*journal_, server_, device_, options_);
        engine_->start();
        return *engine_;
    }
    /// As `start_engine`, once the device is enrolled at a court and its watch has begun.
    SyncEngine& start_watching() {
        SyncEngine& engine = start_engine();
        EXPECT_TRUE(eventually([&] { return !server_.cursors().empty(); }));
        return engine;
    }
    /// A ruling of the head official, as the watch brings it.
    void tell_ruling(const std::string& match_id, const std::string& alert,
                     const std::string& cursor, bool accepted = false) {
        v1::WatchResponse step;
        *step.mutable_ruling() = notice(match_id, alert);
        step.mutable_ruling()->set_accepted(accepted);
        step.set_cursor(cursor);
        server_.tell(step);
    }
    static v1::RulingNotice notice(const std::string& match_id, const std::string& alert) {
        v1::RulingNotice notice;
        notice.set_alert_id(alert);
        notice.set_match_id(wire::Uuid::from_text(match_id)->to_bytes());
        return notice;
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
    std::unique_ptr<SyncEngine> engine_;
};

}  // namespace courthand::client
