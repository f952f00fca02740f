// The board as a stream of gRPC: one write in flight, a large change in pieces. What changes
// meanwhile is sent together with the next one, so a slow head seat costs no memory and is never
// more than one change behind.
#pragma once

#include <grpcpp/grpcpp.h>

#include <chrono>
#include <deque>
#include <optional>
#include <set>

#include "courthand/v1/venue.pb.h"
#include "server/service/server_stream.h"
#include "server/service/venue_parts.h"
#include "server/venue/board_pieces.h"

namespace courthand::server::service {

class BoardStream final : public ServerStream<v1::WatchBoardResponse> {
  public:
    /// An idle stream says that the server is there this often.
    static constexpr std::chrono::seconds sign_of_life_every{5};

    /// Makes the reactor of one call; it deletes itself when the call is over.
    static BoardStream* make(const VenueParts& parts, const v1::WatchBoardRequest& request,
                             std::optional<DeviceSeen> device,
                             grpc::CallbackServerContext& context);

  private:
    BoardStream(const VenueParts& parts, const v1::WatchBoardRequest& request,
                std::optional<DeviceSeen> device);
    void listen();
    void changed();
    void tick();
    void stop_listening() override;
    /// These need the lock.
    void go_on() override;
    void write_news();
    void take(venue::BoardNews news);
    void write_piece();

    const VenueParts& parts_;
    const std::set<std::uint32_t> courts_;  ///< empty: all
    std::optional<DeviceSeen> device_;
    std::optional<venue::BoardVersion> sent_;
    std::deque<v1::WatchBoardResponse> pieces_;  ///< of what is being sent, not written yet
    v1::WatchBoardResponse response_;
    std::chrono::steady_clock::time_point last_write_;
    std::uint64_t board_token_ = 0;
    Hub::Token hub_token_ = 0;
};

}  // namespace courthand::server::service
