// How often a stranger may try an enrolment code: a token bucket for each network address, one for
// each IPv6 network (/64), and one over all addresses that have failed. Thread-safe; never waits.
//
// An address that has not failed of late always gets a try, so that nobody locks out the venue or a
// network of it, with however many addresses. What grinding is left: a code's secret has 40 bits.
// Who has A addresses gets A tries in `forgets` besides the overall rate of 50 a second: with the
// 254 of a small network about 52 a second, with 65,536 about 410. A whole day of the latter meets
// one of a hundred live codes with a chance of one in 310, of the former one in 2,400; a code lives
// for minutes, not for a day.
//
// Who hops through an IPv6 network has more addresses than are remembered. Once the network's
// bucket is empty each address gets its first try and no other, and each first try needs a
// connection of its own; then only the one thread for strangers bounds the rate. At a thousand a
// second, more than that thread does, one of a hundred codes is met with a chance of one in 12,000
// in the quarter of an hour that they live.
#pragma once

#include <chrono>
#include <cstddef>
#include <map>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>
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
    /// Addresses remembered, and networks likewise; some 250 bytes each: 32 MiB at most.
    std::size_t most_addresses = 65536;
    /// An address has not failed any more when it has kept still so long, after its bucket is full.
    std::chrono::seconds forgets{180};
    /// The tablets of a hall are one network: several shaky hands at once. A stranger has all its
    /// addresses, and may not get the tries of a whole address from each.
    AttemptRate network{60, std::chrono::milliseconds{1000}};
};

/// Token buckets by name, those remembered that have the fewest tries left. Not thread-safe.
class AttemptBuckets {
  public:
    /// Only differences count: a clock that a person sets must not give or take tries.
    using Instant = std::chrono::steady_clock::time_point;

    /// Until one try fits. Nothing: the name has no bucket.
    [[nodiscard]] std::optional<std::chrono::milliseconds> wait(const AttemptRate& rate,
                                                                const std::string& name,
                                                                Instant now) const;
    /// Takes a try, also one that does not fit: a bucket is never more than empty. Of more than
    /// `most` names the one with the most tries left is forgotten.
    void take(const AttemptRate& rate, const std::string& name, Instant now, std::size_t most);
    void give_back(const AttemptRate& rate, const std::string& name);
    /// Those that were full before this moment.
    void forget(Instant full_before);

    [[nodiscard]] std::size_t size() const noexcept { return buckets_.size(); }

  private:
    /// A bucket, kept as the time at which it will be full again.
    struct Bucket {
        Instant full_at{};
        unsigned tries = 0;  ///< not given back
    };
    void move(const std::string& name, Bucket& bucket, Instant to);
    void drop_fullest();

    std::map<std::string, Bucket> buckets_;
    /// The same names; first the one that tells least, with the most tries left.
    std::set<std::pair<Instant, std::string>> by_full_at_;
};

class AttemptLimiter {
  public:
    using Instant = AttemptBuckets::Instant;

    explicit AttemptLimiter(AttemptLimits limits = {});

    /// Takes a try, as a failed one until it is given back. Nothing: go on; else the time after
    /// which this address may try again.
    [[nodiscard]] std::optional<std::chrono::milliseconds> take(const std::string& address,
                                                                Instant now);
    /// For a try with a right code, or one that nobody looked at: it was none of a stranger's.
    void give_back(const std::string& address);

    [[nodiscard]] std::size_t addresses() const;

  private:
    AttemptLimits limits_;
    mutable std::mutex mutex_;
    AttemptBuckets failed_;
    AttemptBuckets networks_;
    Instant overall_{};
};

/// One try that was taken. It is given back when it ends, unless the code was looked at and was
/// wrong: a call that ran out of time or found no place was no guess.
class Attempt {
  public:
    Attempt(AttemptLimiter& limiter, std::string address)
        : limiter_{limiter}, address_{std::move(address)} {}
    ~Attempt();
    Attempt(const Attempt&) = delete;
    Attempt& operator=(const Attempt&) = delete;

    void failed() noexcept { failed_ = true; }
    [[nodiscard]] const std::string& address() const noexcept { return address_; }

  private:
    AttemptLimiter& limiter_;
    std::string address_;
    bool failed_ = false;
};

/// The address of a peer as gRPC writes it ("ipv4:192.0.2.7:51234"), without the port; an IPv6
/// address in its shortest form. What is not such an address comes back whole.
[[nodiscard]] std::string address_of_peer(std::string_view peer);

/// The IPv6 network (/64) of such an address: one machine may have all addresses of it. Empty for
/// every other address.
[[nodiscard]] std::string network_of(const std::string& address);

}  // namespace courthand::server::auth
