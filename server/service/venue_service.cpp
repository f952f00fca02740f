#include "server/service/venue_service.h"

#include <grpcpp/grpcpp.h>

#include "courthand/v1/venue.grpc.pb.h"
#include "server/auth/call_gate.h"
#include "server/service/audit_note.h"
#include "server/service/board_stream.h"
#include "server/service/fork_calls.h"
#include "server/service/match_message.h"
#include "server/service/work_call.h"
#include "wire/message_limits.h"

namespace courthand::server::service {

namespace {

using venue::VenueKeeper;

Status invalid(std::string why, std::string cure) {
    return Status::failed(StatusCode::invalid, std::move(why), std::move(cure));
}

class VenueService final : public v1::Venue::CallbackService {
  public:
    explicit VenueService(const VenueParts& parts) : parts_{parts}, forks_{parts} {}

    grpc::ServerWriteReactor<v1::WatchBoardResponse>* WatchBoard(
        grpc::CallbackServerContext* context, const v1::WatchBoardRequest* request) override {
        if (const Status fits = check_request(*request); !fits.ok())
            return new RefusedStream<v1::WatchBoardResponse>{to_grpc(fits)};
        return BoardStream::make(parts_, *request, seen(*context), *context);
    }

    grpc::ServerUnaryReactor* Claim(grpc::CallbackServerContext* context,
                                    const v1::ClaimRequest* request,
                                    v1::ClaimResponse* response) override {
        return act(context, request, response, {"claim", request->alert_id(), request->by()},
                   [this, request] { return claim(*request); });
    }

    grpc::ServerUnaryReactor* Rule(grpc::CallbackServerContext* context,
                                   const v1::RuleRequest* request,
                                   v1::RuleResponse* response) override {
        return act(context, request, response,
                   {"rule", request->alert_id(), ruling_words(*request)},
                   [this, request] { return rule(*request); });
    }

    grpc::ServerUnaryReactor* Shelve(grpc::CallbackServerContext* context,
                                     const v1::ShelveRequest* request,
                                     v1::ShelveResponse* response) override {
        return act(context, request, response,
                   {"shelve", request->alert_id(), in_words(request->by(), request->note())},
                   [this, request] {
                       return answer<v1::ShelveResponse>(parts_.venue.shelve(
                           request->alert_id(), std::chrono::minutes{request->minutes()},
                           request->note(), request->by()));
                   });
    }

    grpc::ServerUnaryReactor* Acknowledge(grpc::CallbackServerContext* context,
                                          const v1::AcknowledgeRequest* request,
                                          v1::AcknowledgeResponse* response) override {
        return act(context, request, response, {"acknowledge", request->alert_id(), request->by()},
                   [this, request] {
                       return answer<v1::AcknowledgeResponse>(
                           parts_.venue.acknowledge(request->alert_id(), request->by()));
                   });
    }

    grpc::ServerUnaryReactor* AnswerTakeOver(grpc::CallbackServerContext* context,
                                             const v1::AnswerTakeOverRequest* request,
                                             v1::AnswerTakeOverResponse* response) override {
        const std::string what = request->consent() ? "let go on, " : "declined, ";
        return act(context, request, response,
                   {"answer-take-over", words_of(request->match_id()), what + request->by()},
                   [this, request] { return answer_take_over(*request); });
    }

    grpc::ServerUnaryReactor* ShowFork(grpc::CallbackServerContext* context,
                                       const v1::ShowForkRequest* request,
                                       v1::ShowForkResponse* response) override {
        return device_call(
            parts_, context, request, response, [this, request] { return forks_.show(*request); },
            Lane::reads);
    }

    grpc::ServerUnaryReactor* SettleFork(grpc::CallbackServerContext* context,
                                         const v1::SettleForkRequest* request,
                                         v1::SettleForkResponse* response) override {
        return act(context, request, response,
                   {"settle-fork", request->alert_id(), settling_words(*request)},
                   [this, request] { return settle_fork(*request); });
    }

  private:
    static std::string words_of(const std::string& match_id) {
        const auto id = uuid_from_bytes(match_id);
        return id ? to_text(*id) : std::string{};
    }
    static std::string in_words(const std::string& by, const std::string& note) {
        return note.empty() ? by : by + ": " + note;
    }
    static std::string ruling_words(const v1::RuleRequest& request) {
        const std::string who = in_words(request.by(), request.note());
        return (request.decision() == v1::DECISION_ACCEPT ? "stands, " : "overruled, ") + who;
    }
    static std::string settling_words(const v1::SettleForkRequest& request) {
        const std::string who = in_words(request.by(), request.note());
        return (request.choice() == v1::FORK_CHOICE_ENTER_AGAIN ? "to be entered again, "
                                                                : "the record stands, ") +
               who;
    }

    template <class Request, class Response, class Body>
    grpc::ServerUnaryReactor* act(grpc::CallbackServerContext* context, const Request* request,
                                  Response* response, ActWords words, Body body) {
        const auto who = auth::caller(*context->auth_context());
        return device_call(parts_, context, request, response,
                           [this, who, words, body] { return audited(parts_, who, words, body); });
    }

    Result<v1::AnswerTakeOverResponse> answer_take_over(const v1::AnswerTakeOverRequest& request) {
        const auto match = uuid_from_bytes(request.match_id());
        const auto device = uuid_from_bytes(request.device_id());
        if (!match || !device)
            return invalid("match_id and device_id must be 16 bytes",
                           "use the ids of the alert that asks");
        if (request.by().empty() || !wire::fits(request.by(), wire::most_name_bytes))
            return invalid("by: it does not say who answers",
                           "give a name or function of up to 64 bytes, without special keys");
        const auto standing = parts_.devices.standing(DeviceId{*device});
        if (!standing.ok()) return standing.status();
        if (request.consent() && *standing != auth::DeviceStanding::good)
            return Status::failed(StatusCode::not_now,
                                  "the desk has withdrawn the device that asks",
                                  "say no, and let another device ask");
        const std::string reason =
            (request.consent() ? "let go on by " : "declined by ") + request.by();
        const auto head = parts_.matches.answer_take_over(
            {parts_.tournament, MatchId{*match}}, DeviceId{*device}, request.consent(), reason);
        if (!head.ok()) return head.status();
        v1::AnswerTakeOverResponse response;
        parts_.stamp.fill(*response.mutable_header());
        to_message(*head, *response.mutable_writer());
        return response;
    }

    template <class Response>
    Result<Response> answer(VenueKeeper::Act act) {
        if (!act.ok()) return act.status();
        Response response;
        parts_.stamp.fill(*response.mutable_header());
        *response.mutable_alert() = *std::move(act);
        return response;
    }

    // Whoever comes second is told who is on the way: that is an answer, not a failure.
    Result<v1::ClaimResponse> claim(const v1::ClaimRequest& request) {
        VenueKeeper::Act act = parts_.venue.claim(request.alert_id(), request.by());
        const bool second = act.status().code == StatusCode::not_now;
        if (second)
            if (auto alert = parts_.venue.board().alert(request.alert_id()))
                act = *std::move(alert);
        auto answered = answer<v1::ClaimResponse>(std::move(act));
        if (answered.ok()) answered->set_yours(!second);
        return answered;
    }

    Result<v1::RuleResponse> rule(const v1::RuleRequest& request) {
        if (request.decision() != v1::DECISION_ACCEPT &&
            request.decision() != v1::DECISION_OVERRULE)
            return invalid("decision: there is none",
                           "say whether the fault stands or is overruled");
        if (alerts::branch_of(request.alert_id()))
            return Status::failed(StatusCode::not_now,
                                  "two records of a match are no fault to rule",
                                  "look at both and choose which one counts");
        return answer<v1::RuleResponse>(parts_.venue.rule(request.alert_id(),
                                                          request.decision() == v1::DECISION_ACCEPT,
                                                          request.note(), request.by()));
    }

    Result<v1::SettleForkResponse> settle_fork(const v1::SettleForkRequest& request) {
        const auto decision = forks_.decision(request);
        if (!decision.ok()) return decision.status();
        return answer<v1::SettleForkResponse>(parts_.venue.rule(
            request.alert_id(), decision->enter_again, decision->note, request.by()));
    }

    std::optional<DeviceSeen> seen(const grpc::CallbackServerContext& context) {
        const auto who = auth::caller(*context.auth_context());
        if (!who) return std::nullopt;
        return DeviceSeen{parts_.tournament, who->device, who->court,
                          std::chrono::system_clock::now()};
    }

    VenueParts parts_;
    ForkCalls forks_;
};

}  // namespace

std::unique_ptr<grpc::Service> make_venue_service(const VenueParts& parts) {
    return std::make_unique<VenueService>(parts);
}

}  // namespace courthand::server::service
