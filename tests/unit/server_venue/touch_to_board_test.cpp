// One touch at a table, all the way to the board of the head official: the device with its journal
// on the disk and its sync engine, the server without its network, and the head seat that reads the
// alert. Each of them reads, hashes and judges an entry once at most, and the screen of the table
// confirms it after one commit.
#include <algorithm>

#include "client/session/journaled_match.h"
#include "client/sync/sync_engine.h"
#include "match_kit.h"
#include "tests/unit/client/synced_files.h"
#include "venue/board_message.h"
#include "whole_venue.h"
#include "wire/work_done.h"

namespace courthand::server::testing {
namespace {

using wire::WorkDone;

/// Brings what the device pushes to the server; nothing stands on its court but its own match.
class DirectCourier final : public client::Courier {
  public:
    using Push = std::function<Result<v1::PushResponse>(const v1::PushRequest&)>;
    explicit DirectCourier(Push push) : push_{std::move(push)} {}

    client::CallResult<v1::PushResponse> push(const v1::PushRequest& request) override {
        auto answer = push_(request);
        if (!answer.ok())
            return client::CallError{client::CallError::Kind::failed, answer.status().text()};
        // It does not say of which server it is: otherwise all that is kept would be compared
        // first.
        answer->clear_header();
        return *std::move(answer);
    }
    client::CallResult<v1::FetchMatchResponse> fetch(
        const v1::FetchMatchRequest& request) override {
        if (request.which_case() == v1::FetchMatchRequest::kMatchId)
            return client::CallError{client::CallError::Kind::not_known, "not known here"};
        return v1::FetchMatchResponse{};
    }
    client::CallResult<v1::GrantWriterResponse> grant(const v1::GrantWriterRequest&) override {
        return client::CallError{client::CallError::Kind::failed, "nobody is asked"};
    }
    void watch(const v1::WatchRequest&, WatchListener listener) override {
        v1::WatchResponse first;
        first.mutable_snapshot()->set_snapshot_complete(true);
        listener.step(first);
    }
    void stop_watch() override {}
    void cancel() override {}

  private:
    Push push_;
};

class TouchToBoard : public WholeVenue {
  protected:
    /// Opens a match on court 1 at the device and records what the script says.
    void begin(std::string_view script_text) {
        start();
        device_.id = to_text(table.device);
        device_.enrolled = true;
        device_.court = 1;
        device_.tournament_id = to_text(stores.tournament().id);
        auto opened = client::Journal::open(disk_.path());
        ASSERT_EQ(opened.index(), 0U);
        journal_ = std::move(std::get<0>(opened));
        const auto match = open_here(device_, 1, "international-2025", {names.a, names.b});
        ASSERT_FALSE(journal_->store({match}, {}));
        auto session = client::JournaledMatch::open(*journal_, device_, match.match_id, {});
        ASSERT_EQ(session.index(), 0U);
        match_ = std::move(std::get<0>(session));
        const auto script = read_script(script_text);
        for (const Record& one : records(std::get<Script>(script))) {
            const Fact& fact = std::get<Fact>(one);
            if (std::holds_alternative<MatchOpened>(fact)) continue;  // comes with the first one
            ASSERT_FALSE(match_->record(fact).error);
        }
        ASSERT_TRUE(handed_over());
    }
    /// The network comes, and goes when what the journal holds is with the server and on the board:
    /// what the device does meanwhile has been done when this returns.
    ::testing::AssertionResult handed_over() {
        client::SyncEngine engine{*journal_, courier_, device_, {}};
        engine.start();
        const std::string id = match_->sheet().match_id;
        auto arrived = testkit::eventually([&] {
            return journal_->waiting_count() == 0 &&
                   engine.status(id).link == client::SyncStatus::Link::online;
        });
        engine.stop();
        if (!arrived) return arrived << " " << engine.status(id).last_error;
        return card_shows(static_cast<EntryNumber>(match_->records().size()));
    }

    testkit::ScratchFolder disk_;
    client::Device device_;
    std::unique_ptr<client::Journal> journal_;
    std::unique_ptr<client::JournaledMatch> match_;
    DirectCourier courier_{[this](const v1::PushRequest& request) { return push(request); }};
};

// Three parses (device, server, board), two hashes, two folds, one commit before the screen
// confirms and one more with the acknowledgement. The device reads its entry to see who made it
// before it hands it over; the board does not hash what it shows.
TEST_F(TouchToBoard, OfAFaultIsReadHashedAndJudgedOnceAtEachPlace) {
    begin(ready_to_serve);
    const Fact wrong = Serve{Team::A, Jersey{2}};  // number 1 serves
    const WorkDone earlier = wire::work_done_by_all();
    ASSERT_TRUE(handed_over()) << "with nothing to hand over";
    static_cast<void>(client::take_commits());
    const WorkDone before = wire::work_done_by_all();
    const WorkDone connecting = before - earlier;
    EXPECT_EQ(connecting.parses + connecting.conversions + connecting.judged, 0U);

    ASSERT_FALSE(match_->record(wrong).error);
    EXPECT_EQ(client::take_commits(), 1U) << "before the screen confirms";
    EXPECT_EQ(wire::work_done_by_all() - before, (WorkDone{0, 1, 1, 1})) << "device";

    ASSERT_TRUE(handed_over());
    EXPECT_EQ(client::take_commits(), 1U) << "the acknowledgement";
    ASSERT_TRUE(shows("wrong-server", v1::ALERT_STATE_OPEN));
    EXPECT_EQ(wire::work_done_by_all() - before - connecting, (WorkDone{2, 2, 2, 2}))
        << "handed over, and the server";

    const auto seen = courthand::venue::alert_of(*alert("wrong-server"));
    ASSERT_EQ(seen.evidence.entries.size(), 1U);
    EXPECT_EQ(seen.evidence.entries.front().content, Record{wrong});
    EXPECT_EQ(wire::work_done_by_all() - before - connecting, (WorkDone{3, 3, 2, 2}))
        << "and the board";
}

// However many touches wait when the network comes back, their acknowledgements are one commit.
TEST_F(TouchToBoard, ManyAreAcknowledgedInOneCommit) {
    begin(ready_to_serve);
    static_cast<void>(client::take_commits());
    constexpr std::size_t touches = 10;
    for (std::size_t i = 0; i < touches; ++i) ASSERT_FALSE(match_->record(Fact{Note{}}).error);
    EXPECT_EQ(client::take_commits(), touches);
    ASSERT_TRUE(handed_over());
    EXPECT_EQ(client::take_commits(), 1U);
}

}  // namespace
}  // namespace courthand::server::testing
