#include "venue/board_client.h"

#include <grpcpp/grpcpp.h>

#include <mutex>
#include <utility>

#include "courthand/v1/venue.grpc.pb.h"
#include "venue/board_message.h"
#include "venue/board_pieces.h"
#include "venue/call_line.h"
#include "venue/open_calls.h"
#include "venue/venue_call.h"

namespace courthand::venue {

namespace {

// Long enough for a server that is busy, short enough for a person who waits.
constexpr std::chrono::seconds call_deadline{8};
// A server that has not answered by then is called lost.
constexpr std::chrono::seconds connect_time{3};

// The decision has two words on the wire. What was handled otherwise closes the alert without the
// remedy, and its note says so.
constexpr const char* handled_otherwise = "Handled otherwise: ";

constexpr const char* too_many_wait = "Too many requests wait already; try again in a moment.";

}  // namespace

struct BoardClient::Parts {
    Parts(std::shared_ptr<grpc::Channel> to_server, std::string name, Options wanted)
        : channel(std::move(to_server)),
          stub(v1::Venue::NewStub(channel)),
          own_name(std::move(name)),
          watch(
              channel, std::move(wanted),
              [this](grpc::ClientContext& context) { return read_stream(context); },
              [this](const Link& ended) { tell_link(ended); }) {}

    [[nodiscard]] bool given_up();
    grpc::Status read_stream(grpc::ClientContext& context);
    /// What came back with an act, unless the stream has told more since.
    template <class Response>
    void take_answer(const Response& response);
    template <class Request, class Response>
    [[nodiscard]] Outcome make_call(const Request& request,
                                    grpc::Status (v1::Venue::Stub::*method)(grpc::ClientContext*,
                                                                            const Request&,
                                                                            Response*));
    [[nodiscard]] Fork ask_for_fork(const v1::ShowForkRequest& request);
    void tell_link(Link news);
    void tell_board();
    template <class Request, class Response>
    void call(Request request,
              grpc::Status (v1::Venue::Stub::*method)(grpc::ClientContext*, const Request&,
                                                      Response*),
              Answer answer);

    std::shared_ptr<grpc::Channel> channel;
    std::unique_ptr<v1::Venue::Stub> stub;
    std::string own_name;

    std::mutex mutex;
    bool stopped = false;  ///< guarded by mutex
    Listener listener;     ///< guarded by mutex
    Board board;           ///< guarded by mutex
    Link link;             ///< guarded by mutex
    std::string cursor;    ///< of the reading thread only

    OpenCalls open_calls;
    std::unique_ptr<CallLine> calls;
    KeptWatch watch;
};

void BoardClient::Parts::tell_link(Link news) {
    const std::scoped_lock lock{mutex};
    if (stopped || news == link) return;
    link = std::move(news);
    if (listener.link) listener.link(link);
}

void BoardClient::Parts::tell_board() {
    const std::scoped_lock lock{mutex};
    if (!stopped && listener.board) listener.board(board);
}

grpc::Status BoardClient::Parts::read_stream(grpc::ClientContext& context) {
    v1::WatchBoardRequest request;
    request.set_cursor(cursor);
    const auto stream = stub->WatchBoard(&context, request);
    BoardPieces pieces;
    v1::WatchBoardResponse news;
    while (stream->Read(&news)) {
        watch.heard(false);
        if (!pieces.add(std::move(news))) {
            context.TryCancel();
            break;
        }
        tell_link({LinkState::live, {}});
        const auto whole = pieces.take();
        if (!whole) continue;
        {
            const std::scoped_lock lock{mutex};
            apply(*whole, board);
        }
        tell_board();
        watch.heard(cursor != whole->cursor());
        cursor = whole->cursor();
    }
    auto status = stream->Finish();
    // A cursor the server does not know any more is given up; the next answer is whole.
    if (status.error_code() == grpc::StatusCode::OUT_OF_RANGE ||
        status.error_code() == grpc::StatusCode::INVALID_ARGUMENT) {
        cursor.clear();
    }
    return status;
}

bool BoardClient::Parts::given_up() {
    const std::scoped_lock lock{mutex};
    return stopped;
}

template <class Response>
void BoardClient::Parts::take_answer(const Response& response) {
    // A take-over is seen as a change of the board when the server has folded it.
    if constexpr (!std::is_same_v<Response, v1::AnswerTakeOverResponse>) {
        {
            const std::scoped_lock lock{mutex};
            // The stream goes its own way: what it has ended since must not come back.
            if (board.alert(response.alert().alert_id()) == nullptr) return;
            if (moment_of_us(response.header().server_time_us()) < board.as_of) return;
            apply(response.alert(), board);
        }
        tell_board();
    }
}

Fork BoardClient::Parts::ask_for_fork(const v1::ShowForkRequest& request) {
    Fork none;
    none.failed = "The server cannot be reached; look again in a moment.";
    if (!reached(*channel, connect_time, [this] { return given_up(); })) return none;
    grpc::ClientContext context;
    sign_call(context);
    context.set_deadline(std::chrono::system_clock::now() + call_deadline);
    v1::ShowForkResponse response;
    const OpenCalls::Call open(open_calls, context);
    const auto status = stub->ShowFork(&context, request, &response);
    if (status.ok()) return fork_of(response);
    none.failed = failure_words(status);
    return none;
}

template <class Request, class Response>
Outcome BoardClient::Parts::make_call(const Request& request,
                                      grpc::Status (v1::Venue::Stub::*method)(grpc::ClientContext*,
                                                                              const Request&,
                                                                              Response*)) {
    if (!reached(*channel, connect_time, [this] { return given_up(); }))
        return Outcome::refused(not_sent);
    grpc::ClientContext context;
    sign_call(context);
    context.set_deadline(std::chrono::system_clock::now() + call_deadline);
    Response response;
    const OpenCalls::Call open(open_calls, context);
    const auto status = (stub.get()->*method)(&context, request, &response);
    if (!status.ok()) return Outcome::refused(act_failure_words(status));
    take_answer(response);
    if constexpr (std::is_same_v<Response, v1::ClaimResponse>) {
        const auto& first = response.alert().claimed_by();
        if (!response.yours())
            return Outcome::refused(first.empty() ? "This alert has ended."
                                                  : first + " was first and is on the way.");
    }
    return Outcome::ok();
}

template <class Request, class Response>
void BoardClient::Parts::call(Request request,
                              grpc::Status (v1::Venue::Stub::*method)(grpc::ClientContext*,
                                                                      const Request&, Response*),
                              Answer answer) {
    const auto work = [this, request = std::move(request), method, answer] {
        answer(make_call(request, method));
    };
    if (!calls || !calls->add(work)) {
        answer(Outcome::refused(too_many_wait));
    }
}

BoardClient::BoardClient(std::shared_ptr<grpc::Channel> channel, std::string own_name,
                         Options options)
    : parts_(std::make_unique<Parts>(std::move(channel), std::move(own_name), std::move(options))) {
}

BoardClient::BoardClient(std::shared_ptr<grpc::Channel> channel, std::string own_name)
    : BoardClient(std::move(channel), std::move(own_name), Options{}) {}

BoardClient::~BoardClient() {
    stop();
}

void BoardClient::start(Listener listener) {
    {
        const std::scoped_lock lock{parts_->mutex};
        parts_->listener = std::move(listener);
        parts_->stopped = false;
    }
    parts_->open_calls.open();
    parts_->calls = std::make_unique<CallLine>();
    parts_->watch.start();
}

void BoardClient::stop() {
    {
        const std::scoped_lock lock{parts_->mutex};
        parts_->stopped = true;
        parts_->listener = {};
    }
    parts_->open_calls.close();
    parts_->watch.stop();
    parts_->calls.reset();
}

void BoardClient::claim(const std::string& alert_id, Answer answer) {
    v1::ClaimRequest request;
    request.set_alert_id(alert_id);
    request.set_by(parts_->own_name);
    parts_->call(std::move(request), &v1::Venue::Stub::Claim, std::move(answer));
}

void BoardClient::acknowledge(const std::string& alert_id, Answer answer) {
    v1::AcknowledgeRequest request;
    request.set_alert_id(alert_id);
    request.set_by(parts_->own_name);
    parts_->call(std::move(request), &v1::Venue::Stub::Acknowledge, std::move(answer));
}

void BoardClient::rule(const std::string& alert_id, RulingChoice choice, const std::string& note,
                       Answer answer) {
    v1::RuleRequest request;
    request.set_alert_id(alert_id);
    request.set_by(parts_->own_name);
    request.set_decision(choice == RulingChoice::accept ? v1::DECISION_ACCEPT
                                                        : v1::DECISION_OVERRULE);
    request.set_note(choice == RulingChoice::otherwise ? handled_otherwise + note : note);
    parts_->call(std::move(request), &v1::Venue::Stub::Rule, std::move(answer));
}

void BoardClient::shelve(const std::string& alert_id, std::chrono::minutes time,
                         const std::string& reason, Answer answer) {
    v1::ShelveRequest request;
    request.set_alert_id(alert_id);
    request.set_by(parts_->own_name);
    request.set_minutes(static_cast<std::uint32_t>(time.count()));
    request.set_note(reason);
    parts_->call(std::move(request), &v1::Venue::Stub::Shelve, std::move(answer));
}

void BoardClient::look_at_fork(const std::string& alert_id, ForkAnswer answer) {
    v1::ShowForkRequest request;
    request.set_alert_id(alert_id);
    const auto work = [this, request = std::move(request), answer] {
        answer(parts_->ask_for_fork(request));
    };
    if (parts_->calls && parts_->calls->add(work)) return;
    Fork none;
    none.failed = too_many_wait;
    answer(none);
}

void BoardClient::settle_fork(const std::string& alert_id, ForkChoice choice,
                              const std::string& note, Answer answer) {
    v1::SettleForkRequest request;
    request.set_alert_id(alert_id);
    request.set_by(parts_->own_name);
    request.set_choice(choice == ForkChoice::enter_again ? v1::FORK_CHOICE_ENTER_AGAIN
                                                         : v1::FORK_CHOICE_RECORD_STANDS);
    request.set_note(note);
    parts_->call(std::move(request), &v1::Venue::Stub::SettleFork, std::move(answer));
}

void BoardClient::answer_take_over(const Id& match_id, const Id& device_id, bool consent,
                                   Answer answer) {
    v1::AnswerTakeOverRequest request;
    request.set_match_id(bytes_of_id(match_id));
    request.set_device_id(bytes_of_id(device_id));
    request.set_consent(consent);
    request.set_by(parts_->own_name);
    parts_->call(std::move(request), &v1::Venue::Stub::AnswerTakeOver, std::move(answer));
}

}  // namespace courthand::venue
