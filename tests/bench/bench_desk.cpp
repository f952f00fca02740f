#include "tests/bench/bench_desk.h"

#include <grpcpp/grpcpp.h>

#include <chrono>
#include <stdexcept>

#include "server/testing/test_record.h"
#include "tests/bench/match_pool.h"
#include "tests/bench/secure_channel.h"

#include <fmt/format.h>

namespace courthand::bench {
namespace {

constexpr std::chrono::seconds call_lasts{60};

template <class Request, class Response>
using Method = grpc::Status (v1::Desk::Stub::*)(grpc::ClientContext*, const Request&, Response*);

template <class Request, class Response>
Response ask(v1::Desk::Stub& stub, Method<Request, Response> method, const Request& request) {
    grpc::ClientContext context;
    prepare(context);
    context.set_deadline(std::chrono::system_clock::now() + call_lasts);
    Response response;
    const grpc::Status status = (stub.*method)(&context, request, &response);
    if (!status.ok()) throw std::runtime_error{"desk: " + status.error_message()};
    return response;
}

std::string team_lists() {
    constexpr int listed = 12;
    std::string csv = "team;number;captain;libero\n";
    for (const char* const team : {"Harbour Lights", "Mill Lane"})
        for (int number = 1; number <= listed; ++number)
            csv += fmt::format("{};{};{};\n", team, number, number == 1 ? "x" : "");
    return csv;
}

}  // namespace

BenchDesk::BenchDesk(const std::string& address, const server::testing::EnrolledDevice& device)
    : stub_{v1::Desk::NewStub(secure_channel(address, device))} {
    v1::ImportRosterRequest request;
    request.set_csv(team_lists());
    const auto response = ask(*stub_, &v1::Desk::Stub::ImportRoster, request);
    if (response.teams_size() != 2 || !response.kept())
        throw std::runtime_error{"desk: the team lists were not kept"};
    first_team_ = response.teams(0).team_id();
    second_team_ = response.teams(1).team_id();
}

wire::Uuid BenchDesk::plan(std::uint32_t court) {
    const wire::Uuid match = server::testing::new_match_id();
    v1::CreateMatchRequest request;
    request.set_match_id(match.to_bytes());
    request.set_first_team_id(first_team_);
    request.set_second_team_id(second_team_);
    request.set_court(court);
    request.set_profile_id(measured_profile);
    (void)ask(*stub_, &v1::Desk::Stub::CreateMatch, request);
    return match;
}

void BenchDesk::read_lists() {
    (void)ask(*stub_, &v1::Desk::Stub::ListMatches, v1::ListMatchesRequest{});
    (void)ask(*stub_, &v1::Desk::Stub::ListCourts, v1::ListCourtsRequest{});
    (void)ask(*stub_, &v1::Desk::Stub::ListTeams, v1::ListTeamsRequest{});
    (void)ask(*stub_, &v1::Desk::Stub::ListResults, v1::ListResultsRequest{});
    (void)ask(*stub_, &v1::Desk::Stub::ListDevices, v1::ListDevicesRequest{});
}

}  // namespace courthand::bench
