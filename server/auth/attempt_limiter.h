// How often a stranger may try an enrolment code: a token bucket for each network address and one
// over all. Thread-safe; never waits.
//
// A code's secret has 40 bits. A whole day of tries at the overall rate meets one of a hundred live
// codes with a chance of one in 2,500, so that a wrong try need not cost anybody's code. One
// address has far less than the overall rate: it cannot use that up for others.
#pragma once

#include <chrono>
#include <cstddef>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

namespace courthand::server::auth {

/// So many tries at once, then one more each time `refill` has passed.
struct AttemptRate {
    unsigned burst = 1;
    std::chrono::milliseconds refill{1000};
};

struct AttemptLimits {
    /// A shaky hand, and a cart of tablets behind one router.
    AttemptRate address{20, std::chrono::milliseconds{3000}};
    /// Signing a request costs well under a millisecond: a small part of one processor.
    AttemptRate overall{200, std::chrono::milliseconds{20}};
    /// Addresses remembered; some 200 bytes each.
    std::size_t most_addresses = 1024;
};

class AttemptLimiter {
  public:
    /// Only differences count: a clock that a person sets must not give or take tries.
    using Instant = std::chrono::steady_clock::time_point;

    explicit AttemptLimiter(AttemptLimits limits = {});

    /// Takes a try. Nothing: go on; else the time after which this address may try again.
    [[nodiscard]] std::optional<std::chrono::milliseconds> take(const std::string& address,
                                                                Instant now);
    /// For a try with a right code: it was none of a stranger's.
    void give_back(const std::string& address);

    [[nodiscard]] std::size_t addresses() const;

  private:
    /// A bucket, kept as the time at which it will be full again.
    using FullAt = Instant;
    void make_room(Instant now);

    AttemptLimits limits_;
    mutable std::mutex mutex_;
    std::map<std::string, FullAt> addresses_;
    FullAt overall_{};
};

/// The address of a peer as gRPC writes it ("ipv4:192.0.2.7:51234"), without the port. What is not
/// such an address comes back whole. IPv6 addresses are not taken together by network: a venue is
/// one network, in which a stranger must not use up the tries of the tablets.
[[nodiscard]] std::string address_of_peer(std::string_view peer);

}  // namespace courthand::server::auth
