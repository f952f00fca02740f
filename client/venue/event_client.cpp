#include "venue/event_client.h"

#include <grpcpp/grpcpp.h>

#include <fmt/format.h>

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <utility>

#include "courthand/v1/tournament_service.grpc.pb.h"
#include "venue/call_line.h"
#include "venue/event_message.h"
#include "venue/event_record.h"
#include "venue/open_calls.h"
#include "venue/venue_call.h"
#include "wire/tournament_limits.h"

namespace courthand::venue {

namespace {

using namespace std::chrono_literals;
using v1::Tournament;

// Long enough for a server that is busy, short enough for a person who waits.
constexpr std::chrono::seconds call_deadline{8};
// A server that has not answered by then is called lost.
constexpr std::chrono::seconds connect_time{3};
// An act is tried again with its ids, which the server knows; a person waits half a minute at most.
constexpr int most_tries = 3;
constexpr client::BackOff::Bounds between_tries{300ms, 2000ms};
// While the record is on its way, a book is copied no more often than people look.
constexpr std::chrono::milliseconds books_apart{250};

constexpr const char* crowded = "Too many requests wait already; try again in a moment.";
constexpr const char* unanswered =
    "No answer came from the server: it may have been done all the same. Do the same again; what "
    "was kept is not kept twice.";

/// Nobody knows whether the call was done, or the server had no time for it.
bool try_again(const grpc::Status& status) {
    return status.error_code() == grpc::StatusCode::UNAVAILABLE ||
           status.error_code() == grpc::StatusCode::DEADLINE_EXCEEDED ||
           status.error_code() == grpc::StatusCode::RESOURCE_EXHAUSTED;
}

}  // namespace

struct EventClient::Parts {
    Parts(std::shared_ptr<grpc::Channel> to_server, std::string name, const Options& wanted)
        : channel(std::move(to_server)),
          stub(Tournament::NewStub(channel)),
          author(std::move(name)),
          pauses(between_tries, wanted.seed),
          watch(
              channel, wanted, [this](grpc::ClientContext& context) { return read(context); },
              [this](const Link& ended) { tell(ended); }) {}

    template <class Request, class Response>
    using Method = grpc::Status (Tournament::Stub::*)(grpc::ClientContext*, const Request&,
                                                      Response*);

    // Of the reading thread.
    grpc::Status read(grpc::ClientContext& context);
    void show_record();

    void tell(const Link& news);
    [[nodiscard]] bool given_up();
    [[nodiscard]] bool wait_before_next_try();
    /// What a person is told of a call that has failed; empty: it was answered.
    template <class Request, class Response>
    [[nodiscard]] std::string ask(const Request& request, Method<Request, Response> method,
                                  Response& response);
    template <class Request, class Response>
    [[nodiscard]] grpc::Status ask_once(const Request& request, Method<Request, Response> method,
                                        Response& response);
    void act(const EventAct& act, bool preview, ActAnswer answer);

    std::shared_ptr<grpc::Channel> channel;
    std::unique_ptr<Tournament::Stub> stub;
    const std::string author;

    std::mutex mutex;
    std::condition_variable stop_news;
    bool stopped = true;  ///< guarded by mutex
    Listener listener;    ///< guarded by mutex
    Link link;            ///< guarded by mutex

    // Of the reading thread.
    EventRecord record;
    std::chrono::steady_clock::time_point shown;

    client::BackOff pauses;  ///< of the thread of the calls
    OpenCalls open_calls;
    std::unique_ptr<CallLine> calls;
    KeptWatch watch;
};

grpc::Status EventClient::Parts::read(grpc::ClientContext& context) {
    const auto stream = stub->WatchRecord(&context, record.request());
    v1::WatchRecordResponse news;
    while (stream->Read(&news)) {
        if (const auto fault = record.take(news)) {
            show_record();
            context.TryCancel();
            while (stream->Read(&news)) {
            }
            (void)stream->Finish();
            return {grpc::StatusCode::DATA_LOSS, *fault};
        }
        watch.heard(record.has_news());
        tell({LinkState::live, {}});
        const bool due = std::chrono::steady_clock::now() - shown >= books_apart;
        if (record.has_news() && (record.whole() || due)) show_record();
    }
    if (record.has_news()) show_record();
    return stream->Finish();
}

void EventClient::Parts::show_record() {
    const EventBook book = record.book();
    shown = std::chrono::steady_clock::now();
    const std::scoped_lock lock{mutex};
    if (!stopped && listener.book) listener.book(book);
}

void EventClient::Parts::tell(const Link& news) {
    const std::scoped_lock lock{mutex};
    if (stopped || news == link) return;
    link = news;
    if (listener.link) listener.link(link);
}

bool EventClient::Parts::given_up() {
    const std::scoped_lock lock{mutex};
    return stopped;
}

bool EventClient::Parts::wait_before_next_try() {
    std::unique_lock guard{mutex};
    return !stop_news.wait_for(guard, pauses.next(), [this] { return stopped; });
}

template <class Request, class Response>
grpc::Status EventClient::Parts::ask_once(const Request& request, Method<Request, Response> method,
                                          Response& response) {
    grpc::ClientContext context;
    sign_call(context);
    context.set_deadline(std::chrono::system_clock::now() + call_deadline);
    const OpenCalls::Call open(open_calls, context);
    return (stub.get()->*method)(&context, request, &response);
}

template <class Request, class Response>
std::string EventClient::Parts::ask(const Request& request, Method<Request, Response> method,
                                    Response& response) {
    bool in_doubt = false;  // it was sent, and nobody knows what became of it
    pauses.reset();
    for (int tried = 1;; ++tried) {
        std::string failed = unanswered;
        if (reached(*channel, connect_time, [this] { return given_up(); })) {
            const grpc::Status status = ask_once(request, method, response);
            if (status.ok()) return {};
            if (!try_again(status)) return failure_words(status);
            if (status.error_code() != grpc::StatusCode::RESOURCE_EXHAUSTED) in_doubt = true;
            if (!in_doubt) failed = failure_words(status);
        } else if (!in_doubt) {
            return not_sent;
        }
        if (tried == most_tries || !wait_before_next_try()) return failed;
    }
}

void EventClient::Parts::act(const EventAct& wanted, bool preview, ActAnswer answer) {
    v1::ActRequest request = act_request(wanted, author, preview);
    if (std::string why = not_sendable(wanted, request); !why.empty())
        return answer(failed_act(std::move(why)));
    const auto work = [this, request = std::move(request), answer] {
        v1::ActResponse response;
        std::string failed = ask(request, &Tournament::Stub::Act, response);
        answer(failed.empty() ? outcome_of(response) : failed_act(std::move(failed)));
    };
    if (!calls || !calls->add(work)) answer(failed_act(crowded));
}

EventClient::EventClient(std::shared_ptr<grpc::Channel> channel, std::string author,
                         Options options)
    : parts_(std::make_unique<Parts>(std::move(channel), std::move(author), options)) {}

EventClient::EventClient(std::shared_ptr<grpc::Channel> channel, std::string author)
    : EventClient(std::move(channel), std::move(author), Options{}) {}

EventClient::~EventClient() {
    stop();
}

void EventClient::start(Listener listener) {
    {
        const std::scoped_lock lock{parts_->mutex};
        parts_->listener = std::move(listener);
        parts_->stopped = false;
        parts_->link = {};
    }
    parts_->open_calls.open();
    parts_->calls = std::make_unique<CallLine>();
    // Whoever starts again has no book yet.
    if (parts_->record.whole()) parts_->show_record();
    parts_->watch.start();
}

void EventClient::stop() {
    {
        const std::scoped_lock lock{parts_->mutex};
        parts_->stopped = true;
        parts_->listener = {};
    }
    parts_->stop_news.notify_all();
    parts_->open_calls.close();
    parts_->watch.stop();
    parts_->calls.reset();
}

void EventClient::preview(const EventAct& act, ActAnswer answer) {
    parts_->act(act, true, std::move(answer));
}

void EventClient::act(const EventAct& act, ActAnswer answer) {
    parts_->act(act, false, std::move(answer));
}

void EventClient::erase_words(const std::vector<event::FactNumber>& facts, Answer answer) {
    if (facts.size() > wire::most_erased_facts)
        return answer(Outcome::refused(
            fmt::format("The words of {} facts are too many at once; choose {} at most.",
                        facts.size(), wire::most_erased_facts)));
    v1::EraseWordsRequest request;
    request.set_author(parts_->author);
    request.mutable_facts()->Add(facts.begin(), facts.end());
    const auto work = [this, request = std::move(request), answer] {
        v1::EraseWordsResponse response;
        std::string failed = parts_->ask(request, &Tournament::Stub::EraseWords, response);
        answer(failed.empty() ? Outcome::ok() : Outcome::refused(std::move(failed)));
    };
    if (!parts_->calls || !parts_->calls->add(work)) answer(Outcome::refused(crowded));
}

}  // namespace courthand::venue
