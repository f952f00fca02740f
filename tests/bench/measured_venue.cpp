#include "tests/bench/measured_venue.h"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "courthand/rules/profile.h"

namespace courthand::bench {

using server::auth::Seat;
using server::testing::EnrolledDevice;
using server::testing::TestRecord;

MeasuredVenue::MeasuredVenue()
    : process_{{database_.dsn(), {}, 0, {}}},
      head_{server::testing::enrol_device(database_.dsn(), process_.data(), Seat::head)} {}

PlayedMatch MeasuredVenue::next_played(std::size_t least_entries) {
    const Rules& rules = find_profile("international-2025")->rules;
    PlayedMatch match;
    while (match.size() < least_entries) match = played_match(rules, ++seed_);
    return match;
}

MeasuredTable MeasuredVenue::new_table() {
    ++courts_;
    return {server::testing::enrol_device(database_.dsn(), process_.data(), Seat::table,
                                          static_cast<server::auth::CourtNumber>(courts_)),
            courts_};
}

TestRecord MeasuredVenue::open_match(const MeasuredTable& table, std::size_t least_entries) {
    TestRecord record{server::testing::new_match_id(), table.device.id};
    for (const Entry& entry : next_played(least_entries)) record.add(entry.fact);
    v1::PushRequest request;
    request.set_match_id(record.match().to_bytes());
    request.mutable_writer()->set_number(1);
    *request.mutable_opened_here() = server::testing::test_match(record.match(), table.court);
    grpc::ClientContext context;
    prepare(context);
    v1::PushResponse response;
    const auto stub = v1::Sync::NewStub(secure_channel(address(), table.device));
    const grpc::Status status = stub->Push(&context, request, &response);
    if (!status.ok()) throw std::runtime_error{status.error_message()};
    return record;
}

MeasuredMatch MeasuredVenue::new_match() {
    MeasuredTable table = new_table();
    TestRecord record = open_match(table, least_match_entries);
    return {std::move(record), std::move(table.device)};
}

EntrySender::EntrySender(const std::string& address, const EnrolledDevice& device)
    : stub_{v1::Sync::NewStub(secure_channel(address, device))} {}

bool EntrySender::send(const std::string& match_id, const std::string& entry) {
    v1::PushRequest request;
    request.set_match_id(match_id);
    request.mutable_writer()->set_number(1);
    request.add_entries()->set_data(entry);
    return send(request);
}

bool EntrySender::send(const v1::PushRequest& request) {
    grpc::ClientContext context;
    prepare(context);
    v1::PushResponse response;
    return stub_->Push(&context, request, &response).ok() && all_appended(request, response);
}

bool all_appended(const v1::PushRequest& request, const v1::PushResponse& response) {
    const auto appended = [](const v1::PushResult& result) {
        return result.outcome() == v1::PushResult::OUTCOME_APPENDED;
    };
    return response.results_size() == request.entries_size() &&
           std::all_of(response.results().begin(), response.results().end(), appended);
}

BoardWatch::BoardWatch(const MeasuredVenue& venue)
    : stub_{v1::Venue::NewStub(secure_channel(venue.address(), venue.head()))} {
    prepare(context_);
    reader_ = stub_->WatchBoard(&context_, v1::WatchBoardRequest{});
    thread_ = std::thread{[this] { run(); }};
}

BoardWatch::~BoardWatch() {
    context_.TryCancel();
    thread_.join();
    (void)reader_->Finish();
}

void BoardWatch::run() {
    v1::WatchBoardResponse response;
    while (reader_->Read(&response)) {
        const auto now = Clock::now();
        const std::scoped_lock lock{mutex_};
        for (const v1::CourtCard& card : response.cards()) {
            if (card.match_id() != match_id_ || seq_ == 0 || card.head_seq() < seq_) continue;
            at_ = now;
            seq_ = 0;
            wake_.notify_one();
        }
    }
}

void BoardWatch::expect(const std::string& match_id, std::uint32_t seq) {
    const std::scoped_lock lock{mutex_};
    match_id_ = match_id;
    seq_ = seq;
}

std::optional<BoardWatch::Clock::time_point> BoardWatch::shown() {
    constexpr std::chrono::seconds patience{10};
    std::unique_lock lock{mutex_};
    if (!wake_.wait_for(lock, patience, [this] { return seq_ == 0; })) return std::nullopt;
    return at_;
}

}  // namespace courthand::bench
