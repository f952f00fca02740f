#include "server/service/tournament_service.h"

#include <grpcpp/grpcpp.h>

#include "courthand/v1/tournament_service.grpc.pb.h"
#include "server/auth/call_gate.h"
#include "server/service/audit_note.h"
#include "server/service/record_stream.h"
#include "server/service/tournament_message.h"
#include "server/service/work_call.h"
#include "server/tournament/confirmable.h"

namespace courthand::server::service {

namespace {

class TournamentService final : public v1::Tournament::CallbackService {
  public:
    explicit TournamentService(const VenueParts& parts) : parts_{parts} {}

    using Context = grpc::CallbackServerContext;

    grpc::ServerWriteReactor<v1::WatchRecordResponse>* WatchRecord(
        Context* context, const v1::WatchRecordRequest* request) override {
        const auto who = auth::caller(*context->auth_context());
        using Refused = RefusedStream<v1::WatchRecordResponse>;
        if (const Status fits = check_request(*request); !fits.ok())
            return new Refused{to_grpc(fits)};
        // The gate lets nobody else in.
        if (!who) return new Refused{to_grpc(own_fault())};
        const auto wish = record_wish(*request, who->seat == auth::Seat::desk);
        if (!wish.ok()) return new Refused{to_grpc(wish.status())};
        return RecordStream::make(parts_, *wish, *who, *context);
    }

    grpc::ServerUnaryReactor* Act(Context* context, const v1::ActRequest* request,
                                  v1::ActResponse* response) override {
        const auto who = auth::caller(*context->auth_context());
        return device_call(
            parts_, context, request, response,
            [this, who, request] {
                // A look at what would be is no act.
                if (request->preview()) return act(who, *request);
                return audited(
                    parts_, who, words_of(*request), [&] { return act(who, *request); },
                    nothing_done);
            },
            Lane::record);
    }

    grpc::ServerUnaryReactor* EraseWords(Context* context, const v1::EraseWordsRequest* request,
                                         v1::EraseWordsResponse* response) override {
        const auto who = auth::caller(*context->auth_context());
        return device_call(
            parts_, context, request, response,
            [this, who, request] {
                return audited(parts_, who, words_of(*request), [&] { return erase(*request); });
            },
            Lane::record);
    }

  private:
    Result<v1::ActResponse> act(const std::optional<auth::Caller>& who,
                                const v1::ActRequest& request) {
        if (!who) return own_fault();  // the gate lets nobody else in
        const auto wanted = act_of(request, who->device);
        if (!wanted.ok()) return wanted.status();
        if (Status status =
                tournament::confirmable(*wanted, parts_.tournament, parts_.record, parts_.matches);
            !status.ok())
            return status;
        const auto outcome =
            request.preview() ? parts_.record.preview(*wanted) : parts_.record.act(*wanted);
        if (!outcome.ok()) return outcome.status();
        v1::ActResponse response = to_message(*outcome);
        parts_.stamp.fill(*response.mutable_header());
        return response;
    }

    Result<v1::EraseWordsResponse> erase(const v1::EraseWordsRequest& request) {
        const auto facts = facts_to_erase(request);
        if (!facts.ok()) return facts.status();
        const auto erased = parts_.record.erase_words(*facts);
        if (!erased.ok()) return erased.status();
        v1::EraseWordsResponse response;
        parts_.stamp.fill(*response.mutable_header());
        response.set_erased(static_cast<std::uint32_t>(*erased));
        return response;
    }

    VenueParts parts_;
};

}  // namespace

std::unique_ptr<grpc::Service> make_tournament_service(const VenueParts& parts) {
    return std::make_unique<TournamentService>(parts);
}

}  // namespace courthand::server::service
