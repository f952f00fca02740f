// Answers that are lost, late, or still on their way when a window is closed: what a person is
// told, what the board shows, and that closing waits for nobody.
#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <functional>
#include <future>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include "courthand/v1/desk.grpc.pb.h"
#include "courthand/v1/tournament_service.grpc.pb.h"
#include "courthand/v1/venue.grpc.pb.h"
#include "venue/board_client.h"
#include "venue/desk_client.h"
#include "venue/event_act.h"
#include "venue/event_client.h"

namespace courthand::venue {
namespace {

using namespace std::chrono_literals;

/// Far from the deadline of any call: a call that ends so early was cancelled.
constexpr std::chrono::seconds long_before{2};

/// Set once, waited for with a bound that only a hang meets.
class Event {
  public:
    void set() {
        {
            const std::scoped_lock lock{mutex_};
            set_ = true;
        }
        news_.notify_all();
    }
    [[nodiscard]] bool wait() {
        std::unique_lock guard{mutex_};
        return news_.wait_for(guard, 60s, [this] { return set_; });
    }

  private:
    std::mutex mutex_;
    std::condition_variable news_;
    bool set_ = false;
};

/// Holds a call until its caller gives it up; true when that was long before its deadline.
bool hold(grpc::ServerContext& context) {
    while (!context.IsCancelled()) std::this_thread::sleep_for(1ms);
    return context.deadline() > std::chrono::system_clock::now() + long_before;
}

class SlowVenue final : public v1::Venue::Service {
  public:
    std::function<grpc::Status(grpc::ServerContext&, v1::ClaimResponse&)> on_claim;
    Event end_alert;

    grpc::Status WatchBoard(grpc::ServerContext* context, const v1::WatchBoardRequest*,
                            grpc::ServerWriter<v1::WatchBoardResponse>* writer) override {
        v1::WatchBoardResponse news;
        news.set_snapshot(true);
        news.set_cursor("whole");
        *news.add_alerts() = alert(v1::ALERT_STATE_OPEN);
        writer->Write(news);
        if (!end_alert.wait()) return grpc::Status::CANCELLED;
        news.set_snapshot(false);
        news.set_cursor("ended");
        news.clear_alerts();
        *news.add_alerts() = alert(v1::ALERT_STATE_CLEARED);
        writer->Write(news);
        while (!context->IsCancelled()) std::this_thread::sleep_for(1ms);
        return grpc::Status::CANCELLED;
    }
    grpc::Status Claim(grpc::ServerContext* context, const v1::ClaimRequest*,
                       v1::ClaimResponse* response) override {
        return on_claim(*context, *response);
    }
    static v1::Alert alert(v1::AlertState state) {
        v1::Alert alert;
        alert.set_alert_id("one");
        alert.set_code("libero-front-row");
        alert.set_severity(v1::SEVERITY_CRITICAL);
        alert.set_state(state);
        alert.set_court(1);
        return alert;
    }
};

class SlowDesk final : public v1::Desk::Service {
  public:
    std::function<grpc::Status(grpc::ServerContext&)> on_list = [](auto&) {
        return grpc::Status::OK;
    };
    std::function<grpc::Status(grpc::ServerContext&)> on_import = on_list;
    std::function<grpc::Status(grpc::ServerContext&)> on_create = on_list;

    grpc::Status ListMatches(grpc::ServerContext* context, const v1::ListMatchesRequest*,
                             v1::ListMatchesResponse*) override {
        return on_list(*context);
    }
    grpc::Status ImportRoster(grpc::ServerContext* context, const v1::ImportRosterRequest*,
                              v1::ImportRosterResponse*) override {
        return on_import(*context);
    }
    grpc::Status CreateMatch(grpc::ServerContext* context, const v1::CreateMatchRequest*,
                             v1::CreateMatchResponse*) override {
        return on_create(*context);
    }
};

/// Takes acts and loses its answers.
class SlowTournament final : public v1::Tournament::Service {
  public:
    std::function<grpc::Status(v1::ActResponse&)> on_act;
    std::vector<std::string> ids;  ///< of the first fact of each act that came

    grpc::Status Act(grpc::ServerContext*, const v1::ActRequest* request,
                     v1::ActResponse* response) override {
        ids.push_back(request->facts(0).fact_id());
        return on_act(*response);
    }
};

class LostAnswer : public ::testing::Test {
  protected:
    void serve() {
        grpc::ServerBuilder builder;
        builder.AddListeningPort("127.0.0.1:0", grpc::InsecureServerCredentials(), &port_);
        builder.RegisterService(&venue_);
        builder.RegisterService(&desk_);
        builder.RegisterService(&tournament_);
        server_ = builder.BuildAndStart();
        ASSERT_NE(server_, nullptr);
    }
    [[nodiscard]] std::shared_ptr<grpc::Channel> channel() const {
        return grpc::CreateChannel("127.0.0.1:" + std::to_string(port_),
                                   grpc::InsecureChannelCredentials());
    }
    void TearDown() override {
        venue_.end_alert.set();
        if (server_) server_->Shutdown(std::chrono::system_clock::now());
    }
    /// What becomes of an act in the tournament's record.
    [[nodiscard]] ActOutcome act_in_record() {
        EventClient desk{channel(), "desk 1"};
        std::promise<ActOutcome> told;
        desk.start({});
        desk.act(new_act(0, {{event::NoteWritten{}, "The floor is wet."}}),
                 [&](const ActOutcome& outcome) { told.set_value(outcome); });
        const ActOutcome outcome = told.get_future().get();
        desk.stop();
        return outcome;
    }
    /// What a person is told of a claim.
    [[nodiscard]] Outcome claim() {
        BoardClient head{channel(), "Chief"};
        std::promise<Outcome> told;
        head.start({});
        head.claim("one", [&](const Outcome& outcome) { told.set_value(outcome); });
        const Outcome outcome = told.get_future().get();
        head.stop();
        return outcome;
    }

    SlowVenue venue_;
    SlowDesk desk_;
    SlowTournament tournament_;
    int port_ = 0;
    std::unique_ptr<grpc::Server> server_;
};

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

TEST_F(LostAnswer, OfAnActThatTheServerMayHaveDoneIsNotCalledUndone) {
    serve();
    for (const auto code : {grpc::StatusCode::UNAVAILABLE, grpc::StatusCode::DEADLINE_EXCEEDED}) {
        venue_.on_claim = [&](auto&, auto&) { return grpc::Status{code, "the line was cut"}; };
        const Outcome outcome = claim();
        EXPECT_FALSE(outcome.done);
        EXPECT_TRUE(has(outcome.problem, "may have been done")) << outcome.problem;
        EXPECT_TRUE(has(outcome.problem, "Look")) << outcome.problem;
        EXPECT_FALSE(has(outcome.problem, "othing was changed")) << outcome.problem;
    }
}

TEST_F(LostAnswer, OfAnActOfTheDeskIsToldSo) {
    serve();
    desk_.on_create = [](auto&) {
        return grpc::Status{grpc::StatusCode::DEADLINE_EXCEEDED, "too late"};
    };
    DeskClient desk{channel()};
    desk.start({});
    std::promise<Outcome> told;
    desk.create_match({}, [&](const Outcome& outcome) { told.set_value(outcome); });
    const Outcome outcome = told.get_future().get();
    EXPECT_TRUE(has(outcome.problem, "may have been done")) << outcome.problem;
    desk_.on_import = desk_.on_create;
    for (const bool keep : {true, false}) {
        std::promise<RosterReading> read;
        desk.read_roster({"team,number\n", "a.csv", {}}, keep,
                         [&](const RosterReading& reading) { read.set_value(reading); });
        const RosterReading reading = read.get_future().get();
        EXPECT_EQ(has(reading.failed, "may have been done"), keep) << reading.failed;
    }
    desk.stop();
}

TEST_F(LostAnswer, OfAnActInTheRecordIsAskedForAgainWithTheSameIds) {
    serve();
    tournament_.on_act = [&](v1::ActResponse& response) {
        if (tournament_.ids.size() < 3)
            return grpc::Status{grpc::StatusCode::UNAVAILABLE, "the line was cut"};
        response.set_fate(v1::ActResponse::FATE_HAD);
        return grpc::Status::OK;
    };
    EXPECT_EQ(act_in_record().fate, ActOutcome::Fate::had);
    ASSERT_EQ(tournament_.ids.size(), 3u);
    EXPECT_EQ(tournament_.ids[0], tournament_.ids[1]);
    EXPECT_EQ(tournament_.ids[0], tournament_.ids[2]);
}

TEST_F(LostAnswer, OfAnActInTheRecordThatNeverComesIsSaidSo) {
    serve();
    tournament_.on_act = [](v1::ActResponse&) {
        return grpc::Status{grpc::StatusCode::DEADLINE_EXCEEDED, "too late"};
    };
    ActOutcome outcome = act_in_record();
    EXPECT_EQ(outcome.fate, ActOutcome::Fate::failed);
    EXPECT_TRUE(has(outcome.problem, "may have been done")) << outcome.problem;
    EXPECT_TRUE(has(outcome.problem, "Do the same again")) << outcome.problem;
    // A server with too much to do has done nothing, and a refusal is not asked about again.
    tournament_.on_act = [](v1::ActResponse&) {
        return grpc::Status{grpc::StatusCode::RESOURCE_EXHAUSTED, "other servers act first"};
    };
    outcome = act_in_record();
    EXPECT_EQ(outcome.problem, "other servers act first");
    tournament_.ids.clear();
    tournament_.on_act = [](v1::ActResponse&) {
        return grpc::Status{grpc::StatusCode::INVALID_ARGUMENT, "facts[0]: no"};
    };
    outcome = act_in_record();
    EXPECT_EQ(outcome.problem, "facts[0]: no");
    EXPECT_EQ(tournament_.ids.size(), 1u);
}

TEST_F(LostAnswer, OfAServerThatWasNeverReachedIsCalledUndone) {
    serve();
    server_->Shutdown(std::chrono::system_clock::now());
    const Outcome outcome = claim();
    EXPECT_FALSE(outcome.done);
    EXPECT_TRUE(has(outcome.problem, "Nothing was sent")) << outcome.problem;
}

TEST_F(LostAnswer, ThatComesAfterTheEndOfItsAlertBringsNothingBack) {
    serve();
    Event seen;
    Event gone;
    std::mutex mutex;
    Board board;
    venue_.on_claim = [&](auto&, v1::ClaimResponse& response) {
        venue_.end_alert.set();
        EXPECT_TRUE(gone.wait());
        *response.mutable_alert() = SlowVenue::alert(v1::ALERT_STATE_CLAIMED);
        response.set_yours(true);
        return grpc::Status::OK;
    };
    BoardClient head{channel(), "Chief"};
    head.start({[&](const Board& news) {
                    const std::scoped_lock lock{mutex};
                    board = news;
                    (news.alerts.empty() ? gone : seen).set();
                },
                {}});
    ASSERT_TRUE(seen.wait());
    Event answered;
    head.claim("one", [&](const Outcome&) { answered.set(); });
    ASSERT_TRUE(answered.wait());
    {
        const std::scoped_lock lock{mutex};
        EXPECT_TRUE(board.alerts.empty()) << "an alert that has ended stands on the board";
    }
    head.stop();
}

// ---- closing a window --------------------------------------------------------------------------

TEST_F(LostAnswer, ClosingTheDeskEndsTheReadingOfItsBook) {
    serve();
    Event begun;
    std::promise<bool> early;
    desk_.on_list = [&](grpc::ServerContext& context) {
        begun.set();
        early.set_value(hold(context));
        return grpc::Status::CANCELLED;
    };
    DeskClient desk{channel()};
    desk.start({});
    ASSERT_TRUE(begun.wait());
    desk.stop();
    EXPECT_TRUE(early.get_future().get()) << "the window waited for the deadline of its call";
}

TEST_F(LostAnswer, ClosingTheDeskEndsAnActAndForgetsThoseThatWait) {
    serve();
    Event begun;
    std::promise<bool> early;
    std::atomic<int> imports{0};
    desk_.on_import = [&](grpc::ServerContext& context) {
        if (++imports > 1) return grpc::Status::OK;
        begun.set();
        early.set_value(hold(context));
        return grpc::Status::CANCELLED;
    };
    DeskClient desk{channel()};
    desk.start({});
    for (int i = 0; i < 3; ++i) desk.read_roster({"team\n", "a.csv", {}}, true, [](const auto&) {});
    ASSERT_TRUE(begun.wait());
    desk.stop();
    EXPECT_TRUE(early.get_future().get()) << "the window waited for the deadline of its call";
    EXPECT_EQ(imports, 1);
    // Opened again, it asks again.
    desk.start({});
    std::promise<RosterReading> read;
    desk.read_roster({"team\n", "a.csv", {}}, true,
                     [&](const RosterReading& reading) { read.set_value(reading); });
    EXPECT_EQ(read.get_future().get().failed, "");
    desk.stop();
}

TEST_F(LostAnswer, ClosingTheHeadSeatEndsAnAct) {
    serve();
    Event begun;
    std::promise<bool> early;
    venue_.on_claim = [&](grpc::ServerContext& context, auto&) {
        begun.set();
        early.set_value(hold(context));
        return grpc::Status::CANCELLED;
    };
    BoardClient head{channel(), "Chief"};
    head.start({});
    head.claim("one", [](const Outcome&) {});
    ASSERT_TRUE(begun.wait());
    head.stop();
    EXPECT_TRUE(early.get_future().get()) << "the window waited for the deadline of its call";
}

}  // namespace
}  // namespace courthand::venue
