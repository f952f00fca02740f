// A server that keeps the connection alive and says nothing any more: the signs of life of the
// board's stream count, on a clock that nobody can set back.
#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <string>
#include <vector>

#include "courthand/v1/venue.grpc.pb.h"
#include "tests/testkit/eventually.h"
#include "venue/board_client.h"

namespace courthand::venue {
namespace {

using testkit::eventually;
using namespace std::chrono_literals;

/// A board that says a word when it is told to.
class TalkingServer final : public v1::Venue::Service {
  public:
    TalkingServer() {
        grpc::ServerBuilder builder;
        builder.AddListeningPort("127.0.0.1:0", grpc::InsecureServerCredentials(), &port_);
        builder.RegisterService(this);
        server_ = builder.BuildAndStart();
    }
    ~TalkingServer() override { server_->Shutdown(std::chrono::system_clock::now()); }

    grpc::Status WatchBoard(grpc::ServerContext* context, const v1::WatchBoardRequest* request,
                            grpc::ServerWriter<v1::WatchBoardResponse>* writer) override {
        int said = 0;
        {
            const std::scoped_lock lock{mutex_};
            cursors_.push_back(request->cursor());
            said = words_;
        }
        v1::WatchBoardResponse response;
        response.set_snapshot(true);
        response.set_cursor(cursor(said));
        writer->Write(response);
        response.set_snapshot(false);
        while (!context->IsCancelled()) {
            std::unique_lock guard{mutex_};
            news_.wait_for(guard, 10ms, [&] { return words_ > said; });
            if (words_ == said) continue;
            response.set_cursor(cursor(++said));
            guard.unlock();
            writer->Write(response);
        }
        return grpc::Status::CANCELLED;
    }
    /// One sign of life, with nothing new in it.
    void say_something() {
        {
            const std::scoped_lock lock{mutex_};
            ++words_;
        }
        news_.notify_all();
    }
    /// The cursors with which watches began.
    [[nodiscard]] std::vector<std::string> cursors() {
        const std::scoped_lock lock{mutex_};
        return cursors_;
    }
    [[nodiscard]] std::shared_ptr<grpc::Channel> channel() const {
        return grpc::CreateChannel("127.0.0.1:" + std::to_string(port_),
                                   grpc::InsecureChannelCredentials());
    }

  private:
    static std::string cursor(int said) { return "c" + std::to_string(said); }

    int port_ = 0;
    std::mutex mutex_;
    std::condition_variable news_;
    int words_ = 0;
    std::vector<std::string> cursors_;
    std::unique_ptr<grpc::Server> server_;
};

TEST(BoardSilence, SignsOfLifeAreCountedAndTheirAbsenceIsNoticed) {
    TalkingServer server;
    std::atomic<std::int64_t> time_ms{1'000'000};
    std::atomic<int> boards{0};
    std::mutex mutex;
    std::vector<LinkState> links;
    BoardClient::Options options;
    options.seed = 7;
    options.now = [&] {
        return BoardClient::Clock::time_point{std::chrono::milliseconds{time_ms.load()}};
    };
    BoardClient client{server.channel(), "Chief", options};
    client.start({[&](const Board&) { ++boards; },
                  [&](const Link& link) {
                      const std::scoped_lock lock{mutex};
                      links.push_back(link.state);
                  }});
    ASSERT_TRUE(eventually([&] { return boards == 1; }));
    // Half a minute, in which nothing happens but that the server lives.
    for (int i = 1; i <= 6; ++i) {
        time_ms += 5000;
        server.say_something();
        ASSERT_TRUE(eventually([&] { return boards == 1 + i; }));
    }
    EXPECT_EQ(server.cursors().size(), 1U) << "a server that lives was taken for dead";
    time_ms += 15'000;
    ASSERT_TRUE(eventually([&] { return server.cursors().size() == 2; })) << "nobody noticed";
    EXPECT_EQ(server.cursors()[1], "c6") << "it goes on from the last sign of life";
    ASSERT_TRUE(eventually([&] { return boards >= 8; }));
    client.stop();
    const std::scoped_lock lock{mutex};
    EXPECT_EQ(links, (std::vector<LinkState>{LinkState::live, LinkState::lost, LinkState::live}));
}

TEST(BoardSilence, ADeadServerIsNoticedWithinFifteenSeconds) {
    const BoardClient::Options options;
    EXPECT_LE(options.longest_silence + 1s, 15s);
    EXPECT_GT(options.longest_silence, 10s) << "two signs of life may be missed";
}

}  // namespace
}  // namespace courthand::venue
