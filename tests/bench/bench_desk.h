// The desk of a measured venue: it plans the matches. Calls wait for the answer.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "courthand/v1/desk.grpc.pb.h"
#include "server/testing/enrolled_device.h"
#include "wire/uuid.h"

namespace courthand::bench {

/// Not thread-safe.
class BenchDesk {
  public:
    /// Hands in the lists of two teams. Throws std::runtime_error, as all calls do.
    BenchDesk(const std::string& address, const server::testing::EnrolledDevice& device);

    /// Plans one more match of the two teams on a court and answers its id.
    [[nodiscard]] wire::Uuid plan(std::uint32_t court);
    /// Reads the lists that a desk shows, as it does again and again.
    void read_lists();

  private:
    std::unique_ptr<v1::Desk::Stub> stub_;
    std::string first_team_;
    std::string second_team_;
};

}  // namespace courthand::bench
