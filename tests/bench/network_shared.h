// What all measurements of the network share.
#pragma once

#include <cstdint>
#include <memory>

#include "tests/bench/echo_server.h"
#include "tests/bench/measured_venue.h"

namespace courthand::bench {

/// Let go by first: connections, prepared statements, caches.
inline constexpr std::uint32_t warm_up = 20;

struct NetworkShared {
    EchoServer echo;
    MeasuredVenue venue;
};

/// Made in main, before gRPC starts threads.
extern std::unique_ptr<NetworkShared> shared;

}  // namespace courthand::bench
