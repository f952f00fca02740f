// Every call x seat x court x state of the device, against a real server: one readable table says
// who may what. A call that the table does not name fails the test.
#include <grpcpp/generic/generic_stub.h>
#include <grpcpp/grpcpp.h>
#include <gtest/gtest.h>

#include <functional>
#include <future>
#include <map>
#include <set>

#include "courthand/v1/export.pb.h"
#include "device_kit.h"
#include "wire/message_limits.h"

namespace courthand::server::testing {
namespace {

// What each caller meets, one letter each:
//   +  let in (the call may still fail for what it asks)
//   P  permission denied     U  not authenticated: no certificate, unknown or withdrawn device
//   X  no connection: the certificate is of another authority
//
// The callers, in the order of the letters:
//   t  table of the match's court     o  table of another court    d  desk     h  head official
//   u  table, desk and head of ours that the venue does not know (any more)
//   r  table, desk and head that the desk has withdrawn
//   s  desk of another authority      n  nobody: no certificate
struct Row {
    const char* method;
    const char* what;  ///< which of its forms
    const char* expected;
};

// clang-format off
constexpr Row table[] = {
    //                                                                                       todhursn
    {"courthand.v1.Sync/Push",                                        "head of the match",  "+PPPUUXU"},
    {"courthand.v1.Sync/Push",                                        "entries",            "+PPPUUXU"},
    {"courthand.v1.Sync/Push",                                        "opens it",           "+PPPUUXU"},
    {"courthand.v1.Sync/GrantWriter",                                 "free match",         "+PPPUUXU"},
    {"courthand.v1.Sync/GrantWriter",                                 "take over",          "+PPPUUXU"},
    {"courthand.v1.Sync/Watch",                                       "match",              "+P++UUXU"},
    {"courthand.v1.Sync/Watch",                                       "court",              "+P++UUXU"},
    {"courthand.v1.Sync/FetchMatch",                                  "match",              "+P++UUXU"},
    {"courthand.v1.Sync/FetchMatch",                                  "court",              "+P++UUXU"},

    {"courthand.v1.Venue/WatchBoard",                                 "",                   "PP++UUXU"},
    {"courthand.v1.Venue/Claim",                                      "",                   "PP++UUXU"},
    {"courthand.v1.Venue/Rule",                                       "",                   "PPP+UUXU"},
    {"courthand.v1.Venue/Shelve",                                     "",                   "PP++UUXU"},
    {"courthand.v1.Venue/Acknowledge",                                "",                   "PP++UUXU"},
    {"courthand.v1.Venue/AnswerTakeOver",                             "",                   "PP++UUXU"},
    {"courthand.v1.Venue/ShowFork",                                   "",                   "PP++UUXU"},
    {"courthand.v1.Venue/SettleFork",                                 "",                   "PP++UUXU"},

    {"courthand.v1.Desk/ListMatches",                                 "",                   "PP++UUXU"},
    {"courthand.v1.Desk/ListCourts",                                  "",                   "PP++UUXU"},
    {"courthand.v1.Desk/ListTeams",                                   "",                   "PP++UUXU"},
    {"courthand.v1.Desk/ListResults",                                 "",                   "PP++UUXU"},
    {"courthand.v1.Desk/ListDevices",                                 "",                   "PP++UUXU"},
    {"courthand.v1.Desk/ListAudit",                                   "",                   "PP++UUXU"},
    {"courthand.v1.Desk/ImportRoster",                                "",                   "PP+PUUXU"},
    {"courthand.v1.Desk/CreateMatch",                                 "",                   "PP+PUUXU"},
    {"courthand.v1.Desk/AssignCourt",                                 "",                   "PP+PUUXU"},
    {"courthand.v1.Desk/IssueCode",                                   "",                   "PP+PUUXU"},
    {"courthand.v1.Desk/RevokeDevice",                                "",                   "PP+PUUXU"},

    {"courthand.v1.Tournament/WatchRecord",                           "",                   "PP++UUXU"},
    {"courthand.v1.Tournament/Act",                                   "",                   "PP+PUUXU"},
    {"courthand.v1.Tournament/Act",                                   "preview",            "PP+PUUXU"},
    {"courthand.v1.Tournament/EraseWords",                            "",                   "PP+PUUXU"},
    {"courthand.v1.Export/ExportEvent",                               "",                   "PP+PUUXU"},

    {"courthand.v1.Enrolment/Enrol",                                  "",                   "++++++X+"},

    {"grpc.health.v1.Health/Check",                                   "",                   "++++++X+"},
    {"grpc.health.v1.Health/Watch",                                   "",                   "PPPPUUXU"},

    // Not there unless a developer switches it on; who is let in finds nothing.
    {"grpc.reflection.v1alpha.ServerReflection/ServerReflectionInfo", "",                   "++++UUXU"},
};
// clang-format on

/// Services of the server that are ours.
std::vector<const google::protobuf::FileDescriptor*> our_files() {
    return {v1::PushRequest::descriptor()->file(), v1::WatchBoardRequest::descriptor()->file(),
            v1::Device::descriptor()->file(),      v1::EnrolRequest::descriptor()->file(),
            v1::ActRequest::descriptor()->file(),  v1::ExportEventRequest::descriptor()->file()};
}

TEST(AccessTable, NamesEveryCallOfTheServer) {
    std::set<std::string> named;
    for (const Row& row : table) named.insert(row.method);
    for (const auto* file : our_files())
        for (int i = 0; i < file->service_count(); ++i)
            for (int k = 0; k < file->service(i)->method_count(); ++k) {
                const std::string method =
                    file->service(i)->full_name() + "/" + file->service(i)->method(k)->name();
                EXPECT_TRUE(named.contains(method)) << method << " has no row";
            }
    for (const Row& row : table) EXPECT_EQ(std::string{row.expected}.size(), 8U) << row.method;
}

char letter_of(const grpc::Status& status) {
    static const std::map<grpc::StatusCode, char> letters{
        {grpc::StatusCode::PERMISSION_DENIED, 'P'},
        {grpc::StatusCode::UNAUTHENTICATED, 'U'},
        {grpc::StatusCode::UNAVAILABLE, 'X'},
        {grpc::StatusCode::DEADLINE_EXCEEDED, '?'}};
    const auto found = letters.find(status.error_code());
    return found == letters.end() ? '+' : found->second;
}

/// Without waiting for a connection that never comes.
void sign(grpc::ClientContext& context) {
    context.AddMetadata("courthand-protocol", "1");
    context.set_deadline(std::chrono::system_clock::now() + std::chrono::seconds{60});
}

class AccessMatrix : public ::testing::Test {
  protected:
    AccessMatrix() {
        opened_ = test_match(match_, 1);
        Device first = Device::at(server_, auth::Seat::table, 1);
        push_all(first, TestRecord{match_, first.enrolled.id}, &opened_);
    }

    EnrolledDevice enrolled(auth::Seat seat, auth::CourtNumber court = 0) {
        return enrol_device(server_.dsn(), server_.data(), seat, court);
    }
    std::vector<EnrolledDevice> three_seats(const std::string& sql) {
        std::vector<EnrolledDevice> devices{enrolled(auth::Seat::table, 1),
                                            enrolled(auth::Seat::desk), enrolled(auth::Seat::head)};
        for (const EnrolledDevice& device : devices)
            database_.run(sql + " where device_id = '" + to_text(device.id) + "'");
        return devices;
    }

    template <class Stub, class Request, class Response>
    static grpc::Status unary(Stub& stub,
                              grpc::Status (Stub::*method)(grpc::ClientContext*, const Request&,
                                                           Response*),
                              const Request& request, Response& response) {
        grpc::ClientContext context;
        sign(context);
        return (stub.*method)(&context, request, &response);
    }
    template <class Request, class Response, class Stub>
    static grpc::Status plain(Stub& stub, grpc::Status (Stub::*method)(grpc::ClientContext*,
                                                                       const Request&, Response*)) {
        Response response;
        return unary(stub, method, Request{}, response);
    }
    /// A stream is let in when its first message comes.
    template <class Reader, class Response>
    static grpc::Status first_of(grpc::ClientContext& context, Reader& reader, Response& response) {
        if (reader.Read(&response)) {
            context.TryCancel();
            while (reader.Read(&response)) {
            }
            (void)reader.Finish();
            return grpc::Status::OK;
        }
        return reader.Finish();
    }
    static grpc::Status raw(const std::shared_ptr<grpc::Channel>& channel,
                            const std::string& method, const std::string& bytes = {}) {
        grpc::GenericStub stub{channel};
        grpc::ClientContext context;
        sign(context);
        const grpc::Slice message{bytes};
        const grpc::ByteBuffer request{&message, 1};
        grpc::ByteBuffer response;
        std::promise<grpc::Status> done;
        stub.UnaryCall(&context, "/" + method, grpc::StubOptions{}, &request, &response,
                       [&](grpc::Status status) { done.set_value(std::move(status)); });
        return done.get_future().get();
    }

    v1::PushRequest entries_by(const Device& device) {
        TestRecord record{match_, device.enrolled.id};
        record.add_rallies(1);
        v1::PushRequest request;
        request.set_match_id(match_.to_bytes());
        request.mutable_writer()->set_number(1);
        for (const std::string& bytes : record.bytes()) request.add_entries()->set_data(bytes);
        return request;
    }
    /// An entry that is refused for its court is a call that was refused.
    static grpc::Status pushed(grpc::Status status, const v1::PushResponse& response) {
        if (status.ok() && response.results_size() > 0 &&
            response.results(0).cause() == v1::PushResult::CAUSE_OTHER_COURT)
            return {grpc::StatusCode::PERMISSION_DENIED, "other court"};
        return status;
    }

    grpc::Status push(Device& device, const std::string& what) {
        v1::PushRequest request;
        if (what == "entries") {
            request = entries_by(device);
        } else if (what == "opens it") {
            const wire::Uuid fresh = new_match_id();
            request.set_match_id(fresh.to_bytes());
            *request.mutable_opened_here() = test_match(fresh, 1);
        } else {
            request.set_match_id(match_.to_bytes());
        }
        v1::PushResponse response;
        const auto status = unary(*device.sync, &v1::Sync::Stub::Push, request, response);
        return pushed(status, response);
    }
    grpc::Status grant(Device& device, bool take_over) {
        v1::GrantWriterRequest request;
        request.set_match_id(match_.to_bytes());
        request.set_take_over(take_over);
        v1::GrantWriterResponse response;
        return unary(*device.sync, &v1::Sync::Stub::GrantWriter, request, response);
    }
    grpc::Status watch(Device& device, const std::string& what) {
        v1::WatchRequest request;
        if (what == "match") request.set_match_id(match_.to_bytes());
        if (what == "court") request.set_court(1);
        grpc::ClientContext context;
        sign(context);
        const auto reader = device.sync->Watch(&context, request);
        v1::WatchResponse response;
        return first_of(context, *reader, response);
    }
    grpc::Status fetch(Device& device, const std::string& what) {
        v1::FetchMatchRequest request;
        if (what == "match") request.set_match_id(match_.to_bytes());
        if (what == "court") request.set_court(1);
        v1::FetchMatchResponse response;
        return unary(*device.sync, &v1::Sync::Stub::FetchMatch, request, response);
    }
    grpc::Status watch_board(Device& device) {
        grpc::ClientContext context;
        sign(context);
        const auto reader = device.venue->WatchBoard(&context, {});
        v1::WatchBoardResponse response;
        return first_of(context, *reader, response);
    }
    grpc::Status watch_record(Device& device) {
        grpc::ClientContext context;
        sign(context);
        const auto reader = device.tournament->WatchRecord(&context, {});
        v1::WatchRecordResponse response;
        return first_of(context, *reader, response);
    }
    grpc::Status act(Device& device, bool preview) {
        v1::ActRequest request;
        request.set_author("desk 1");
        request.set_preview(preview);
        v1::ActFact& fact = *request.add_facts();
        fact.set_fact_id(new_match_id().to_bytes());
        fact.mutable_fact()->mutable_note_written();
        v1::ActResponse response;
        return unary(*device.tournament, &v1::Tournament::Stub::Act, request, response);
    }
    grpc::Status enrol(Device& device) {
        const auto stub = v1::Enrolment::NewStub(device.channel);
        v1::EnrolRequest request;
        request.set_protocol_version(1);
        v1::EnrolResponse response;
        const auto status = unary(*stub, &v1::Enrolment::Stub::Enrol, request, response);
        // A code that is none is refused by the handler, which is in.
        EXPECT_FALSE(status.ok());
        const bool reached = status.error_code() != grpc::StatusCode::UNAVAILABLE &&
                             status.error_code() != grpc::StatusCode::UNAUTHENTICATED;
        return reached ? grpc::Status::OK : status;
    }

    grpc::Status make(Device& device, const Row& row) {
        const std::string method = row.method;
        if (method == "courthand.v1.Sync/Push") return push(device, row.what);
        if (method == "courthand.v1.Sync/GrantWriter")
            return grant(device, std::string{row.what} == "take over");
        if (method == "courthand.v1.Sync/Watch") return watch(device, row.what);
        if (method == "courthand.v1.Sync/FetchMatch") return fetch(device, row.what);
        if (method == "courthand.v1.Venue/WatchBoard") return watch_board(device);
        if (method == "courthand.v1.Tournament/WatchRecord") return watch_record(device);
        if (method == "courthand.v1.Tournament/Act")
            return act(device, std::string{row.what} == "preview");
        if (method == "courthand.v1.Enrolment/Enrol") return enrol(device);
        // The rest needs no more than an empty request: it is let in, or not, before it is read.
        return raw(device.channel, method);
    }

    void expect(const Row& row, std::size_t caller, const EnrolledDevice& who,
                const std::string& name) {
        Device device{server_, who};
        const grpc::Status status = make(device, row);
        EXPECT_EQ(letter_of(status), row.expected[caller])
            << row.method << " (" << row.what << ") as " << name << ": " << status.error_code()
            << " " << status.error_message();
    }

    TestDatabase database_;
    ServerProcess server_{{database_.dsn(), {}, 0, {}}};
    wire::Uuid match_ = new_match_id();
    v1::Match opened_;
};

TEST_F(AccessMatrix, EachCallerMayDoWhatItsRowSays) {
    const EnrolledDevice own = enrolled(auth::Seat::table, 1);
    const EnrolledDevice other = enrolled(auth::Seat::table, 2);
    const EnrolledDevice desk = enrolled(auth::Seat::desk);
    const EnrolledDevice head = enrolled(auth::Seat::head);
    const auto unknown = three_seats("delete from device");
    const auto revoked = three_seats("update device set revoked_at = now()");
    TestDatabase elsewhere;
    const ServerProcess another{{elsewhere.dsn(), {}, 0, {}}};
    EnrolledDevice stranger = enrol_device(another.dsn(), another.data(), auth::Seat::desk);
    stranger.authority_pem = authority_of(server_);
    EnrolledDevice nobody = own;
    nobody.key_pem.clear();
    nobody.certificate_pem.clear();

    for (const Row& row : table) {
        expect(row, 0, own, "table of the court");
        expect(row, 1, other, "table of another court");
        expect(row, 2, desk, "desk");
        expect(row, 3, head, "head official");
        for (const EnrolledDevice& device : unknown) expect(row, 4, device, "unknown");
        for (const EnrolledDevice& device : revoked) expect(row, 5, device, "withdrawn");
        expect(row, 6, stranger, "device of another authority");
        expect(row, 7, nobody, "nobody");
    }
}

/// A message of so many bytes that every call can read: a field that none of them knows.
std::string message_of(std::size_t bytes) {
    // Field 1999, of bytes, and a length of four bytes.
    std::string message{"\xfa\x7c", 2};
    std::size_t length = bytes - 6;
    for (int i = 0; i < 3; ++i, length >>= 7)
        message.push_back(static_cast<char>(0x80 | (length & 0x7f)));
    message.push_back(static_cast<char>(length));
    message.resize(bytes, 'x');
    return message;
}

// Beyond `wire::most_read_bytes` gRPC refuses in its own words: push_test.cpp.
TEST_F(AccessMatrix, NoCallReadsAMessageAboveItsLimitAndEachSaysSoWithTheCure) {
    const std::vector<EnrolledDevice> who{enrolled(auth::Seat::table, 1),
                                          enrolled(auth::Seat::table, 2),
                                          enrolled(auth::Seat::desk), enrolled(auth::Seat::head)};
    std::vector<std::unique_ptr<Device>> devices;
    for (const EnrolledDevice& one : who) devices.push_back(std::make_unique<Device>(server_, one));
    const std::string above = message_of(wire::most_message_bytes + 1);
    const std::string most = message_of(wire::most_message_bytes);
    const std::string ours =
        "a message of 4194305 bytes is too large, at most 4194304 are read; send fewer";
    std::set<std::string> asked;
    for (const Row& row : table) {
        const std::string method = row.method;
        if (!method.starts_with("courthand.") || !asked.insert(method).second) continue;
        const auto may = std::string{row.expected}.find('+');
        ASSERT_LT(may, who.size()) << method << ": nobody may";
        const auto& channel = devices[may]->channel;
        const grpc::Status told = raw(channel, method, above);
        EXPECT_EQ(told.error_code(), grpc::StatusCode::INVALID_ARGUMENT) << method;
        EXPECT_EQ(told.error_message().rfind(ours, 0), 0U)
            << method << ": " << told.error_message();
    }
    for (const char* method : {"courthand.v1.Desk/ListCourts", "courthand.v1.Venue/Claim"})
        EXPECT_EQ(raw(devices[2]->channel, method, most).error_message().find("too large"),
                  std::string::npos)
            << method << ", on the same connection";
    EXPECT_TRUE(raw(devices[2]->channel, "courthand.v1.Desk/ListCourts", most).ok());
}

}  // namespace
}  // namespace courthand::server::testing
