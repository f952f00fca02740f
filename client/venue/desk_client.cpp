#include "venue/desk_client.h"

#include <grpcpp/grpcpp.h>

#include <condition_variable>
#include <mutex>
#include <thread>

#include "courthand/v1/desk.grpc.pb.h"
#include "venue/board_message.h"
#include "venue/call_line.h"
#include "venue/desk_message.h"
#include "venue/open_calls.h"
#include "venue/venue_call.h"

namespace courthand::venue {

namespace {

// The book changes by what the desk itself does; the rest (results, who was seen) may be this old.
constexpr std::chrono::seconds read_every{2};
constexpr std::chrono::seconds call_deadline{8};
// A server that has not answered by then is called lost, and the next try begins.
constexpr std::chrono::seconds connect_time{3};
// A roster file of 1 MiB on a slow link.
constexpr std::chrono::seconds import_deadline{60};
constexpr const char* crowded = "Too many requests wait already; try again in a moment.";

}  // namespace

struct DeskClient::Parts {
    explicit Parts(std::shared_ptr<grpc::Channel> to_server)
        : channel(std::move(to_server)), stub(v1::Desk::NewStub(channel)) {}

    template <class Request, class Response>
    using Method = grpc::Status (v1::Desk::Stub::*)(grpc::ClientContext*, const Request&,
                                                    Response*);

    /// Makes one call; it ends early when the client is stopped.
    template <class Request, class Response>
    grpc::Status ask(const Request& request, Method<Request, Response> method, Response& response,
                     std::chrono::seconds deadline = call_deadline);
    /// As `ask`, on the calling thread of its own; reads the book again when it was done.
    template <class Request, class Response>
    void act(Request request, Method<Request, Response> method, Answer answer);
    /// What a person is told of an act that has failed; empty: it was done.
    template <class Request, class Response>
    std::string do_act(const Request& request, Method<Request, Response> method, Response& response,
                       std::chrono::seconds deadline = call_deadline);
    void read_book();
    [[nodiscard]] bool given_up();
    grpc::Status fill(DeskBook& book);
    void read_now();
    void tell(Link link);

    std::shared_ptr<grpc::Channel> channel;
    std::unique_ptr<v1::Desk::Stub> stub;
    std::mutex mutex;
    std::condition_variable news;
    bool stopped = false;  ///< guarded by mutex
    bool wanted = false;   ///< guarded by mutex; the book should be read at once
    Listener listener;     ///< guarded by mutex
    Link link;             ///< guarded by mutex
    std::thread reader;
    OpenCalls open_calls;
    std::unique_ptr<CallLine> calls;
};

template <class Request, class Response>
grpc::Status DeskClient::Parts::ask(const Request& request, Method<Request, Response> method,
                                    Response& response, std::chrono::seconds deadline) {
    grpc::ClientContext context;
    sign_call(context);
    context.set_deadline(std::chrono::system_clock::now() + deadline);
    const OpenCalls::Call open(open_calls, context);
    return (stub.get()->*method)(&context, request, &response);
}

template <class Request, class Response>
std::string DeskClient::Parts::do_act(const Request& request, Method<Request, Response> method,
                                      Response& response, std::chrono::seconds deadline) {
    if (!reached(*channel, connect_time, [this] { return given_up(); })) return not_sent;
    const auto status = ask(request, method, response, deadline);
    return status.ok() ? std::string{} : act_failure_words(status);
}

template <class Request, class Response>
void DeskClient::Parts::act(Request request, Method<Request, Response> method, Answer answer) {
    const auto work = [this, request = std::move(request), method, answer] {
        Response response;
        std::string failed = do_act(request, method, response);
        answer(failed.empty() ? Outcome::ok() : Outcome::refused(std::move(failed)));
        read_now();
    };
    if (!calls || !calls->add(work)) answer(Outcome::refused(crowded));
}

void DeskClient::Parts::read_now() {
    {
        const std::scoped_lock lock{mutex};
        wanted = true;
    }
    news.notify_all();
}

void DeskClient::Parts::tell(Link state) {
    const std::scoped_lock lock{mutex};
    if (stopped || state == link) return;
    link = std::move(state);
    if (listener.link) listener.link(link);
}

grpc::Status DeskClient::Parts::fill(DeskBook& book) {
    v1::ListMatchesResponse matches;
    auto status = ask(v1::ListMatchesRequest{}, &v1::Desk::Stub::ListMatches, matches);
    if (!status.ok()) return status;
    v1::ListCourtsResponse courts;
    status = ask(v1::ListCourtsRequest{}, &v1::Desk::Stub::ListCourts, courts);
    if (!status.ok()) return status;
    v1::ListTeamsResponse teams;
    status = ask(v1::ListTeamsRequest{}, &v1::Desk::Stub::ListTeams, teams);
    if (!status.ok()) return status;
    v1::ListResultsResponse results;
    status = ask(v1::ListResultsRequest{}, &v1::Desk::Stub::ListResults, results);
    if (!status.ok()) return status;
    v1::ListDevicesResponse devices;
    status = ask(v1::ListDevicesRequest{}, &v1::Desk::Stub::ListDevices, devices);
    if (!status.ok()) return status;
    for (const auto& each : matches.matches()) book.matches.push_back(match_of(each));
    for (const auto& each : courts.courts()) book.courts.push_back(court_of(each));
    for (const auto& each : teams.teams()) book.teams.push_back(team_of(each));
    for (const auto& each : results.results()) book.results.push_back(result_of(each));
    for (const auto& each : devices.devices()) book.devices.push_back(device_of(each));
    book.as_of = moment_of_us(devices.header().server_time_us());
    return status;
}

bool DeskClient::Parts::given_up() {
    const std::scoped_lock lock{mutex};
    return stopped;
}

void DeskClient::Parts::read_book() {
    while (true) {
        DeskBook book;
        const bool there = reached(*channel, connect_time, [this] { return given_up(); });
        const auto status =
            there ? fill(book) : grpc::Status(grpc::StatusCode::UNAVAILABLE, "not reached");
        if (status.ok()) {
            tell({LinkState::live, {}});
            const std::scoped_lock lock{mutex};
            if (!stopped && listener.book) listener.book(book);
        } else {
            tell({final_refusal(status) ? LinkState::refused : LinkState::lost,
                  failure_words(status)});
        }
        std::unique_lock guard{mutex};
        news.wait_for(guard, read_every, [this] { return stopped || wanted; });
        if (stopped) return;
        wanted = false;
    }
}

DeskClient::DeskClient(std::shared_ptr<grpc::Channel> channel)
    : parts_(std::make_unique<Parts>(std::move(channel))) {}

DeskClient::~DeskClient() {
    stop();
}

void DeskClient::start(Listener listener) {
    {
        const std::scoped_lock lock{parts_->mutex};
        parts_->listener = std::move(listener);
        parts_->stopped = false;
    }
    parts_->open_calls.open();
    parts_->calls = std::make_unique<CallLine>();
    parts_->reader = std::thread([this] { parts_->read_book(); });
}

void DeskClient::stop() {
    {
        const std::scoped_lock lock{parts_->mutex};
        parts_->stopped = true;
        parts_->listener = {};
    }
    parts_->news.notify_all();
    parts_->open_calls.close();
    if (parts_->reader.joinable()) parts_->reader.join();
    parts_->calls.reset();
}

void DeskClient::read_roster(const RosterText& file, bool keep, ReadingAnswer answer) {
    v1::ImportRosterRequest request;
    request.set_csv(file.csv);
    request.set_file_name(file.file_name);
    request.set_reason(file.reason);
    request.set_dry_run(!keep);
    const auto work = [this, request = std::move(request), answer] {
        v1::ImportRosterResponse response;
        std::string failed;
        if (request.dry_run()) {
            const auto status =
                parts_->ask(request, &v1::Desk::Stub::ImportRoster, response, import_deadline);
            if (!status.ok()) failed = failure_words(status);
        } else {
            failed =
                parts_->do_act(request, &v1::Desk::Stub::ImportRoster, response, import_deadline);
        }
        RosterReading reading = reading_of(response);
        reading.failed = std::move(failed);
        answer(reading);
        parts_->read_now();
    };
    if (parts_->calls && parts_->calls->add(work)) return;
    RosterReading reading;
    reading.failed = crowded;
    answer(reading);
}

void DeskClient::create_match(const MatchWanted& match, Answer answer) {
    v1::CreateMatchRequest request;
    request.set_match_id(bytes_of_id(match.match_id));
    request.set_first_team_id(bytes_of_id(match.first_team));
    request.set_second_team_id(bytes_of_id(match.second_team));
    request.set_court(match.court);
    request.set_profile_id(match.profile);
    parts_->act(std::move(request), &v1::Desk::Stub::CreateMatch, std::move(answer));
}

void DeskClient::assign_court(const Id& match_id, CourtNumber court, Answer answer) {
    v1::AssignCourtRequest request;
    request.set_match_id(bytes_of_id(match_id));
    request.set_court(court);
    parts_->act(std::move(request), &v1::Desk::Stub::AssignCourt, std::move(answer));
}

void DeskClient::issue_code(Seat seat, CourtNumber court, CodeAnswer answer) {
    v1::IssueCodeRequest request;
    request.set_seat(seat_of(seat));
    request.set_court(court);
    const auto work = [this, request = std::move(request), answer] {
        v1::IssueCodeResponse response;
        CodeIssued code;
        code.failed = parts_->do_act(request, &v1::Desk::Stub::IssueCode, response);
        if (code.failed.empty()) {
            code.text = response.code();
            code.expires = moment_of_us(response.expires_us());
        }
        answer(code);
    };
    if (parts_->calls && parts_->calls->add(work)) return;
    CodeIssued code;
    code.failed = crowded;
    answer(code);
}

void DeskClient::revoke_device(const Id& device_id, const std::string& reason, Answer answer) {
    v1::RevokeDeviceRequest request;
    request.set_device_id(bytes_of_id(device_id));
    request.set_reason(reason);
    parts_->act(std::move(request), &v1::Desk::Stub::RevokeDevice, std::move(answer));
}

void DeskClient::read_audit(std::uint64_t before, AuditAnswer answer) {
    v1::ListAuditRequest request;
    request.set_before(before);
    request.set_most(static_cast<std::uint32_t>(audit_page));
    const auto work = [this, request = std::move(request), answer] {
        v1::ListAuditResponse response;
        const auto status = parts_->ask(request, &v1::Desk::Stub::ListAudit, response);
        AuditPage page;
        if (!status.ok()) page.failed = failure_words(status);
        for (const auto& line : response.lines()) page.lines.push_back(audit_of(line));
        page.more = page.lines.size() == audit_page;
        answer(page);
    };
    if (parts_->calls && parts_->calls->add(work)) return;
    AuditPage page;
    page.failed = crowded;
    answer(page);
}

}  // namespace courthand::venue
