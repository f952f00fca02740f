// The desk's one button: every file of the event in a folder of the desk's computer, or nothing.
#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <future>
#include <iterator>

#include "client/sync/channel.h"
#include "courthand/v1/export.grpc.pb.h"
#include "server/testing/enrolled_device.h"
#include "server/testing/server_process.h"
#include "tests/integration/server/filled_event.h"
#include "tests/testkit/eventually.h"
#include "tests/testkit/scratch_folder.h"
#include "venue/export_client.h"
#include "venue/venue_call.h"

namespace courthand::venue {
namespace {

namespace kit = event_file::kit;
using server::testing::ServerProcess;
using server::testing::TestDatabase;
using ServerSeat = server::auth::Seat;

std::string content_of(const std::filesystem::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

/// Filled before a server comes, which takes the tournament that it finds.
struct FilledDatabase : TestDatabase {
    explicit FilledDatabase(const std::string& script) { server::testing::fill(*this, script); }
};

/// More than a network holds by itself while nobody reads: long notes.
std::string long_event() {
    std::string script = kit::small_cup();
    for (int n = 0; n < 1000; ++n) script += "note words \"" + std::string(450, 'x') + "\"\n";
    return script;
}

class ExportClientTest : public ::testing::Test {
  protected:
    [[nodiscard]] std::shared_ptr<grpc::Channel> channel(ServerSeat seat) {
        const auto device = server::testing::enrol_device(database_.dsn(), server_.data(), seat);
        return client::make_channel(server_.address(),
                                    {device.key_pem, device.certificate_pem, device.authority_pem});
    }
    /// One on which little is under way.
    [[nodiscard]] std::shared_ptr<grpc::Channel> narrow_channel() {
        const auto device =
            server::testing::enrol_device(database_.dsn(), server_.data(), ServerSeat::desk);
        grpc::SslCredentialsOptions keys;
        keys.pem_root_certs = device.authority_pem;
        keys.pem_private_key = device.key_pem;
        keys.pem_cert_chain = device.certificate_pem;
        grpc::ChannelArguments narrow;
        narrow.SetInt(GRPC_ARG_HTTP2_BDP_PROBE, 0);
        narrow.SetInt(GRPC_ARG_HTTP2_STREAM_LOOKAHEAD_BYTES, 65536);
        return grpc::CreateCustomChannel(server_.address(), grpc::SslCredentials(keys), narrow);
    }
    [[nodiscard]] Outcome saved(ExportClient& client, const ExportWanted& wanted) {
        std::promise<Outcome> told;
        client.save(
            wanted, [&](const ExportProgress& progress) { so_far = progress; },
            [&](const Outcome& outcome) { told.set_value(outcome); });
        return told.get_future().get();
    }
    [[nodiscard]] std::filesystem::path at(const std::string& name) const {
        return folder_.path() / name;
    }
    [[nodiscard]] std::size_t things_in_folder() const {
        const std::filesystem::directory_iterator all{folder_.path()};
        return static_cast<std::size_t>(std::distance(begin(all), end(all)));
    }

    FilledDatabase database_{long_event()};
    ServerProcess server_{{database_.dsn(), {}, 0, {}}};
    testkit::ScratchFolder folder_;
    ExportProgress so_far;  ///< what the last `saved` was told
};

TEST_F(ExportClientTest, TheDeskGetsTheFilesThatTheProgramWrites) {
    ExportClient desk{channel(ServerSeat::desk)};
    const Outcome outcome = saved(desk, {at("out"), true, "desk 1"});
    ASSERT_TRUE(outcome.done) << outcome.problem;
    const auto command = server::testing::run_server_command(
        {"export", "--database", database_.dsn(), "--to", at("same").string(), "--with-names"});
    ASSERT_EQ(command.exit_code, 0) << command.output;
    ExportProgress there;
    for (const auto& entry : std::filesystem::directory_iterator{at("same")}) {
        const std::string name = entry.path().filename().string();
        EXPECT_TRUE(content_of(at("out") / name) == content_of(entry.path())) << name;
        ++there.files;
        there.bytes += entry.file_size();
    }
    EXPECT_EQ(so_far, there) << "what was told is what is there";
    EXPECT_GT(content_of(at("out") / "event.jsonl").size(), 128U * 1024);
    const event_file::Verdict verdict = kit::verdict_of(content_of(at("out") / "event.jsonl"));
    EXPECT_EQ(verdict.is, event_file::Verdict::Is::whole) << kit::told(verdict);
}

TEST_F(ExportClientTest, WhoAskedStandsInTheAudit) {
    ExportClient desk{channel(ServerSeat::desk)};
    ASSERT_TRUE(saved(desk, {at("out"), false, "desk 1"}).done);
    EXPECT_EQ(content_of(at("out") / "event.jsonl").find("Robin"), std::string::npos);
    EXPECT_EQ(database_.run("select subject || ', ' || detail || ', ' || seat from audit where act "
                            "= 'export-event' and not refused"),
              "desk 1, without names, desk");
}

TEST_F(ExportClientTest, AFolderThatIsThereIsLeftAlone) {
    std::filesystem::create_directory(at("out"));
    std::ofstream{at("out") / "mine.txt"} << "mine";
    ExportClient desk{channel(ServerSeat::desk)};
    const Outcome outcome = saved(desk, {at("out"), false, "desk 1"});
    EXPECT_FALSE(outcome.done);
    EXPECT_NE(outcome.problem.find("name another folder. Nothing was saved."), std::string::npos)
        << outcome.problem;
    EXPECT_EQ(things_in_folder(), 1U);
}

TEST_F(ExportClientTest, NobodyButADeskGetsAnything) {
    ExportClient head{channel(ServerSeat::head)};
    const Outcome outcome = saved(head, {at("out"), false, "chief"});
    EXPECT_FALSE(outcome.done);
    EXPECT_FALSE(outcome.problem.empty());
    EXPECT_EQ(things_in_folder(), 0U);
}

TEST_F(ExportClientTest, WhoDoesNotSayWhoAsksIsToldSo) {
    ExportClient desk{channel(ServerSeat::desk)};
    const Outcome outcome = saved(desk, {at("out"), false, ""});
    EXPECT_NE(outcome.problem.find("does not say who asks"), std::string::npos) << outcome.problem;
    EXPECT_EQ(things_in_folder(), 0U);
}

/// A desk that does not read holds the turn; nobody else fills the memory of the server meanwhile.
TEST_F(ExportClientTest, OneExportIsUnderWayAtATimeAndComesInSmallPieces) {
    const auto stub = v1::Export::NewStub(narrow_channel());
    v1::ExportEventRequest request;
    request.set_author("desk 2");
    grpc::ClientContext context;
    sign_call(context);
    const auto stream = stub->ExportEvent(&context, request);
    v1::ExportEventResponse piece;
    ASSERT_TRUE(stream->Read(&piece));
    EXPECT_TRUE(piece.has_header());
    EXPECT_EQ(piece.file(), "event.jsonl");

    ExportClient desk{channel(ServerSeat::desk)};
    const Outcome busy = saved(desk, {at("out"), false, "desk 1"});
    EXPECT_NE(busy.problem.find("another desk is exporting the event"), std::string::npos)
        << busy.problem;
    EXPECT_EQ(things_in_folder(), 0U);

    std::size_t size = 0;
    do {
        EXPECT_LE(piece.data().size(), 65536U);
        size += piece.data().size();
    } while (!piece.complete() && stream->Read(&piece));
    EXPECT_TRUE(piece.complete());
    EXPECT_GT(size, 128U * 1024);
    EXPECT_FALSE(stream->Read(&piece));
    EXPECT_TRUE(stream->Finish().ok());
    EXPECT_TRUE(testkit::eventually([&] {
        return saved(desk, {at("out"), false, "desk 1"}).done;
    }));
}

TEST_F(ExportClientTest, WithoutAServerNothingIsLeft) {
    ExportClient desk{channel(ServerSeat::desk)};
    server_.kill9();
    const Outcome outcome = saved(desk, {at("out"), false, "desk 1"});
    EXPECT_FALSE(outcome.done);
    EXPECT_EQ(things_in_folder(), 0U);
}

}  // namespace
}  // namespace courthand::venue
