#include "tests/bench/load_table.h"

#include <algorithm>

#include "tests/bench/secure_channel.h"
#include "wire/message_limits.h"

namespace courthand::bench {
namespace {

using server::testing::TestRecord;

/// As a table's program waits for an answer.
constexpr std::chrono::seconds call_lasts{10};
/// The desk has not planned the next match yet, or the server not yet seen the end of the last.
constexpr std::chrono::milliseconds look_again_after{500};

std::string kind_of(const char* call, const grpc::Status& status) {
    return std::string{call} + ": " + status.error_message();
}

}  // namespace

/// One call with what must live until its answer.
template <class Request, class Response>
struct LoadTable::Call {
    Call() {
        prepare(context);
        context.set_deadline(std::chrono::system_clock::now() + call_lasts);
    }
    grpc::ClientContext context;
    Request request;
    Response response;
};

LoadTable::LoadTable(LoadVenue& venue, const server::testing::EnrolledDevice& device,
                     std::uint32_t court)
    : venue_{venue},
      device_{device},
      court_{court},
      stub_{v1::Sync::NewStub(secure_channel(venue.address, device))},
      dice_{court} {}

void LoadTable::start() {
    const std::scoped_lock lock{mutex_};
    open_watch();
    look_for_match();
    venue_.timetable.after(gap(), [this] { tick(); });
}

void LoadTable::end_play() {
    const std::scoped_lock lock{mutex_};
    play_ended_ = true;
}

void LoadTable::stop() {
    std::unique_lock lock{mutex_};
    stopping_ = true;
    if (watch_ != nullptr) watch_->cancel();
    if (under_way_ != nullptr) under_way_->TryCancel();
    ended_.wait(lock, [this] { return watch_ == nullptr && under_way_ == nullptr; });
}

bool LoadTable::playing() const {
    const std::scoped_lock lock{mutex_};
    return playing_;
}

std::size_t LoadTable::waiting() const {
    const std::scoped_lock lock{mutex_};
    return record_ ? record_->size() - acknowledged_ : 0;
}

TableTally LoadTable::tally() const {
    const std::scoped_lock lock{mutex_};
    return tally_;
}

/// People are no clocks: from half the pace to half as much again.
LoadTable::Clock::duration LoadTable::gap() {
    const double part = 0.5 + static_cast<double>(dice_.below(1001)) / 1000;
    return std::chrono::duration_cast<Clock::duration>(venue_.pace * part);
}

void LoadTable::tick() {
    const std::scoped_lock lock{mutex_};
    if (stopping_) return;
    if (playing_ && !play_ended_ && record_ && record_->size() < play_->size())
        make_entry(venue_.measuring);
    go_on();
    venue_.timetable.after(gap(), [this] { tick(); });
}

void LoadTable::make_entry(bool measured) {
    const auto now = Clock::now();
    const std::uint32_t seq = record_->add((*play_)[record_->size()].fact);
    made_at_.push_back(measured ? now : Clock::time_point{});
    if (measured) venue_.sightings.made(court_, record_->match().to_bytes(), seq, now);
}

/// The next call, when none is under way.
void LoadTable::go_on() {
    if (stopping_ || under_way_ != nullptr || !record_) return;
    if (acknowledged_ < record_->size()) push();
}

void LoadTable::try_again() {
    venue_.timetable.after(try_again_after, [this] {
        const std::scoped_lock lock{mutex_};
        if (stopping_ || under_way_ != nullptr) return;
        if (record_)
            go_on();
        else
            look_for_match();
    });
}

void LoadTable::open_watch() {
    v1::WatchRequest request;
    request.set_court(court_);
    const auto ended = [this](const grpc::Status& status) {
        const std::scoped_lock lock{mutex_};
        watch_ = nullptr;
        ended_.notify_all();
        if (stopping_) return;
        venue_.faults.add(kind_of("watch ended", status));
        venue_.timetable.after(try_again_after, [this] {
            const std::scoped_lock again{mutex_};
            if (!stopping_) open_watch();
        });
    };
    watch_ = new Watch{request,
                       {[](const v1::WatchResponse&) {}, ended},
                       [this](auto* context, auto* what, auto* reader) {
                           stub_->async()->Watch(context, what, reader);
                       }};
}

void LoadTable::look_for_match() {
    auto call = std::make_shared<Call<v1::FetchMatchRequest, v1::FetchMatchResponse>>();
    call->request.set_court(court_);
    // Only the sheet is wanted: the record is made here.
    call->request.set_after_seq(UINT32_MAX);
    under_way_ = &call->context;
    stub_->async()->FetchMatch(&call->context, &call->request, &call->response,
                               [this, call](const grpc::Status& status) {
                                   const std::scoped_lock lock{mutex_};
                                   under_way_ = nullptr;
                                   ended_.notify_all();
                                   if (!stopping_) found(status, call->response);
                               });
}

void LoadTable::found(const grpc::Status& status, const v1::FetchMatchResponse& response) {
    if (!status.ok()) {
        venue_.faults.add(kind_of("fetch", status));
        return try_again();
    }
    const std::string& id = response.match().match_id();
    const auto match = wire::Uuid::from_bytes(id);
    if (response.has_match() && match && id != finished_match_ && response.head_seq() == 0)
        return begin(*match);
    venue_.timetable.after(look_again_after, [this] {
        const std::scoped_lock lock{mutex_};
        if (!stopping_ && under_way_ == nullptr && !record_) look_for_match();
    });
}

void LoadTable::begin(const wire::Uuid& match) {
    play_ = &venue_.matches.match(dice_.below(MatchPool::usual));
    record_.emplace(match, device_.id);
    made_at_.clear();
    acknowledged_ = 0;
    if (playing_) return;
    // What the table has on its disk when it finds the server: some part of the match.
    const std::size_t behind = dice_.below(play_->size());
    while (record_->size() < behind) make_entry(false);
    playing_ = behind == 0;
    go_on();
}

void LoadTable::push() {
    auto call = std::make_shared<Call<v1::PushRequest, v1::PushResponse>>();
    call->request.set_match_id(record_->match().to_bytes());
    call->request.mutable_writer()->set_number(record_->epoch());
    const std::size_t end =
        std::min<std::size_t>(record_->size(), acknowledged_ + wire::most_batch_entries);
    for (std::size_t i = acknowledged_; i < end; ++i)
        call->request.add_entries()->set_data(record_->bytes()[i]);
    under_way_ = &call->context;
    stub_->async()->Push(&call->context, &call->request, &call->response,
                         [this, call](const grpc::Status& status) {
                             const std::scoped_lock lock{mutex_};
                             under_way_ = nullptr;
                             ended_.notify_all();
                             if (!stopping_) pushed(status, call->response);
                         });
}

void LoadTable::pushed(const grpc::Status& status, const v1::PushResponse& response) {
    if (!status.ok()) {
        venue_.faults.add(kind_of("push", status));
        return try_again();
    }
    for (const v1::PushResult& result : response.results())
        if (!settle(result)) return try_again();
    if (acknowledged_ == record_->size()) playing_ = true;
    if (acknowledged_ == play_->size()) return finish();
    go_on();
}

/// False: the server did not take the entry into the record.
bool LoadTable::settle(const v1::PushResult& result) {
    const bool taken = result.outcome() == v1::PushResult::OUTCOME_APPENDED ||
                       result.outcome() == v1::PushResult::OUTCOME_ALREADY_HAD;
    if (!taken) {
        venue_.faults.add("push answered " + v1::PushResult::Outcome_Name(result.outcome()) + ": " +
                          result.message());
        return false;
    }
    const Clock::time_point made = made_at_[acknowledged_++];
    if (made == Clock::time_point{}) return true;
    ++tally_.entries;
    tally_.acknowledged.add(Clock::now() - made);
    return true;
}

void LoadTable::finish() {
    ++tally_.finished;
    finished_match_ = record_->match().to_bytes();
    record_.reset();
    venue_.plan_next(court_);
    look_for_match();
}

}  // namespace courthand::bench
