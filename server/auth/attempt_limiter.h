// How often a stranger may try an enrolment code: a token bucket for each network address, and one
// over all addresses that have failed. Thread-safe; never waits.
//
// An address that has not failed of late always gets a try, so that nobody locks out the venue,
// with however many addresses. What grinding is left: a code's secret has 40 bits. Who has A
// addresses gets A tries in `forgets` besides the overall rate of 50 a second: with the 254 of a
// small network about 52 a second, with 65,536 about 410. A whole day of the latter meets one of a
// hundred live codes with a chance of one in 310, of the former one in 2,400; a code lives for
// minutes, not for a day. With more addresses than are remembered only the lane's thread bounds the
// rate.
#pragma once

#include <chrono>
#include <cstddef>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

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
    /// Addresses remembered; some 250 bytes each: 16 MiB at most.
    std::size_t most_addresses = 65536;
    /// An address has not failed any more when it has kept still so long, after its bucket is full.
    std::chrono::seconds forgets{180};
};

class AttemptLimiter {
  public:
    /// Only differences count: a clock that a person sets must not give or take tries.
    using Instant = std::chrono::steady_clock::time_point;

    explicit AttemptLimiter(AttemptLimits limits = {});

    /// Takes a try, as a failed one until it is given back. Nothing: go on; else the time after
    /// which this address may try again.
    [[nodiscard]] std::optional<std::chrono::milliseconds> take(const std::string& address,
                                                                Instant now);
    /// For a try with a right code: it was none of a stranger's.
    void give_back(const std::string& address);

    [[nodiscard]] std::size_t addresses() const;

  private:
    /// A bucket, kept as the time at which it will be full again.
    using FullAt = Instant;
    struct Failed {
        FullAt full_at{};
        unsigned tries = 0;  ///< not given back
    };
    void move(const std::string& address, FullAt from, FullAt to);
    void forget_old(Instant now);
    void make_room();

    AttemptLimits limits_;
    mutable std::mutex mutex_;
    std::unordered_map<std::string, Failed> failed_;
    /// The same addresses; first the one that tells least, with the most tries left.
    std::set<std::pair<FullAt, std::string>> by_full_at_;
    FullAt overall_{};
};

/// The address of a peer as gRPC writes it ("ipv4:192.0.2.7:51234"), without the port. What is not
/// such an address comes back whole. IPv6 addresses are not taken together by network: a venue is
/// one network, in which a stranger must not use up the tries of the tablets.
[[nodiscard]] std::string address_of_peer(std::string_view peer);

}  // namespace courthand::server::auth
