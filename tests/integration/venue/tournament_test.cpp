// The tournament's record through the server's own service: what is kept, what the audit says of
// it, and how long a watch stays.
#include <gtest/gtest.h>

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <grpcpp/grpcpp.h>

#include "device_kit.h"
#include "tests/testkit/eventually.h"

namespace courthand::server::testing {
namespace {

/// A record watched from a seat.
class RecordWatch {
  public:
    explicit RecordWatch(Device& device, const v1::WatchRecordRequest& request = {}) {
        prepare(context_);
        reader_ = device.tournament->WatchRecord(&context_, request);
    }
    ~RecordWatch() {
        context_.TryCancel();
        if (reader_) (void)finish();
    }
    bool read() {
        v1::WatchRecordResponse news;
        if (!reader_->Read(&news)) return false;
        facts += static_cast<std::uint32_t>(news.facts_size());
        responses.push_back(news);
        return true;
    }
    template <class Condition>
    bool until(Condition condition) {
        while (!condition(*this))
            if (!read()) return false;
        return true;
    }
    grpc::Status finish() {
        while (read()) {
        }
        const grpc::Status status = reader_->Finish();
        reader_.reset();
        return status;
    }

    std::vector<v1::WatchRecordResponse> responses;
    std::uint32_t facts = 0;

  private:
    grpc::ClientContext context_;
    std::unique_ptr<grpc::ClientReader<v1::WatchRecordResponse>> reader_;
};

v1::ActRequest note(std::uint32_t seen, const std::string& words = "The floor is wet.") {
    v1::ActRequest request;
    request.set_author("desk 1");
    request.set_seen(seen);
    v1::ActFact& fact = *request.add_facts();
    fact.set_fact_id(new_match_id().to_bytes());
    fact.mutable_fact()->mutable_note_written();
    fact.set_words(words);
    return request;
}

v1::ActRequest court(std::uint32_t seen, const std::string& name) {
    v1::ActRequest request = note(seen, "");
    v1::CourtOpened& court = *request.mutable_facts(0)->mutable_fact()->mutable_court_opened();
    court.set_court(1);
    court.set_name(name);
    return request;
}

class TournamentCalls : public ::testing::Test {
  protected:
    struct Acted {
        grpc::Status status;
        v1::ActResponse response;
    };
    Acted act(const v1::ActRequest& request) {
        Acted acted;
        acted.status = call(*desk.tournament, &v1::Tournament::Stub::Act, request, acted.response);
        return acted;
    }
    grpc::Status erase(const std::vector<std::uint32_t>& facts, v1::EraseWordsResponse& response) {
        v1::EraseWordsRequest request;
        request.set_author("desk 1");
        request.mutable_facts()->Add(facts.begin(), facts.end());
        return call(*desk.tournament, &v1::Tournament::Stub::EraseWords, request, response);
    }
    /// Lines of the audit about an act, newest first, once there are so many.
    std::vector<v1::AuditLine> lines(const std::string& act, std::size_t count) {
        std::vector<v1::AuditLine> found;
        EXPECT_TRUE(testkit::eventually([&] {
            v1::ListAuditResponse response;
            EXPECT_TRUE(
                call(*desk.desk, &v1::Desk::Stub::ListAudit, v1::ListAuditRequest{}, response)
                    .ok());
            found.clear();
            for (const v1::AuditLine& line : response.lines())
                if (line.act() == act) found.push_back(line);
            return found.size() >= count;
        })) << act;
        EXPECT_EQ(found.size(), count);
        return found;
    }
    std::string count(const std::string& rows) {
        return database.run("select count(*) from " + rows);
    }

    TestDatabase database;
    ServerProcess server{{database.dsn(), {}, 0, {}}};
    Device desk = Device::at(server, auth::Seat::desk);
};

TEST_F(TournamentCalls, EveryActIsInTheAuditOnceAlsoThoseThatKeptNothing) {
    const v1::ActRequest once = note(0);
    ASSERT_TRUE(act(once).status.ok());
    const auto kept = lines("act", 1);
    EXPECT_FALSE(kept[0].refused());
    EXPECT_EQ(kept[0].device_id(), to_bytes(desk.enrolled.id.value));
    EXPECT_EQ(kept[0].seat(), v1::SEAT_DESK);
    EXPECT_EQ(kept[0].subject(), wire::Uuid::from_bytes(once.facts(0).fact_id())->to_text());
    EXPECT_EQ(kept[0].detail(), "desk 1: note_written") << "without the words beside it";

    v1::ActRequest look = note(1);
    look.set_preview(true);
    ASSERT_EQ(act(look).response.fate(), v1::ActResponse::FATE_KEPT);
    ASSERT_EQ(act(once).response.fate(), v1::ActResponse::FATE_HAD);
    ASSERT_TRUE(act(court(1, "Quay hall")).status.ok());
    ASSERT_EQ(act(court(1, "Harbour hall")).response.fate(), v1::ActResponse::FATE_OVERTAKEN);
    v1::ActRequest nameless = note(2);
    nameless.clear_author();
    const auto refused = act(nameless).status;
    EXPECT_EQ(refused.error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    EXPECT_NE(refused.error_message().find("author"), std::string::npos);

    // A look is no act. The others: refused, overtaken, kept, had, kept.
    const auto all = lines("act", 5);
    std::string kinds;
    for (const v1::AuditLine& line : all) kinds += line.refused() ? 'r' : 'k';
    EXPECT_EQ(std::count(kinds.begin(), kinds.end(), 'k'), 2);
    EXPECT_EQ(count("tournament_fact"), "2");
    for (const v1::AuditLine& line : all)
        if (line.detail().find("overtaken by facts 2 to 2") != std::string::npos) return;
    FAIL() << "the overtaken act does not say what overtook it";
}

TEST_F(TournamentCalls, AnActOrAnErasingWhoseRowCannotBeKeptIsNotDone) {
    ASSERT_TRUE(act(note(0)).status.ok());
    const std::string feed = count("feed");
    v1::EraseWordsResponse erased;
    database.run("alter table audit add constraint closed check (false) not valid");
    EXPECT_FALSE(act(note(1)).status.ok());
    EXPECT_FALSE(erase({1}, erased).ok());
    database.run("alter table audit drop constraint closed");
    EXPECT_EQ(count("tournament_fact"), "1");
    EXPECT_EQ(count("tournament_fact where words is not null"), "1");
    EXPECT_EQ(count("feed"), feed);
    ASSERT_TRUE(act(note(1)).status.ok());
    ASSERT_TRUE(erase({1}, erased).ok());
    EXPECT_EQ(erased.erased(), 1u);
    EXPECT_EQ(count("tournament_fact where words is not null"), "1");
}

TEST_F(TournamentCalls, WordsAreErasedFromTheDatabaseAndTheAuditSaysByWhom) {
    ASSERT_TRUE(act(note(0, "Anna Example")).status.ok());
    RecordWatch watch{desk};
    ASSERT_TRUE(watch.until([](const RecordWatch& w) { return w.facts == 1; }));
    EXPECT_EQ(watch.responses.back().facts(0).beside().text(), "Anna Example");
    v1::EraseWordsResponse erased;
    ASSERT_TRUE(erase({1, 2, 40'000}, erased).ok());
    EXPECT_EQ(erased.erased(), 1u);
    EXPECT_TRUE(erased.has_header());
    ASSERT_TRUE(
        watch.until([](const RecordWatch& w) { return w.responses.back().erased_size() == 1; }));
    EXPECT_EQ(watch.responses.back().erased(0), 1u);
    EXPECT_EQ(count("tournament_fact where words is not null or salt is not null"), "0");
    ASSERT_TRUE(erase({1}, erased).ok());
    EXPECT_EQ(erased.erased(), 0u);
    EXPECT_EQ(erase({}, erased).error_code(), grpc::StatusCode::INVALID_ARGUMENT);
    const auto rows = lines("erase-words", 3);
    EXPECT_TRUE(rows[0].refused());
    EXPECT_EQ(rows[2].subject(), "facts 1, 2, 40000");
    EXPECT_EQ(rows[2].detail(), "desk 1");
    // Nowhere else do the words stand.
    EXPECT_EQ(count("audit where detail like '%Anna%' or subject like '%Anna%'"), "0");
    EXPECT_EQ(count("feed where position('Anna'::bytea in coalesce(bytes, '')) > 0"), "0");
}

TEST_F(TournamentCalls, NamesOfPersonsNeverReachAHeadSeat) {
    ASSERT_TRUE(act(note(0, "Anna Example")).status.ok());
    Device head = Device::at(server, auth::Seat::head);
    RecordWatch watch{head};
    ASSERT_TRUE(watch.until([](const RecordWatch& w) { return w.facts == 1; }));
    ASSERT_TRUE(act(note(1, "Ben Example")).status.ok());
    ASSERT_TRUE(watch.until([](const RecordWatch& w) { return w.facts == 2; }));
    for (const auto& response : watch.responses) {
        EXPECT_EQ(response.SerializeAsString().find("Example"), std::string::npos);
        for (const auto& fact : response.facts()) EXPECT_FALSE(fact.has_beside());
    }
    v1::ListAuditResponse audit;
    ASSERT_TRUE(call(*head.desk, &v1::Desk::Stub::ListAudit, v1::ListAuditRequest{}, audit).ok());
    EXPECT_EQ(audit.SerializeAsString().find("Example"), std::string::npos);
}

TEST_F(TournamentCalls, AWatchGoesOnWhereItEndedAndBeginsAnewInAnotherRecord) {
    ASSERT_TRUE(act(note(0)).status.ok());
    ASSERT_TRUE(act(note(1)).status.ok());
    std::string hash =
        database.run("select encode(hash, 'hex') from tournament_fact where number = 2");
    v1::WatchRecordRequest from;
    from.set_after(2);
    for (std::size_t i = 0; i < hash.size(); i += 2)
        *from.mutable_after_hash() += static_cast<char>(std::stoi(hash.substr(i, 2), nullptr, 16));
    server.kill9();
    server.start_again();
    Device again{server, desk.enrolled};
    {
        RecordWatch watch{again, from};
        ASSERT_TRUE(watch.read());
        EXPECT_FALSE(watch.responses[0].anew());
        EXPECT_EQ(watch.facts, 0u);
        EXPECT_EQ(watch.responses[0].last(), 2u);
        EXPECT_TRUE(watch.responses[0].has_header());
    }
    (*from.mutable_after_hash())[0] ^= 1;
    RecordWatch watch{again, from};
    ASSERT_TRUE(watch.read());
    EXPECT_TRUE(watch.responses[0].anew());
    EXPECT_EQ(watch.facts, 2u);
    from.set_after(0);
    RecordWatch unreadable{again, from};
    EXPECT_EQ(unreadable.finish().error_code(), grpc::StatusCode::INVALID_ARGUMENT);
}

TEST_F(TournamentCalls, AQuietWatchSaysThatTheServerLives) {
    RecordWatch watch{desk};
    ASSERT_TRUE(watch.read());
    ASSERT_TRUE(watch.read()) << "nothing happens, and it is said";
    EXPECT_TRUE(watch.responses[1].has_header());
    EXPECT_EQ(watch.responses[1].last(), 0u);
}

TEST_F(TournamentCalls, TheWatchOfARevokedDeskEndsAndItActsNoMore) {
    Device lost = Device::at(server, auth::Seat::desk);
    RecordWatch watch{lost};
    ASSERT_TRUE(watch.read());
    v1::RevokeDeviceRequest revoke;
    revoke.set_device_id(to_bytes(lost.enrolled.id.value));
    v1::RevokeDeviceResponse revoked;
    ASSERT_TRUE(call(*desk.desk, &v1::Desk::Stub::RevokeDevice, revoke, revoked).ok());
    EXPECT_EQ(watch.finish().error_code(), grpc::StatusCode::UNAUTHENTICATED);
    v1::ActResponse response;
    EXPECT_EQ(call(*lost.tournament, &v1::Tournament::Stub::Act, note(0), response).error_code(),
              grpc::StatusCode::UNAUTHENTICATED);
    EXPECT_EQ(count("tournament_fact"), "0");
}

TEST_F(TournamentCalls, WhatIsKeptAtOneServerIsWatchedAtAnother) {
    const auto second = second_server(server);
    Device head = Device::at(*second, auth::Seat::head);
    RecordWatch watch{head};
    ASSERT_TRUE(watch.read());
    for (std::uint32_t fact = 0; fact < 5; ++fact) {
        ASSERT_TRUE(act(note(fact)).status.ok());
        ASSERT_TRUE(watch.until([&](const RecordWatch& w) { return w.facts == fact + 1; }));
    }
}

TEST_F(TournamentCalls, TheOldestWatchOfASeatGivesWayToTheNinth) {
    std::vector<std::unique_ptr<RecordWatch>> watches;
    for (int i = 0; i < 9; ++i) {
        watches.push_back(std::make_unique<RecordWatch>(desk));
        ASSERT_TRUE(watches.back()->read());
    }
    EXPECT_EQ(watches[0]->finish().error_code(), grpc::StatusCode::RESOURCE_EXHAUSTED);
    ASSERT_TRUE(act(note(0)).status.ok());
    EXPECT_TRUE(watches[8]->until([](const RecordWatch& w) { return w.facts == 1; }));
}

}  // namespace
}  // namespace courthand::server::testing
