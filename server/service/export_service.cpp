#include "server/service/export_service.h"

#include <grpcpp/grpcpp.h>

#include "courthand/v1/export.grpc.pb.h"
#include "server/auth/call_gate.h"
#include "server/service/export_stream.h"
#include "server/service/message_size.h"
#include "server/service/server_stream.h"

namespace courthand::server::service {
namespace {

class ExportService final : public v1::Export::CallbackService {
  public:
    explicit ExportService(const VenueParts& parts) : parts_{parts} {}

    grpc::ServerWriteReactor<v1::ExportEventResponse>* ExportEvent(
        grpc::CallbackServerContext* context, const v1::ExportEventRequest* request) override {
        if (const Status fits = check_request(*request); !fits.ok())
            return new RefusedStream<v1::ExportEventResponse>{to_grpc(fits)};
        return ExportStream::make(parts_, turn_, *request, auth::caller(*context->auth_context()),
                                  *context);
    }

  private:
    const VenueParts& parts_;
    ExportTurn turn_ = false;
};

}  // namespace

std::unique_ptr<grpc::Service> make_export_service(const VenueParts& parts) {
    return std::make_unique<ExportService>(parts);
}

}  // namespace courthand::server::service
