#include "server/service/enrolment_service.h"

#include <grpcpp/grpcpp.h>

#include "courthand/v1/enrolment.grpc.pb.h"
#include "server/audit/audit_trail.h"
#include "server/auth/attempt_limiter.h"
#include "server/auth/call_gate.h"
#include "server/auth/enrolment.h"
#include "server/domain/fault_log.h"
#include "server/service/audit_note.h"
#include "server/service/desk_message.h"
#include "server/service/message_size.h"
#include "server/service/status_map.h"
#include "server/service/work_call.h"
#include "wire/protocol_version.h"

namespace courthand::server::service {

namespace {

class EnrolmentService final : public v1::Enrolment::CallbackService {
  public:
    explicit EnrolmentService(const VenueParts& parts) : parts_{parts} {}

    grpc::ServerUnaryReactor* Enrol(grpc::CallbackServerContext* context,
                                    const v1::EnrolRequest* request,
                                    v1::EnrolResponse* response) override {
        const std::string address = auth::address_of_peer(context->peer());
        // Before the work queue: a stranger who hammers takes no place in it.
        if (const auto wait = attempts_.take(address, std::chrono::steady_clock::now()))
            return turn_away(*context, address, request->device_name(), *wait);
        // Ends with the job, also when it never runs.
        const auto attempt = std::make_shared<auth::Attempt>(attempts_, address);
        if (const Status fits = check_request(*request); !fits.ok()) {
            attempt->failed();
            note_refused(address, {}, fits);
            return refuse_call(context, fits);
        }
        return work_call(
            parts_.work, context, request, response,
            [this, request, attempt] {
                Answer answer = answer_to(*request, *attempt);
                if (!answer.ok())
                    note_refused(attempt->address(), request->device_name(), answer.status());
                return answer;
            },
            Lane::enrolment);
    }

  private:
    using Answer = Result<v1::EnrolResponse>;

    Answer answer_to(const v1::EnrolRequest& request, auth::Attempt& attempt) {
        audit::AuditTrail::Act act{
            parts_.audit,
            {0, {}, std::nullopt, "enrol", attempt.address(), request.device_name(), false}};
        Answer answer = enrol(request);
        if (answer.ok())
            act.done(caller_in(*answer));
        else if (of_the_caller(answer.status()))
            attempt.failed();
        else
            return failure_of_ours(answer.status());
        return answer;
    }

    /// What the caller sent is to blame; anything else says nothing about the code that was tried.
    static bool of_the_caller(const Status& why) {
        return why.code == StatusCode::not_allowed || why.code == StatusCode::not_enrolled ||
               why.code == StatusCode::invalid || why.code == StatusCode::not_now;
    }

    /// The log has what the caller, who may be anybody, is not told.
    static Status failure_of_ours(const Status& why) {
        if (!why.passing()) log_fault("enrolment", why.text());
        return failure_for_strangers(why);
    }

    static auth::Caller caller_in(const v1::EnrolResponse& enrolled) {
        auth::Caller who;
        if (const auto id = uuid_from_bytes(enrolled.device_id())) who.device.value = *id;
        who.seat = seat_of(enrolled.seat()).value_or(auth::Seat::table);
        who.court = enrolled.court();
        return who;
    }

    grpc::ServerUnaryReactor* turn_away(grpc::CallbackServerContext& context,
                                        const std::string& address, const std::string& device_name,
                                        std::chrono::milliseconds wait) {
        context.AddTrailingMetadata(retry_metadata_key, std::to_string(wait.count()));
        const auto seconds = std::chrono::ceil<std::chrono::seconds>(wait).count();
        const Status refusal = Status::failed(
            StatusCode::exhausted, "too many wrong enrolment codes from this address",
            "wait " + std::to_string(seconds) + " s, then try again");
        grpc::ServerUnaryReactor* const reactor = context.DefaultReactor();
        // What was asked for is gone once it is finished.
        note_refused(address, device_name, refusal);
        reactor->Finish(to_grpc(refusal));
        return reactor;
    }

    void note_refused(const std::string& address, const std::string& device_name,
                      const Status& status) {
        parts_.audit.refused(address,
                             refused_row(std::nullopt, {"enrol", address, device_name}, status));
    }

    Answer enrol(const v1::EnrolRequest& request) {
        if (const auto refusal = wire::protocol_refusal(std::to_string(request.protocol_version())))
            return Status::failed(StatusCode::not_now, *refusal,
                                  "bring this program and the server to one version");
        auto enrolled = auth::enrol(
            parts_.enrolments, parts_.authority,
            {request.code_secret(), request.signing_request_pem(), request.device_name()},
            std::chrono::system_clock::now());
        if (!enrolled.ok()) return enrolled.status();
        auth::Enrolled& device = *enrolled;
        v1::EnrolResponse response;
        parts_.stamp.fill(*response.mutable_header());
        response.set_certificate_pem(std::move(device.certificate_pem));
        response.set_authority_pem(std::move(device.authority_pem));
        response.set_device_id(to_bytes(device.who.device.value));
        response.set_seat(to_message(device.who.seat));
        response.set_court(device.who.court);
        response.set_tournament_id(to_bytes(parts_.tournament.value));
        response.set_tournament_name(parts_.tournament_name);
        return response;
    }

    VenueParts parts_;
    auth::AttemptLimiter attempts_;
};

}  // namespace

std::unique_ptr<grpc::Service> make_enrolment_service(const VenueParts& parts) {
    return std::make_unique<EnrolmentService>(parts);
}

}  // namespace courthand::server::service
