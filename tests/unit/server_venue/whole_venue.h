// A whole venue in one process: every part of a server but its network, on stores in memory.
#pragma once

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <future>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <thread>
#include <variant>
#include <vector>

#include "courthand/script/script.h"
#include "server/main/composition.h"
#include "server/main/memory_stores.h"
#include "server/service/push_call.h"
#include "server/testing/or_throw.h"
#include "server/testing/test_record.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/scratch_folder.h"

namespace courthand::server::testing {

/// The facts of a match script as a record of the match, written by the device.
inline TestRecord record_of(std::string_view script_text, const wire::Uuid& match,
                            DeviceId device) {
    const auto read = read_script(script_text);
    if (const auto* error = std::get_if<ScriptError>(&read)) throw std::logic_error{error->message};
    TestRecord record{match, device};
    for (const Record& one : records(std::get<Script>(read))) record.correct(one);
    return record;
}

class WholeVenue : public ::testing::Test {
  protected:
    ~WholeVenue() override { stop(); }

    void start() {
        server_.emplace(Composition::Basis{stores.stores(),
                                           stores.tournament(),
                                           {"server", ++starts_},
                                           authority_,
                                           [this] { return now(); }},
                        [](const Status&) {});
        throw_if_failed(server_->start());
        sync_.emplace(server_->sync_parts());
    }
    void stop() {
        if (server_) server_->stop();
        sync_.reset();
        server_.reset();
    }
    /// The venue's time from now on, for what must hold or be gone for a while.
    void later(std::chrono::seconds time) { ahead_ += time.count(); }
    Composition& server() { return *server_; }
    venue::VenueKeeper& keeper() { return server_->venue.keeper(); }

    /// As a table of court 1 sends it: everything from this number on.
    v1::PushResponse push(const TestRecord& record, std::uint32_t first = 1,
                          std::uint32_t last = ~0U) {
        v1::PushRequest request;
        request.set_match_id(record.match().to_bytes());
        *request.mutable_opened_here() = test_match(record.match(), 1);
        for (std::uint32_t n = first; n <= std::min(last, record.size()); ++n)
            request.add_entries()->set_data(record.bytes()[n - 1]);
        auto got = push(request);
        if (!got.ok()) {
            ADD_FAILURE() << got.status().text();
            return {};
        }
        return *std::move(got);
    }
    Result<v1::PushResponse> push(const v1::PushRequest& request) {
        std::promise<Result<v1::PushResponse>> answer;
        service::push(*sync_, table, request,
                      [&](Result<v1::PushResponse> what) { answer.set_value(std::move(what)); });
        return answer.get_future().get();
    }
    static bool all_appended(const v1::PushResponse& response) {
        for (const v1::PushResult& result : response.results())
            if (result.outcome() != v1::PushResult::OUTCOME_APPENDED) return false;
        return response.results_size() > 0;
    }
    std::optional<v1::Alert> alert(const std::string& code) {
        for (const v1::Alert& one : keeper().board().news(std::nullopt).alerts)
            if (one.code() == code) return one;
        return std::nullopt;
    }
    ::testing::AssertionResult shows(const std::string& code, v1::AlertState state) {
        return testkit::eventually([&] {
            const auto one = alert(code);
            return one && one->state() == state;
        });
    }
    ::testing::AssertionResult card_shows(EntryNumber last) {
        return testkit::eventually([&] {
            const auto card = keeper().board().card(1);
            return card && card->head_seq() == last;
        });
    }

    auth::Caller table{DeviceId{new_uuid()}, auth::Seat::table, 1};
    MemoryStores stores{"Harbour Cup"};

  private:
    alerts::Now now() const {
        alerts::Now now = alerts::system_now();
        const std::chrono::seconds ahead{ahead_.load()};
        return {now.wall + ahead, now.steady + ahead};
    }

    std::atomic<std::int64_t> ahead_{0};
    testkit::ScratchFolder folder_;
    auth::Authority authority_ =
        *auth::Authority::open(folder_.path() / "authority", std::chrono::system_clock::now());
    std::uint64_t starts_ = 0;
    std::optional<Composition> server_;
    std::optional<service::SyncParts> sync_;
};

}  // namespace courthand::server::testing
