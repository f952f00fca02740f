// The files of an export as a stream of gRPC: made on the work queue, then sent piece by piece, one
// write in flight.
#pragma once

#include <grpcpp/grpcpp.h>

#include <atomic>
#include <memory>
#include <optional>
#include <vector>

#include "courthand/v1/export.pb.h"
#include "server/auth/caller.h"
#include "server/export/memory_sink.h"
#include "server/service/server_stream.h"
#include "server/service/venue_parts.h"

namespace courthand::server::service {

/// One export is under way at a time: each holds the whole event in memory.
using ExportTurn = std::atomic<bool>;

class ExportStream final : public ServerStream<v1::ExportEventResponse> {
  public:
    static constexpr std::size_t most_piece_bytes = std::size_t{64} * 1024;

    /// Makes the reactor of one call; it deletes itself when the call is over.
    static ExportStream* make(const VenueParts& parts, ExportTurn& turn,
                              const v1::ExportEventRequest& request,
                              const std::optional<auth::Caller>& who,
                              grpc::CallbackServerContext& context);
    ~ExportStream() override;

  private:
    ExportStream(const VenueParts& parts, ExportTurn& turn, const v1::ExportEventRequest& request,
                 const std::optional<auth::Caller>& who);
    void begin();
    /// On the work queue.
    void make_files();
    [[nodiscard]] Result<std::vector<exports::ExportedFile>> files() const;
    void stop_listening() override {}
    // These need the lock.
    void go_on() override;
    [[nodiscard]] bool job_under_way() const override { return making_; }

    const VenueParts& parts_;
    ExportTurn& turn_;
    const v1::ExportEventRequest request_;
    const std::optional<auth::Caller> who_;
    bool has_turn_ = false;
    bool making_ = false;
    std::vector<exports::ExportedFile> files_;
    std::size_t file_ = 0;    ///< of which the next piece is
    std::size_t offset_ = 0;  ///< in it
    bool header_sent_ = false;
    bool complete_ = false;  ///< the last piece is under way
    v1::ExportEventResponse response_;
};

}  // namespace courthand::server::service
