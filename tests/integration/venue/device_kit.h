// Devices as the venue sees them: enrolled through the server's own service, each with its own
// certificate and connection.
#pragma once

#include <grpcpp/grpcpp.h>

#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "courthand/v1/desk.grpc.pb.h"
#include "courthand/v1/enrolment.grpc.pb.h"
#include "courthand/v1/sync.grpc.pb.h"
#include "courthand/v1/tournament_service.grpc.pb.h"
#include "courthand/v1/venue.grpc.pb.h"
#include "server/auth/caller.h"
#include "server/testing/enrolled_device.h"
#include "server/testing/server_process.h"
#include "server/testing/test_database.h"
#include "server/testing/test_record.h"

namespace courthand::server::testing {

/// Metadata and a deadline that only ends a test that has failed.
void prepare(grpc::ClientContext& context);

/// A connection of its own; without a certificate when `device` is null.
[[nodiscard]] std::shared_ptr<grpc::Channel> connect(const std::string& address,
                                                     const std::string& authority_pem,
                                                     const EnrolledDevice* device = nullptr);

/// A new key and the request for a certificate.
struct KeyAndRequest {
    std::string key_pem;
    std::string request_pem;
};
[[nodiscard]] KeyAndRequest new_key_and_request();

/// The certificate of the authority in a server's data folder.
[[nodiscard]] std::string authority_of(const ServerProcess& server);

/// One device with its stubs.
class Device {
  public:
    Device(const ServerProcess& server, EnrolledDevice device);
    /// Enrolled with the venue's authority directly.
    static Device at(const ServerProcess& server, auth::Seat seat, auth::CourtNumber court = 0);

    EnrolledDevice enrolled;
    std::shared_ptr<grpc::Channel> channel;
    std::unique_ptr<v1::Sync::Stub> sync;
    std::unique_ptr<v1::Venue::Stub> venue;
    std::unique_ptr<v1::Desk::Stub> desk;
    std::unique_ptr<v1::Tournament::Stub> tournament;
};

/// One unary call with metadata and deadline.
template <class Stub, class Request, class Response>
grpc::Status call(Stub& stub,
                  grpc::Status (Stub::*method)(grpc::ClientContext*, const Request&, Response*),
                  const Request& request, Response& response) {
    grpc::ClientContext context;
    prepare(context);
    return (stub.*method)(&context, request, &response);
}

/// The facts of a match script as a record of the match, written by the device.
[[nodiscard]] TestRecord record_of(std::string_view script, const wire::Uuid& match,
                                   DeviceId device);
/// Appends the facts of further script lines. The script must be whole; facts already in the
/// record are skipped.
void go_on(TestRecord& record, std::string_view whole_script);

/// Pushes what the record has, as a table does; the status and the results must be good.
void push_all(Device& table, const TestRecord& record, const v1::Match* opened_here = nullptr);

/// A board watched from a head seat; holds what it was sent.
class BoardWatch {
  public:
    explicit BoardWatch(Device& device, std::string cursor = {});
    ~BoardWatch();

    /// Reads until the condition holds on the board; false when the stream ended first.
    template <class Condition>
    bool until(Condition condition) {
        while (!condition(*this))
            if (!read()) return false;
        return true;
    }
    bool read();
    grpc::Status finish();

    [[nodiscard]] const v1::Alert* alert(const std::string& code) const;
    [[nodiscard]] const v1::CourtCard* card(std::uint32_t court) const;

    std::map<std::uint32_t, v1::CourtCard> cards;
    std::map<std::string, v1::Alert> alerts;
    std::string cursor;
    int snapshots = 0;

  private:
    grpc::ClientContext context_;
    std::unique_ptr<grpc::ClientReader<v1::WatchBoardResponse>> reader_;
};

}  // namespace courthand::server::testing
