// A watch of the tournament's record as a stream of gRPC: one write in flight, the next from its
// completion. A slow seat holds one page at most and is never told more than the latest.
#pragma once

#include <grpcpp/grpcpp.h>

#include <chrono>
#include <cstdint>
#include <memory>

#include "server/auth/caller.h"
#include "server/service/record_session.h"
#include "server/service/store_stream.h"
#include "server/service/venue_parts.h"

namespace courthand::server::service {

class RecordStream final : public StoreStream<v1::WatchRecordResponse> {
  public:
    /// An idle stream says that the server is there this often.
    static constexpr std::chrono::seconds sign_of_life_every{5};

    /// Makes the reactor of one call; it deletes itself when the call is over.
    static RecordStream* make(const VenueParts& parts, RecordWish wish, const auth::Caller& who,
                              grpc::CallbackServerContext& context);

  private:
    RecordStream(const VenueParts& parts, RecordWish wish, const auth::Caller& who);
    void listen();
    void stop_listening() override;
    void changed();
    void tick();
    // These need the lock.
    void advance() override;
    void write_response();

    const VenueParts& parts_;
    const auth::Caller who_;
    RecordSession session_;
    v1::WatchRecordResponse response_;
    std::chrono::steady_clock::time_point last_write_;
    std::uint64_t record_token_ = 0;
    Hub::Token hub_token_ = 0;
};

}  // namespace courthand::server::service
